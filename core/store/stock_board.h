#pragma once

#include "core/preparation/reach.h"
#include "core/preparation/shopping.h"
#include "core/store/workbook.h"

#include <optional>
#include <string>
#include <vector>

// What a book's shelf lets its house make now. A snapshot: taken anew when stock or a spec changes.
namespace stillroom::store {

struct BoardDrink {
    base::DrinkId id;
    std::string name;
    std::string menu;
    spec::Spec spec; // the house revision's, else the draft saved last
    preparation::DrinkReach reach;
};

struct StockBoard {
    larder::Larder larder;
    preparation::Specs preparations;
    spec::HouseRules rules;
    std::vector<BoardDrink> drinks;               // as on the shelf; what is binned and preparations left out
    std::vector<preparation::Purchase> purchases; // indexes are of `drinks`
    std::vector<preparation::Fallen> fallen;
    std::vector<preparation::Circle> circles;
    // What any drink or preparation of the book pours or could be bought for, by name: what stock is kept of.
    std::vector<base::IngredientId> stocked;

    const BoardDrink* drink(base::DrinkId id) const;
};

StockBoard stockBoard(const Workbook& book);
// After stock, a price or a bottle changed: the same drinks, on the shelf as it is now. Reads no spec.
void restock(StockBoard& board, const Workbook& book);

// How many serves of which drinks: the list for them.
struct DrinkWish {
    base::DrinkId drink;
    double serves = 0;
};
preparation::ShoppingList shoppingFor(const StockBoard& board, const std::vector<DrinkWish>& wishes,
                                      const preparation::ShoppingOptions& options = {});

} // namespace stillroom::store
