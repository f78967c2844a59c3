#pragma once

#include "core/larder/larder.h"

#include <vector>

namespace stillroom::larder {

// What of the larder leans on an ingredient: it would stand on nothing were that one taken out.
struct Leaning {
    std::vector<base::IngredientId> pouredFor; // kinds the house pours it for
    std::vector<base::IngredientId> bottles;   // of this kind
    std::vector<base::IngredientId> gotFrom;   // what is got from it
    bool isNone() const { return pouredFor.empty() && bottles.empty() && gotFrom.empty(); }
};
Leaning leaningOn(const Larder& larder, base::IngredientId ingredient);

} // namespace stillroom::larder
