#pragma once

#include "core/physics/conversions/conversions.h"

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::exchange {

using TypedEntries = std::map<std::string, std::string, std::less<>>; // by key, as a person typed them

// What was typed for one input, in the input's unit: "22,5", "1/2", "1 1/2", "-18", "1e3", "45 ml", "2 floz",
// "68 °F", "14 psi", "2:1" for a syrup. A comma that could group thousands is taken for what fits the input's
// range, and refused when both fit.
tl::expected<physics::ConversionValue, physics::ConversionProblem>
readConversionEntry(const physics::ConversionInput& input, std::string_view text);

// All of them read, then converted; what was assumed of a measure is among the remarks. Keys are read case
// aside, and an empty text is one not given. "3 floz" as an amount of `measures` says
// its measure as well.
tl::expected<physics::Converted, physics::ConversionProblem>
convertTyped(const physics::Conversion& conversion, const TypedEntries& entries);
// The values that convertTyped takes: for showing what was understood.
tl::expected<physics::ConversionValues, physics::ConversionProblem>
readConversionEntries(const physics::Conversion& conversion, const TypedEntries& entries);

// Whole sentences, one for each measure whose name alone does not say which it is: "2 oz", "1 pint".
std::vector<std::string_view> assumedMeasures(const physics::Conversion& conversion,
                                              const TypedEntries& entries);

} // namespace stillroom::exchange
