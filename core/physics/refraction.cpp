#include "core/physics/refraction.h"

#include "core/physics/bracketed_root.h"
#include "core/physics/polynomial.h"
#include "core/physics/sucrose_water.h"

#include <cmath>

namespace stillroom::physics {

namespace {

using quantity::Density;
using quantity::MassFraction;

constexpr std::array<double, 6> kBrixByIndex = {-99127.4536, 318417.95, -413145.80,
                                                270177.93,   -88885.21, 11758.74};
constexpr double kLowestIndex = 1.3325;
constexpr double kHighestIndex = 1.505;
constexpr double kMostBrix = 85;
constexpr double kModulus = 145;

double waterAt20() noexcept {
    return waterDensity(quantity::Temperature::fromCelsius(20)).kgPerM3();
}

} // namespace

std::optional<MassFraction> brixFromRefractiveIndex(double index) noexcept {
    if (!(index >= kLowestIndex && index <= kHighestIndex)) return std::nullopt;
    const double percent = horner(kBrixByIndex, index);
    // The fit is 0.02 off at water itself.
    if (percent < -0.05 || percent > kMostBrix) return std::nullopt;
    return MassFraction::fromPercent(percent < 0 ? 0 : percent);
}

std::optional<double> refractiveIndex(MassFraction sucrose) noexcept {
    if (!(sucrose.percent() >= 0 && sucrose.percent() <= kMostBrix)) return std::nullopt;
    return bracketedRoot([&](double n) { return horner(kBrixByIndex, n) - sucrose.percent(); }, kLowestIndex,
                         kHighestIndex, 1e-12);
}

std::optional<double> baume(Density at20) noexcept {
    const double relative = at20.kgPerM3() / waterAt20();
    if (!(relative >= 1) || !std::isfinite(relative)) return std::nullopt;
    return kModulus - kModulus / relative;
}

std::optional<Density> densityFromBaume(double degrees) noexcept {
    if (!(degrees >= 0 && degrees < kModulus)) return std::nullopt;
    return Density::fromKgPerM3(waterAt20() * kModulus / (kModulus - degrees));
}

} // namespace stillroom::physics
