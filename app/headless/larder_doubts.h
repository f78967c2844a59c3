#pragma once

#include "core/larder/cost_of.h"
#include "core/preparation/findings.h"

#include <string>
#include <vector>

namespace stillroom::headless {

// Why there is no cost, as the end of a sentence.
std::string noCost(larder::CostProblem problem);
// What is wrong or hard to believe of an ingredient as it would be, one sentence each.
std::vector<std::string> doubtsOf(const std::vector<preparation::Finding>& findings,
                                  const larder::Ingredient& of, const larder::Larder& larder);

} // namespace stillroom::headless
