#pragma once

#include "core/larder/larder.h"
#include "core/preparation/shopping.h"

#include <string>

namespace stillroom::exchange {

// A shopping list as plain text, to print, send or paste: a part for each supplier, then what to make, what
// is on the shelf, what is off and what has no amount. Metric, numbers with a point, names as the larder has
// them.
std::string shoppingText(const preparation::ShoppingList& list, const larder::Larder& larder);

} // namespace stillroom::exchange
