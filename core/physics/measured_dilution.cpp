#include "core/physics/measured_dilution.h"

#include "core/physics/bracketed_root.h"
#include "core/physics/freezing.h"
#include "core/physics/mixture.h"

#include <algorithm>
#include <cmath>

namespace stillroom::physics {

namespace {

using quantity::Mass;

// `excess` of the drink with so much more water: zero at the measurement.
template <class Excess>
std::optional<Mass> waterWhere(const Composition& mixed, Excess&& excess) noexcept {
    if (!mixed.isSound()) return std::nullopt;
    Composition wetter = mixed;
    const auto atWater = [&](double water) {
        wetter[Substance::Water] = mixed[Substance::Water] + water;
        return excess(wetter);
    };
    const double most = 100 * mixed.totalGrams();
    const auto water = bracketedRoot(atWater, 0.0, most, 1e-9 * most);
    if (!water) return std::nullopt;
    return Mass::fromGrams(*water);
}

} // namespace

std::optional<Mass> waterFromWeight(const Composition& mixed, Mass after) noexcept {
    const double water = after.grams() - mixed.totalGrams();
    if (!(water >= 0) || !std::isfinite(water)) return std::nullopt;
    return Mass::fromGrams(water);
}

std::optional<Mass> waterFromVolume(const Composition& mixed, quantity::Volume after) noexcept {
    return waterWhere(mixed, [&](const Composition& c) { return volumeAt20(c).ml() - after.ml(); });
}

std::optional<Mass> waterFromStrength(const Composition& mixed, quantity::Strength after) noexcept {
    return waterToReach(mixed, after);
}

std::optional<Mass> waterFromTemperature(const Composition& mixed, quantity::Temperature onIce) noexcept {
    if (!(mixed[Substance::Water] > 0)) return std::nullopt;
    return waterWhere(mixed, [&](const Composition& c) { return freezingOnset(c).value.minus(onIce); });
}

Calibration calibrated(std::span<const PredictedAndMeasured> pairs) noexcept {
    Calibration c;
    double sum = 0;
    double squares = 0;
    for (const PredictedAndMeasured& pair : pairs) {
        if (!(pair.predicted > 0 && pair.measured > 0)) continue;
        const double factor = pair.measured / pair.predicted;
        if (!std::isfinite(factor * factor)) continue;
        c.low = c.measurements == 0 ? factor : std::min(c.low, factor);
        c.high = c.measurements == 0 ? factor : std::max(c.high, factor);
        ++c.measurements;
        sum += factor;
        squares += factor * factor;
    }
    if (c.measurements == 0) return c;
    const auto n = static_cast<double>(c.measurements);
    c.factor = sum / n;
    if (c.measurements > 1)
        c.standardDeviation = std::sqrt(std::max(0.0, (squares - n * c.factor * c.factor) / (n - 1)));
    return c;
}

} // namespace stillroom::physics
