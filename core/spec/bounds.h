#pragma once

#include "core/spec/scenario.h"

namespace stillroom::spec {

// Per serve; NaN where a quantity does not apply.
using RawStages = std::array<std::array<double, kQuantityCount>, kStageCount>;

RawStages rawReadings(const Pass& pass, int serves, double standardDrinkGrams) noexcept;

// Turns exact readings of the plain pass into bounds wherever an open question can be seen in them.
void applyBounds(const Spec& spec, const Bindings::Data& data, const Pass& plain, const RawStages& raw,
                 Readings& readings) noexcept;

} // namespace stillroom::spec
