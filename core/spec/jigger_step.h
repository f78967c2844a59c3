#pragma once

#include "core/spec/spec.h"

#include <optional>

namespace stillroom::spec {

// What a jigger's marks lie apart, in the measure itself: 2.5 ml, a quarter ounce, half a spoon, one dash.
// Common practice, no source.
quantity::Rational jiggerStep(std::optional<quantity::Measure> measure);
// The next mark above (direction > 0) or below. nullopt: no exact amount, or nothing left below.
std::optional<Measured> steppedOnJiggers(const Measured& measured, int direction);

} // namespace stillroom::spec
