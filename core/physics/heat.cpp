#include "core/physics/heat.h"

#include "core/physics/pchip.h"
#include "core/physics/polynomial.h"

#include <algorithm>
#include <cmath>

namespace stillroom::physics {

namespace {

using quantity::Mass;
using quantity::MassFraction;
using quantity::Temperature;

// Melinder 2010: sum c[i][j] (T - Tm)^i (p - pm)^j, J/(kg K).
constexpr double kTmCelsius = 281.3078 - 273.15;
constexpr double kPm = 0.292361;
constexpr std::array<double, 6> kC0 = {4204, -2102, -3714, 17430, -6292, -82900};
constexpr std::array<double, 5> kC1 = {2.319, 49.27, -23.35, -296.9, 535.3};
constexpr std::array<double, 4> kC2 = {-0.03042, -0.3072, -0.196, 1.901};
constexpr std::array<double, 3> kC3 = {0.000686, -0.00569, 0.007461};
constexpr double kMostEthanol = 0.60;
constexpr double kColdest = -45;
constexpr double kWarmest = 40;

constexpr double kSolidsCp = 1.7;
constexpr double kFatCp = 2.0;

constexpr double kEthanolGPerMol = 46.069;
constexpr double kWaterGPerMol = 18.015;
constexpr double kMixedAtCelsius = 25;

// Mole fraction of ethanol -> J per mole of mixture at 298.15 K.
constexpr Pchip<14> kExcessEnthalpy({{{0, 0},
                                      {0.0582, -492},
                                      {0.1198, -747},
                                      {0.15, -770},
                                      {0.1837, -767},
                                      {0.25, -702},
                                      {0.2981, -649},
                                      {0.4127, -501},
                                      {0.5, -391},
                                      {0.607, -323},
                                      {0.701, -271},
                                      {0.812, -206},
                                      {0.9, -148},
                                      {1, 0}}});

} // namespace

Marked<double> ethanolWaterCp(MassFraction ethanol, Temperature t) noexcept {
    const double p = std::clamp(ethanol.fraction(), 0.0, kMostEthanol);
    const double celsius = std::clamp(t.celsius(), kColdest, kWarmest);
    const double dp = p - kPm;
    const double jPerKgK =
        horner(std::array<double, 4>{horner(kC0, dp), horner(kC1, dp), horner(kC2, dp), horner(kC3, dp)},
               celsius - kTmCelsius);
    return {jPerKgK / 1000, p != ethanol.fraction() || celsius != t.celsius()};
}

double dissolvedSugarCp(Temperature t) noexcept {
    return 1.673 + 0.0075 * t.celsius();
}

double drySugarCp(Temperature t) noexcept {
    return 4.1868 * (0.2712 + 0.00103 * t.celsius());
}

Marked<double> heatCapacityJPerK(const Composition& mixture, Temperature t) noexcept {
    const double ethanol = mixture[Substance::Ethanol];
    const double liquid = ethanol + mixture[Substance::Water];
    const double sugar = mixture.sugarGrams();
    const double fat = mixture[Substance::Fat];
    const double rest = mixture.totalGrams() - liquid - sugar - fat;
    const auto cp = ethanolWaterCp(MassFraction::fromFraction(liquid > 0 ? ethanol / liquid : 0), t);
    return {liquid * cp.value + sugar * dissolvedSugarCp(t) + fat * kFatCp + rest * kSolidsCp,
            cp.estimate && liquid > 0};
}

double mixingHeatJ(const Composition& mixture) noexcept {
    const double ethanol = mixture[Substance::Ethanol] / kEthanolGPerMol;
    if (!(ethanol > 0)) return 0;
    const double moles = ethanol + mixture[Substance::Water] / kWaterGPerMol;
    return moles * kExcessEnthalpy(ethanol / moles);
}

Marked<double> liquidEnthalpyJ(const Composition& mixture, Temperature t) noexcept {
    const double fromMixing = t.celsius() - kMixedAtCelsius;
    const auto capacity =
        heatCapacityJPerK(mixture, Temperature::fromCelsius(kMixedAtCelsius + fromMixing / 2));
    return {mixingHeatJ(mixture) + capacity.value * fromMixing, capacity.estimate};
}

double materialCp(Material material) noexcept {
    switch (material) {
    case Material::Steel:
        return 0.500;
    case Material::SodaLimeGlass:
        return 0.840;
    case Material::BorosilicateGlass:
        return 0.850;
    case Material::Tin:
        return 0.222;
    case Material::Brass:
        return 0.380;
    case Material::Copper:
        return 0.390;
    case Material::Aluminium:
        return 0.897;
    case Material::Polycarbonate: // Callister; other tables 1.2
        return 0.840;
    case Material::Porcelain:
        return 1.0;
    }
    return 0.840;
}

HeatStore vessel(Mass mass, Material material, Temperature t) noexcept {
    return {mass.grams() * materialCp(material), t};
}

std::optional<Temperature> balancedTemperature(std::span<const HeatStore> stores) noexcept {
    double capacity = 0;
    double heat = 0;
    for (const HeatStore& store : stores) {
        capacity += store.joulesPerK;
        heat += store.joulesPerK * store.t.celsius();
    }
    if (!(capacity > 0) || !std::isfinite(heat / capacity)) return std::nullopt;
    return Temperature::fromCelsius(heat / capacity);
}

} // namespace stillroom::physics
