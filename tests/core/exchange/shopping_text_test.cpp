#include "core/exchange/shopping_text.h"

#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using quantity::Measure;

TEST_CASE("A shopping list reads as plain text by supplier", "[exchange][shopping]") {
    Shelf shelf;
    shelf.putPriced("London dry gin", {{47}, {0}, {0}}, 2100, 700)
        .putPriced("rum", {{40}, {0}, {0}}, 2500, 700);
    const auto change = [&](const std::string& name, const auto& edit) {
        auto made = shelf.larder.find(base::IngredientId::derivedFrom(name))
                        ? *shelf.larder.find(base::IngredientId::derivedFrom(name))
                        : shelf.ingredient(name);
        edit(made);
        shelf.larder.put(made);
    };
    change("rum", [](auto& rum) { rum.stock.amount = 3000; });
    change("lime", [](auto& lime) {
        larder::Pack box;
        box.price = {800, {}};
        box.forPieces = 40;
        box.supplier = "Market hall";
        lime.packs = {box};
    });
    change("lime juice", [](auto& juice) {
        juice.facts = factsOf({{0}, {17}, {60}});
        juice.gotFrom = larder::GotFrom{base::IngredientId::derivedFrom("lime"), larder::PackUnit::Piece,
                                        larder::PackUnit::Ml, 30, 1};
    });
    shelf.put("syrup", {{0}, {600}, {0}}).put("cordial", {});
    change("syrup", [](auto& syrup) { syrup.stock.off = true; });
    auto cordial = drink({line("lime juice", 300), line("rum", 100)});
    cordial.yieldMl = 400;
    const preparation::Specs specs{{base::IngredientId::derivedFrom("cordial"), cordial}};
    const auto d =
        drink({line("London dry gin", 50), line("cordial", 20), line("syrup", 5), unstated("foam")});
    const auto list = preparation::shopping({{&d, 40}}, shelf.larder, specs, {});
    CHECK(exchange::shoppingText(list, shelf.larder) ==
          "To buy\n"
          "\nMarket hall\n"
          "- lime: 25 (with a margin) = 1 x 40 pieces, EUR 8.00\n"
          "\nNo supplier on record\n"
          "- London dry gin: 2 l = 3 x 700 ml, EUR 63.00\n"
          "\nTogether EUR 71.00\n"
          "\nTo make\n"
          "- cordial: 800 ml (2 of its batch)\n"
          "\nOn the shelf\n"
          "- rum: 200 ml\n"
          "\nOff until further notice\n"
          "- syrup\n"
          "\nWithout an amount: look yourself\n"
          "- foam\n");
    CHECK(exchange::shoppingText({}, shelf.larder) == "To buy\n- nothing\n");
}
