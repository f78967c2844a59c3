#pragma once

#include "core/preparation/findings.h"

// Which of an ingredient's facts are hard to believe together, or under its name: the findings that never
// refuse. Asked of an ingredient alone, so that it can be told while a fact is typed.
namespace stillroom::preparation {

// Contradiction and Doubt, in the order of findings().
std::vector<Finding> doubtsOf(const larder::Ingredient& ingredient);

// The facts that such a finding is about, of larder::factKeys(); empty for what is no doubt of facts.
std::vector<std::string_view> keysInDoubt(const Finding& finding);

} // namespace stillroom::preparation
