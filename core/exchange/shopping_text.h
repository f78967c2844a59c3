#pragma once

#include "core/larder/larder.h"
#include "core/preparation/shopping.h"

#include <string>

namespace stillroom::exchange {

// "1.05 kg", "350 ml", "12": to three figures, rounded up so that never too little is bought.
std::string boughtAmountText(const preparation::Quantum& amount);
std::string packSizeText(const larder::Pack& pack); // "700 ml", "12 pieces", "no size"

// A shopping list as plain text, to print, send or paste: a part for each supplier, then what to make, what
// is on the shelf, what is off and what has no amount. Metric, numbers with a point, names as the larder has
// them.
std::string shoppingText(const preparation::ShoppingList& list, const larder::Larder& larder);

} // namespace stillroom::exchange
