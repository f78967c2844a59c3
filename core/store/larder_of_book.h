#pragma once

#include "core/larder/ingredient.h"

#include <vector>

namespace stillroom::store {

// An edit of the larder that somebody accepted, or took back.
struct LarderChange {
    std::vector<larder::Ingredient> ingredients; // as they are now; those in the bin come back
    std::vector<base::IngredientId> binned;      // out of the larder
    std::vector<larder::Lot> lots;               // as they are now
    // Added and taken back: nothing is left of them. One that a revision was kept with stays, used up.
    std::vector<base::LotId> lotsGone;
};

class LarderOfBook {
  public:
    virtual ~LarderOfBook() = default;

    virtual void changeLarder(const LarderChange& change) = 0; // all of it or nothing
};

} // namespace stillroom::store
