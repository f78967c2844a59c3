#pragma once

#include "core/physics/composition.h"

namespace stillroom::physics {

// Energy by the factors of Regulation (EU) No 1169/2011, Annex XIV. Two separate sums, each with its own
// whole-number factors: one is never converted into the other.
struct FoodEnergy {
    double kj = 0;
    double kcal = 0;
    friend bool operator==(const FoodEnergy&, const FoodEnergy&) = default;
};
FoodEnergy foodEnergy(const Composition& mixture) noexcept;

} // namespace stillroom::physics
