#include "core/physics/water_activity.h"

#include "core/physics/freezing.h"
#include "core/physics/sucrose_activity.h"

#include <array>
#include <cmath>

namespace stillroom::physics {

namespace {

using quantity::MassFraction;
using quantity::Temperature;

constexpr double kWaterGPerMol = 18.015;
constexpr double kMonosaccharideGPerMol = 180.16;
// From memory: R. S. Norrish, J. Food Technol. 1 (1966) 25-39.
constexpr double kNorrishGlucose = 2.25;
constexpr double kNorrishFructose = 2.15;

constexpr double kCheckedShare = 0.42; // of sucrose in its water: the CRC Handbook's freezing points end

double disaccharidesOf(const Composition& mixture) noexcept {
    return mixture[Substance::Sucrose] + mixture[Substance::Lactose] + mixture[Substance::OtherSugar];
}

double norrishLn(double sugar, double water, double k) noexcept {
    const double moles = sugar / kMonosaccharideGPerMol;
    const double x = moles / (moles + water / kWaterGPerMol);
    return std::log(1 - x) - k * x * x;
}

struct Saturation {
    double celsius;
    double massPercent;
};
constexpr std::array<Saturation, 15> kSaturation = {{{0, 64.18},
                                                     {5, 64.87},
                                                     {10, 65.58},
                                                     {15, 66.33},
                                                     {20, 67.09},
                                                     {25, 67.89},
                                                     {30, 68.70},
                                                     {40, 70.42},
                                                     {45, 71.32},
                                                     {50, 72.25},
                                                     {60, 74.18},
                                                     {70, 76.22},
                                                     {80, 78.36},
                                                     {90, 80.61},
                                                     {100, 82.97}}};

} // namespace

std::optional<WaterActivityTerms> waterActivityTerms(const Composition& mixture, Temperature t) noexcept {
    const double water = mixture[Substance::Water];
    if (!(water > 0) || !mixture.isSound() || !(t.celsius() >= 0 && t.celsius() <= 40)) return std::nullopt;
    const auto others = freezing(mixture);
    if (!others) return std::nullopt;
    const double disaccharides = disaccharidesOf(mixture);
    WaterActivityTerms terms;
    terms.lnEthanol = others->lnAwEthanol;
    terms.lnDisaccharides = SucroseActivity(disaccharides / (disaccharides + water)).lnAt(t.kelvin());
    terms.lnGlucose = norrishLn(mixture[Substance::Glucose], water, kNorrishGlucose);
    terms.lnFructose = norrishLn(mixture[Substance::Fructose], water, kNorrishFructose);
    terms.lnAcid = others->lnAwAcid;
    terms.lnSalt = others->lnAwSalt;
    return terms;
}

std::optional<Marked<double>> waterActivity(const Composition& mixture, Temperature t) noexcept {
    const auto terms = waterActivityTerms(mixture, t);
    if (!terms) return std::nullopt;
    const double disaccharides = disaccharidesOf(mixture);
    const bool plain =
        terms->lnEthanol + terms->lnAcid + terms->lnSalt + terms->lnGlucose + terms->lnFructose == 0 &&
        disaccharides == mixture[Substance::Sucrose];
    const bool checked = disaccharides <= kCheckedShare * (disaccharides + mixture[Substance::Water]);
    const bool estimate = !plain || !checked;
    return Marked<double>{std::exp(terms->sum()), estimate};
}

std::optional<MassFraction> sucroseSolubility(Temperature t) noexcept {
    const double celsius = t.celsius();
    if (!(celsius >= kSaturation.front().celsius && celsius <= kSaturation.back().celsius))
        return std::nullopt;
    std::size_t i = 1;
    while (i + 1 < kSaturation.size() && kSaturation[i].celsius < celsius)
        ++i;
    const Saturation& a = kSaturation[i - 1];
    const Saturation& b = kSaturation[i];
    const double share = (celsius - a.celsius) / (b.celsius - a.celsius);
    return MassFraction::fromPercent(a.massPercent + share * (b.massPercent - a.massPercent));
}

} // namespace stillroom::physics
