#pragma once

#include "core/spec/held_readings.h"
#include "core/spec/more_readings.h"

#include <nlohmann/json_fwd.hpp>

#include <iosfwd>

namespace stillroom::headless {

// `more` of `read` and `show`.
nlohmann::ordered_json moreJson(const spec::Spec& spec, const spec::FurtherReadings& further);
void writeMore(std::ostream& out, const spec::FurtherReadings& further);

// The minutes a reader is told of.
inline constexpr int kHeldMinutes[] = {0, 5, 10, 15, 20, 30};
// `held` of `read` and `show`; null when the drink cannot be followed.
nlohmann::ordered_json heldJson(const spec::Spec& spec, const spec::Bindings& bindings);
void writeHeld(std::ostream& out, const spec::Spec& spec, const spec::Bindings& bindings);

} // namespace stillroom::headless
