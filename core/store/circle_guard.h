#pragma once

#include "core/larder/larder.h"
#include "core/spec/spec.h"

#include <vector>

// Internal to core/store: what would make a preparation of itself is refused before it is written. A draft is
// not: it is saved as it is typed, and the larder names the circle. Each throws a StoreError of kind Circle,
// whose what() is the path: "orange syrup > cream > orange syrup".
namespace stillroom::store {

class Workbook;

// That a preparation be made by this spec. Drinks pass.
void refuseCircle(const Workbook& book, base::DrinkId preparation, const spec::Spec& spec);
// That these be saved: a bottle chosen for a kind may close a circle. Those that stand already pass.
void refuseCircle(const Workbook& book, const std::vector<larder::Ingredient>& saved);

} // namespace stillroom::store
