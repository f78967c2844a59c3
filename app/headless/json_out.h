#pragma once

#include "core/exchange/read_text.h"
#include "core/larder/larder.h"
#include "core/spec/caution.h"
#include "core/spec/evaluate.h"
#include "core/spec/spec.h"

#include <nlohmann/json_fwd.hpp>

#include <iosfwd>
#include <string>
#include <vector>

namespace stillroom::headless {

// The JSON of `read` and `show`: DEVELOPERS.md documents it, tests/app holds it to that.

// A line as read; `matched` says what the larder took its name for.
nlohmann::ordered_json readLineJson(const exchange::ReadLine& line, const larder::Larder& larder);
// A line of a stored spec, in the same keys.
nlohmann::ordered_json specLineJson(const spec::Line& line, const larder::Larder& larder);
nlohmann::ordered_json doubtsJson(const std::vector<exchange::Doubt>& doubts);

// One reading: {value, upper, unit, bound, estimate, gaps}.
nlohmann::ordered_json readingJson(const spec::Spec& spec, const spec::Reading& reading,
                                   std::string_view unit);
// {"measured": {"strength": {value, upper, unit, bound, gaps}, …}, "mixed": …, "served": …}. `gaps` of a
// reading names the ingredients it lacks a fact of.
nlohmann::ordered_json stagesJson(const spec::Spec& spec, const spec::Readings& readings,
                                  const quantity::Currency& currency);
// `lineOf[i]`: where the spec's line i stands in the `lines` shown.
nlohmann::ordered_json gapsJson(const std::vector<spec::Gap>& gaps, const std::vector<int>& lineOf);
nlohmann::ordered_json allergensJson(const spec::AllergenSummary& allergens, const spec::Spec& spec);
nlohmann::ordered_json cautionsJson(const std::vector<spec::Caution>& cautions,
                                    const std::vector<int>& lineOf);

// The same JSON with nothing in it that a terminal would obey, written as escapes.
std::string safeJson(const std::string& json);
// Pretty, UTF-8, and nothing in it that a terminal would obey: controls stay escaped.
void writeJson(std::ostream& out, const nlohmann::ordered_json& json);

} // namespace stillroom::headless
