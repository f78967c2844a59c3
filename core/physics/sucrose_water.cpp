#include "core/physics/sucrose_water.h"

#include "core/physics/bracketed_root.h"
#include "core/physics/polynomial.h"

#include <algorithm>
#include <cmath>

namespace stillroom::physics {

namespace {

using quantity::Density;
using quantity::Mass;
using quantity::MassFraction;
using quantity::Temperature;
using quantity::Volume;

// ICUMSA SPS-4, printed in Bubnik et al., Sugar Technologists Manual, 8th ed. 1995. One of two public
// transcriptions has -3.9646 for the fourth coefficient of the first row: below 0.0003 kg/m³.
constexpr std::array<double, 7> kAt20 = {0, 385.1761, 135.3705, 40.9299, -3.9643, 13.4853, -17.289};
constexpr std::array<double, 6> kPerX = {0, -46.272, -7.172, 1.1597, 5.1126, 17.5254};
constexpr std::array<double, 5> kPerX2 = {0, 59.7712, 7.2491, 12.363, -35.4791};
constexpr std::array<double, 4> kPerX3 = {0, -47.2207, -21.6977, 27.6301};
constexpr std::array<double, 3> kPerX4 = {0, 18.3184, 12.3081};
constexpr std::array<double, 6> kWater = {999.83952,     16.952577,    -7.9905127e-3,
                                          -46.241757e-6, 105.84601e-9, -281.03006e-12};
constexpr double kWaterDivisor = 16.887236e-3;

constexpr double kMostSugar = 0.85;
constexpr double kColdest = 0;
constexpr double kWarmest = 100;
constexpr double kColdestEstimate = -20;
constexpr double kWarmestEstimate = 110;

constexpr double waterAt(double celsius) noexcept {
    return horner(kWater, celsius) / (1 + kWaterDivisor * celsius);
}
constexpr double kWaterAt20 = waterAt(20);

double solutionAt20(double w) noexcept {
    return kWaterAt20 + horner(kAt20, w);
}

double solutionAt(double w, double celsius) noexcept {
    const double x = (celsius - 20) / 100;
    return waterAt(celsius) +
           horner(std::array<double, 5>{horner(kAt20, w), horner(kPerX, w), horner(kPerX2, w),
                                        horner(kPerX3, w), horner(kPerX4, w)},
                  x);
}

// g and kg/m³ to ml.
template <class SolutionDensity>
Volume addedVolume(double sugar, double water, double waterRho, SolutionDensity&& rho) noexcept {
    if (!(sugar > 0)) return {};
    const double total = sugar + water;
    const double w = sugar / total;
    if (w <= kMostSugar) return Volume::fromMl(1000 * (total / rho(w) - water / waterRho));
    const double perGram = (1 / rho(kMostSugar) - (1 - kMostSugar) / waterRho) / kMostSugar;
    return Volume::fromMl(1000 * sugar * perGram);
}

} // namespace

Density waterDensity(Temperature t) noexcept {
    return Density::fromKgPerM3(waterAt(std::clamp(t.celsius(), kColdestEstimate, kWarmestEstimate)));
}

std::optional<Marked<Density>> sucroseWaterDensity(MassFraction sucrose, Temperature t) noexcept {
    const double w = sucrose.fraction();
    const double celsius = t.celsius();
    if (!(w >= 0 && w <= 1 && celsius >= kColdestEstimate && celsius <= kWarmestEstimate))
        return std::nullopt;
    const bool estimate = w > kMostSugar || celsius < kColdest || celsius > kWarmest;
    return Marked<Density>{Density::fromKgPerM3(solutionAt(w, celsius)), estimate};
}

Density sucroseWaterDensityAt20(MassFraction sucrose) noexcept {
    return Density::fromKgPerM3(solutionAt20(sucrose.fraction()));
}

Volume sugarVolumeAt20(Mass sugar, Mass water) noexcept {
    return addedVolume(sugar.grams(), water.grams(), kWaterAt20, solutionAt20);
}

Volume sugarVolume(Mass sugar, Mass water, Temperature t) noexcept {
    const double celsius = std::clamp(t.celsius(), kColdest, kWarmestEstimate);
    return addedVolume(sugar.grams(), water.grams(), waterAt(celsius),
                       [celsius](double w) { return solutionAt(w, celsius); });
}

std::optional<Marked<MassFraction>> brixFromDensity(Density density, Temperature t) noexcept {
    const auto water = sucroseWaterDensity(MassFraction::fromFraction(0), t);
    if (!water) return std::nullopt;
    const auto root = bracketedRoot(
        [&](double w) {
            return sucroseWaterDensity(MassFraction::fromFraction(w), t)->value.kgPerM3() - density.kgPerM3();
        },
        0.0, 1.0, 1e-13);
    if (!root) return std::nullopt;
    return Marked<MassFraction>{MassFraction::fromFraction(*root), water->estimate || *root > kMostSugar};
}

} // namespace stillroom::physics
