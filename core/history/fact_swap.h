#pragma once

#include "core/history/history.h"
#include "core/larder/fact_changes.h"
#include "core/larder/larder.h"

#include <functional>
#include <string>
#include <vector>

namespace stillroom::history {

// The spec says the same and the drink is another all the same: what is poured for a line has other facts.
struct FactSwap {
    base::IngredientId ingredient; // named by a line of both
    std::string name;              // as the later of the two writes it
    bool bottle = false;           // another product is poured
    bool lot = false;              // another one made or bought
    bool remade = false;           // another revision of a preparation
    larder::FactChanges changes;   // figures or words that differ; who says so alone is no swap
    std::string ratio;             // "2:1": of a plain syrup, sugar to water by weight, when that changed
};

// The state of that hash; nullptr: not at hand, and only what the ids say is told.
using StateOf = std::function<const larder::FactState*(const std::string& hash)>;
// In the order of b's lines. Ingredients that only one of the two names are differences of the spec.
std::vector<FactSwap> factSwaps(const spec::Spec& a, const RevisionFacts& factsA, const spec::Spec& b,
                                const RevisionFacts& factsB, const StateOf& stateOf);
// What a spec would be kept with, as the larder stands; preparations by their facts alone.
RevisionFacts factsOf(const spec::Spec& spec, const larder::Larder& larder);

// "London dry gin 47 → 43 % vol", "syrup now 2:1", "lime juice, another lot": English.
std::string inWords(const FactSwap& swap);
std::string inWords(const std::vector<FactSwap>& swaps);

} // namespace stillroom::history
