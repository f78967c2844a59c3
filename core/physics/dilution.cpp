#include "core/physics/dilution.h"

#include <algorithm>

namespace stillroom::physics {

namespace {

constexpr double kWeakest = 0.15;
constexpr double kStrongest = 0.45;
constexpr double kBuiltRatio = 0.24;
constexpr double kWaterGPerMl = 0.9982;

} // namespace

Marked<double> dilutionRatio(IceMethod method, quantity::Strength before) noexcept {
    if (method == IceMethod::Built) return {kBuiltRatio, false};
    const double a = std::clamp(before.fraction(), kWeakest, kStrongest);
    const bool outside = a != before.fraction();
    if (method == IceMethod::Stirred) return {(-1.21 * a + 1.246) * a + 0.145, outside};
    return {(-1.567 * a + 1.742) * a + 0.203, outside};
}

quantity::Mass waterFromDilution(double ratio, quantity::Volume before) noexcept {
    return quantity::Mass::fromGrams(ratio * before.ml() * kWaterGPerMl);
}

double dilutionFromWater(quantity::Mass water, quantity::Volume before) noexcept {
    return water.grams() / kWaterGPerMl / before.ml();
}

double shareOfFinished(double ratio) noexcept {
    return ratio / (1 + ratio);
}

} // namespace stillroom::physics
