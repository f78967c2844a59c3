#include "core/physics/carbonation.h"

#include "core/physics/mixture.h"

#include <cmath>

namespace stillroom::physics {

namespace {

using quantity::Strength;
using quantity::Temperature;

constexpr double kAtmBar = 1.01325;
constexpr double kGPerMol = 44.0095;
constexpr double kMostBar = 10;
constexpr double kMostStrength = 0.30;

// Weiss 1974, mol/(l atm).
double henry(Temperature t) noexcept {
    const double x = t.kelvin() / 100;
    return std::exp(-58.0931 + 90.5069 / x + 22.2940 * std::log(x));
}

bool inRange(Temperature t, Strength strength) noexcept {
    return t.celsius() >= 0 && t.celsius() <= 40 && strength.fraction() >= 0 &&
           strength.fraction() <= kMostStrength;
}

} // namespace

std::optional<Marked<Fizz>> dissolvedAt(GaugePressure pressure, Temperature t, Strength strength) noexcept {
    if (!inRange(t, strength) || !(pressure.bar() >= 0 && pressure.bar() <= kMostBar)) return std::nullopt;
    const double atm = (pressure.bar() + kAtmBar) / kAtmBar;
    return Marked<Fizz>{Fizz::fromGPerL(henry(t) * atm * kGPerMol), strength.fraction() > 0};
}

std::optional<Marked<GaugePressure>> pressureFor(Fizz wanted, Temperature t, Strength strength) noexcept {
    if (!inRange(t, strength)) return std::nullopt;
    const double bar = (wanted.gPerL() / (henry(t) * kGPerMol) - 1) * kAtmBar;
    if (!(bar >= 0 && bar <= kMostBar)) return std::nullopt;
    return Marked<GaugePressure>{GaugePressure::fromBar(bar), strength.fraction() > 0};
}

std::optional<Fizz> fizzAtMost(const Composition& mixture) noexcept {
    const double litres = volumeAt20(mixture).litres();
    if (!(litres > 0) || !mixture.isSound()) return std::nullopt;
    return Fizz::fromGPerL(mixture[Substance::CarbonDioxide] / litres);
}

} // namespace stillroom::physics
