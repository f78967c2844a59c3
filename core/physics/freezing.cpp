#include "core/physics/freezing.h"

#include "core/physics/bracketed_root.h"
#include "core/physics/mixture.h"
#include "core/physics/pchip.h"
#include "core/physics/sucrose_activity.h"

#include <algorithm>
#include <cmath>

namespace stillroom::physics {

namespace {

using quantity::Mass;
using quantity::Strength;
using quantity::Temperature;

constexpr double kGasConstant = 8.314462;
constexpr double kFusionJPerMol = 6009.5;
constexpr double kFusionCpJPerMolK = 38.1;
constexpr double kMeltingK = 273.15;
constexpr double kWaterGPerMol = 18.015;
constexpr double kCitricGPerMol = 192.12;
constexpr double kSolidBelowLiquidShare = 0.3;

// g/100 g of solute + water -> °C. CRC Handbook, 102nd ed., concentrative properties, with (0, 0).
constexpr Pchip<31> kEthanol(
    {{{0, 0},       {0.5, -0.2},  {1, -0.4},    {2, -0.81},   {3, -1.23},   {4, -1.65},   {5, -2.09},
      {6, -2.54},   {8, -3.47},   {10, -4.47},  {11, -5},     {12, -5.56},  {14, -6.73},  {15, -7.36},
      {16, -8.01},  {18, -9.4},   {20, -10.92}, {24, -14.47}, {26, -16.41}, {28, -18.43}, {30, -20.47},
      {34, -24.27}, {36, -25.98}, {40, -29.26}, {44, -32.68}, {48, -36.04}, {50, -37.67}, {54, -40.65},
      {60, -44.93}, {64, -47.52}, {68, -49.52}}});
constexpr Pchip<18> kSucrose({{{0, 0},
                               {1, -0.06},
                               {2, -0.11},
                               {5, -0.29},
                               {8, -0.49},
                               {10, -0.63},
                               {12, -0.77},
                               {15, -1.01},
                               {18, -1.27},
                               {20, -1.47},
                               {24, -1.89},
                               {28, -2.37},
                               {30, -2.64},
                               {32, -2.94},
                               {36, -3.63},
                               {38, -4.02},
                               {40, -4.45},
                               {42, -4.93}}});
constexpr Pchip<5> kGlucose({{{0, 0}, {5, -0.55}, {10, -1.17}, {20, -2.70}, {30, -4.79}}});
constexpr Pchip<4> kFructose({{{0, 0}, {5, -0.54}, {10, -1.16}, {20, -2.64}}});
constexpr Pchip<5> kCitric({{{0, 0}, {5, -0.54}, {10, -1.12}, {20, -2.57}, {30, -4.25}}});
constexpr Pchip<4> kLactic({{{0, 0}, {5, -0.95}, {10, -2.02}, {20, -4.44}}});
constexpr Pchip<4> kSalt({{{0, 0}, {5, -3.05}, {10, -6.56}, {20, -16.46}}});

double lnActivityAtK(double kelvin) noexcept {
    const double x = kelvin / kMeltingK;
    return -(kFusionJPerMol * (1 - x) + kFusionCpJPerMolK * ((kelvin - kMeltingK) - kelvin * std::log(x))) /
           (kGasConstant * kelvin);
}

double slopeAtK(double kelvin) noexcept {
    return (kFusionJPerMol + kFusionCpJPerMolK * (kelvin - kMeltingK)) / (kGasConstant * kelvin * kelvin);
}

double percentInWater(double grams, double water) noexcept {
    return 100 * grams / (grams + water);
}

template <class Table>
double lnActivityFromTable(const Table& table, double percent) noexcept {
    return lnActivityAtK(kMeltingK + table(percent));
}

// Norrish's form a_w = x_w exp(-K x_s²), with K such that it carries on from the table's last row.
template <class Table>
double beyondTable(const Table& table, double percent, double molarMass) noexcept {
    const auto moleShare = [molarMass](double pc) {
        const double solute = pc / molarMass;
        return solute / (solute + (100 - pc) / kWaterGPerMol);
    };
    const double last = moleShare(table.lastX());
    const double k = (std::log(1 - last) - lnActivityFromTable(table, table.lastX())) / (last * last);
    const double here = moleShare(percent);
    return std::log(1 - here) - k * here * here;
}

// Adds up the solutes; sugar that must be taken at the freezing temperature itself is left to the end.
struct Solutes {
    double ethanol = 0;
    double sugar = 0;
    double acid = 0;
    double salt = 0;
    double strongSucroseShare = 0; // mass share of sucrose in its water, when beyond the table
    bool estimate = false;

