#pragma once

#include "core/spec/glass_filling.h"
#include "core/spec/spec.h"

#include <nlohmann/json_fwd.hpp>

#include <iosfwd>
#include <string>
#include <vector>

namespace stillroom::headless {

std::string fillDoubtWords(const spec::FillDoubt& doubt, const spec::Spec& drink);

// `glass_fill` of `read` and `show`. `lineOf[i]`: where the spec's line i stands in the `lines` shown.
nlohmann::ordered_json glassFillJson(const spec::GlassFilling& filling, const spec::Spec& drink,
                                     const std::vector<int>& lineOf);
// From the top down, as it stands on the table.
void writeGlassFill(std::ostream& out, const spec::GlassFilling& filling, const spec::Spec& drink);

} // namespace stillroom::headless
