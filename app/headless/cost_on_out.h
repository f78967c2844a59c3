#pragma once

#include "core/larder/larder.h"
#include "core/preparation/nesting.h"
#include "core/spec/evaluate.h"
#include "core/spec/spec.h"

#include <nlohmann/json_fwd.hpp>

#include <string>

namespace stillroom::headless {

// What one serve of a spec cost on a day, everything in it made here at the prices of that day.
struct CostOn {
    std::string day; // civil date; empty: not asked
    spec::Reading cost;
};
std::string dayAsked(const std::string& text); // or a FileProblem: no day that exists
std::string costOnText(const CostOn& cost, const quantity::Currency& currency); // "1.75 EUR on 2026-03-01"
nlohmann::ordered_json costOnJson(const CostOn& cost, const spec::Spec& spec,
                                  const quantity::Currency& currency);

} // namespace stillroom::headless
