#pragma once

#include "core/physics/conversions/conversions.h"

#include <map>
#include <string>
#include <string_view>

namespace stillroom::exchange {

using TypedEntries = std::map<std::string, std::string, std::less<>>; // by key, as a person typed them

// What was typed for one input, in the input's unit: "22,5", "1/2", "1 1/2", "-18", "45 ml", "2 floz", "68
// °F", "14 psi", "2:1" for a syrup. A comma that could group thousands is taken for what fits the input's
// range, and refused when both fit.
tl::expected<physics::ConversionValue, physics::ConversionProblem>
readConversionEntry(const physics::ConversionInput& input, std::string_view text);

// All of them read, then converted. An empty text is one not given. "3 floz" as an amount of `measures` says
// its measure as well.
tl::expected<physics::Converted, physics::ConversionProblem>
convertTyped(const physics::Conversion& conversion, const TypedEntries& entries);
// The values that convertTyped takes: for showing what was understood.
tl::expected<physics::ConversionValues, physics::ConversionProblem>
readConversionEntries(const physics::Conversion& conversion, const TypedEntries& entries);

} // namespace stillroom::exchange