    template <class Table>
    double one(const Table& table, double grams, double water, double molarMass) noexcept {
        if (!(grams > 0)) return 0;
        const double percent = percentInWater(grams, water);
        if (percent <= table.lastX()) return lnActivityFromTable(table, percent);
        estimate = true;
        return beyondTable(table, percent, molarMass);
    }
};

double acidsAsCitric(const Composition& c) noexcept {
    using S = Substance;
    return kCitricGPerMol * (c[S::Malic] / 134.09 + c[S::Tartaric] / 150.09 + c[S::Acetic] / 60.05 +
                             c[S::Phosphoric] / 98.0 + c[S::Ascorbic] / 176.12 + c[S::Succinic] / 118.09);
}

Solutes solutesOf(const Composition& c) noexcept {
    using S = Substance;
    const double water = c[S::Water];
    Solutes s;
    if (c[S::Ethanol] > 0) {
        const double percent = percentInWater(c[S::Ethanol], water);
        s.estimate = percent > kEthanol.lastX();
        s.ethanol = lnActivityFromTable(kEthanol, percent);
    }
    const double disaccharides = c[S::Sucrose] + c[S::Lactose] + c[S::OtherSugar];
    if (disaccharides > 0) {
        const double percent = percentInWater(disaccharides, water);
        if (percent <= kSucrose.lastX())
            s.sugar = lnActivityFromTable(kSucrose, percent);
        else
            s.strongSucroseShare = percent / 100;
        // Only sucrose was measured; the others of its weight are taken as it.
        s.estimate |= percent > kSucrose.lastX();
    }
    s.sugar += s.one(kGlucose, c[S::Glucose], water, 180.16);
    s.sugar += s.one(kFructose, c[S::Fructose], water, 180.16);
    const double likeCitric = acidsAsCitric(c);
    s.acid = s.one(kCitric, c[S::Citric] + likeCitric, water, kCitricGPerMol);
    s.acid += s.one(kLactic, c[S::Lactic], water, 90.08);
    s.salt = s.one(kSalt, c[S::Salt], water, 58.44);
    return s;
}

// Newton on the ice equilibrium; with strong sugar its own activity moves with the temperature.
double freezingK(const Solutes& s) noexcept {
    const double fixed = s.ethanol + s.sugar + s.acid + s.salt;
    double kelvin = std::max(kMeltingK + 103 * fixed, 200.0);
    for (int i = 0; i < 30; ++i) {
        double wanted = fixed;
        double wantedSlope = 0;
        if (s.strongSucroseShare > 0) {
            const SucroseActivity sugar(s.strongSucroseShare);
            wanted += sugar.lnAt(kelvin);
            wantedSlope = sugar.slopeAt(kelvin);
        }
        const double step = (lnActivityAtK(kelvin) - wanted) / (slopeAtK(kelvin) - wantedSlope);
        kelvin = std::clamp(kelvin - step, 150.0, kMeltingK);
        if (std::abs(step) < 1e-4) break; // the next one would be below 1e-10
    }
    return kelvin;
}

Composition withWater(const Composition& mixture, double water) noexcept {
    Composition c = mixture;
    c[Substance::Water] = water;
    return c;
}

// The grams of water that leave the rest of the mixture with its onset at `t`.
std::optional<double> liquidWaterAt(const Composition& mixture, Temperature t, double most) noexcept {
    const auto excess = [&](double water) { return freezingOnset(withWater(mixture, water)).value.minus(t); };
    // Outward from the water that is there: with next to none the tables have ended long before, and what
    // they are continued by need not fall all the way.
    double low = mixture[Substance::Water];
    double high = low;
    while (excess(low) > 0) {
        high = low;
        low *= 0.5;
        if (!(low > 1e-6 * most)) return std::nullopt;
    }
    while (excess(high) < 0) {
        low = high;
        high *= 2;
        if (!(high <= most)) return std::nullopt;
    }
    return bracketedRoot(excess, low, high, 1e-10 * most);
}

} // namespace

std::optional<Freezing> freezing(const Composition& mixture) noexcept {
    if (!(mixture[Substance::Water] > 0) || !mixture.isSound()) return std::nullopt;
    const Solutes s = solutesOf(mixture);
    const double kelvin = freezingK(s);
    Freezing f;
    f.onset = Temperature::fromCelsius(kelvin - kMeltingK);
    f.estimate = s.estimate;
    f.lnAwEthanol = s.ethanol;
    f.lnAwSugar =
        s.sugar + (s.strongSucroseShare > 0 ? SucroseActivity(s.strongSucroseShare).lnAt(kelvin) : 0);
    f.lnAwAcid = s.acid;
    f.lnAwSalt = s.salt;
    return f;
}

Marked<Temperature> freezingOnset(const Composition& mixture) noexcept {
    const Solutes s = solutesOf(mixture);
    return {Temperature::fromCelsius(freezingK(s) - kMeltingK), s.estimate};
}

double lnWaterActivityOverIce(Temperature t) noexcept {
    return t.celsius() >= 0 ? 0 : lnActivityAtK(std::max(t.kelvin(), 150.0));
}

Temperature iceEquilibrium(double lnWaterActivity) noexcept {
    Solutes s;
    s.salt = std::min(lnWaterActivity, 0.0);
    return Temperature::fromCelsius(freezingK(s) - kMeltingK);
}

std::optional<InFreezer> atTemperature(const Composition& mixture, Temperature t) noexcept {
    const bool inRange = t.celsius() >= -45 && t.celsius() <= 40;
    if (!(mixture[Substance::Water] > 0) || !mixture.isSound() || !inRange) return std::nullopt;
    const Marked<Temperature> onset = freezingOnset(mixture);
    InFreezer result;
    result.marginK = t.minus(onset.value);
    result.liquid = mixture;
    result.estimate = onset.estimate;
    if (result.marginK < 0) {
        const double whole = mixture[Substance::Water];
        const auto water = liquidWaterAt(mixture, t, whole);
        result.liquid[Substance::Water] = water.value_or(0);
        result.ice = Mass::fromGrams(whole - result.liquid[Substance::Water]);
        result.iceShare = result.ice.grams() / mixture.totalGrams();
        result.state = 1 - result.iceShare < kSolidBelowLiquidShare ? ColdState::Solid : ColdState::Slush;
        result.estimate = !water || freezingOnset(result.liquid).estimate;
    }
    result.liquidStrength = strengthAt20(result.liquid).value_or(Strength{});
    return result;
}

std::optional<Strength> strengthToStayLiquid(const Composition& mixture, Temperature t) noexcept {
    const double ethanol = mixture[Substance::Ethanol];
    if (!(ethanol > 0) || !mixture.isSound() || !(t.celsius() < 0 && t.celsius() >= -45)) return std::nullopt;
    const auto water = liquidWaterAt(mixture, t, 1000 * mixture.totalGrams());
    if (!water) return std::nullopt;
    return strengthAt20(withWater(mixture, *water));
}

} // namespace stillroom::physics
