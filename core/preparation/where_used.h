#pragma once

#include "core/larder/larder.h"
#include "core/preparation/nesting.h"

#include <map>
#include <optional>
#include <set>
#include <vector>

namespace stillroom::preparation {

// What follows an ingredient's facts or price one step further: the kind it is the house's bottle of, what is
// got from it, and the preparations that name it.
class Followers {
  public:
    Followers(const larder::Larder& larder, const Specs& preparations);

    // Everything that changes when these do, themselves included; to any depth, circles and all.
    std::set<base::IngredientId> of(const std::set<base::IngredientId>& changed) const;
    // The steps from one ingredient to what follows it, fewest first: itself, the syrup, the cream. Without
    // the last: what follows it by itself. Empty: it does not follow.
    std::map<base::IngredientId, std::vector<base::IngredientId>> paths(base::IngredientId from) const;

  private:
    std::map<base::IngredientId, std::vector<base::IngredientId>> m_next;
};

// A drink or preparation that names an ingredient in a line of its own.
struct DirectUse {
    base::IngredientId ingredient;
    base::DrinkId by;
    friend bool operator==(const DirectUse&, const DirectUse&) = default;
};

struct Use {
    base::DrinkId by;
    std::vector<base::IngredientId> through; // from the ingredient asked for to the one that `by` names
    friend bool operator==(const Use&, const Use&) = default;
};

// Everything that depends on an ingredient, once each, by the shortest way; direct uses first, then in the
// order of `uses`.
std::vector<Use> usesOf(base::IngredientId ingredient, const std::vector<DirectUse>& uses,
                        const Followers& followers);

} // namespace stillroom::preparation
