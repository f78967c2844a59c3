#include "core/physics/acid_ph.h"

#include "core/physics/bracketed_root.h"
#include "core/physics/mixture.h"

#include <array>
#include <cmath>

namespace stillroom::physics {

namespace {

struct Acid {
    Substance substance;
    double gPerMol;
    std::array<double, 3> pKa;
    int protons;
};

// At 25 °C and zero ionic strength. Citric, acetic: Principles of General Chemistry, App. C; malic: first
// constant aqion table, second from memory (CRC; aqion has 5.20); tartaric, lactic, succinic: aqion table;
// phosphoric: J. R. Fromm 1997; ascorbic: from memory, CRC; carbonic: Principles of General Chemistry.
constexpr std::array<Acid, 9> kAcids = {{
    {Substance::Citric, 192.12, {3.13, 4.76, 6.40}, 3},
    {Substance::Malic, 134.09, {3.40, 5.11, 0}, 2},
    {Substance::Tartaric, 150.09, {2.98, 4.34, 0}, 2},
    {Substance::Lactic, 90.08, {3.86, 0, 0}, 1},
    {Substance::Acetic, 60.05, {4.756, 0, 0}, 1},
    {Substance::Phosphoric, 98.0, {2.148, 7.206, 12.342}, 3},
    {Substance::Ascorbic, 176.12, {4.04, 11.7, 0}, 2},
    {Substance::Succinic, 118.09, {4.21, 5.64, 0}, 2},
    {Substance::CarbonDioxide, 44.0095, {6.35, 10.33, 0}, 2},
}};
constexpr double kWaterProduct = 1e-14;
constexpr double kDiluteMolPerL = 0.2;

// Mean negative charge per molecule at this concentration of H+.
double charge(const Acid& acid, double h) noexcept {
    double term = 1;
    double sum = 1;
    double charges = 0;
    for (int k = 1; k <= acid.protons; ++k) {
        term *= std::pow(10.0, -acid.pKa[static_cast<std::size_t>(k - 1)]) / h;
        sum += term;
        charges += k * term;
    }
    return charges / sum;
}

struct Solution {
    std::array<double, kAcids.size()> molPerL{};
    double total = 0;

    double excessAnions(double ph) const noexcept { // anions less H+, mol/l
        const double h = std::pow(10.0, -ph);
        double anions = kWaterProduct / h - h;
        for (std::size_t i = 0; i < kAcids.size(); ++i)
            if (molPerL[i] > 0) anions += molPerL[i] * charge(kAcids[i], h);
        return anions;
    }
};

std::optional<Solution> solutionOf(const Composition& mixture) noexcept {
    const double litres = volumeAt20(mixture).litres();
    if (!(mixture[Substance::Water] > 0) || !(litres > 0) || !mixture.isSound()) return std::nullopt;
    Solution s;
    for (std::size_t i = 0; i < kAcids.size(); ++i) {
        s.molPerL[i] = mixture[kAcids[i].substance] / kAcids[i].gPerMol / litres;
        s.total += s.molPerL[i];
    }
    return s;
}

} // namespace

std::optional<Marked<double>> pH(const Composition& mixture, double alkaliMolPerL) noexcept {
    const auto s = solutionOf(mixture);
    if (!s || !(alkaliMolPerL >= 0)) return std::nullopt;
    const auto ph =
        bracketedRoot([&](double x) { return s->excessAnions(x) - alkaliMolPerL; }, 0.0, 12.0, 1e-9);
    if (!ph) return std::nullopt;
    double other = mixture.totalGrams() - mixture[Substance::Water];
    for (const Acid& acid : kAcids)
        other -= mixture[acid.substance];
    const bool pureAndDilute = other <= 1e-9 * mixture.totalGrams() && s->total <= kDiluteMolPerL;
    return Marked<double>{*ph, !pureAndDilute || alkaliMolPerL > 0};
}

std::optional<double> alkaliForPh(const Composition& mixture, double measuredPh) noexcept {
    const auto s = solutionOf(mixture);
    if (!s || !(measuredPh >= 1 && measuredPh <= 8)) return std::nullopt;
    const double alkali = s->excessAnions(measuredPh);
    if (alkali < 0) return std::nullopt;
    return alkali;
}

} // namespace stillroom::physics
