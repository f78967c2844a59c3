#include "core/preparation/shopping.h"

#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom;
using namespace stillroom::test;
using larder::PackUnit;
using preparation::shopping;
using preparation::ShoppingItem;
using preparation::ShoppingList;
using preparation::Specs;
using quantity::Measure;
using quantity::Rational;

namespace {

base::IngredientId idOf(const std::string& name) {
    return base::IngredientId::derivedFrom(name);
}

struct Store {
    Shelf shelf;
    Specs specs;

    template <class Change>
    void change(const std::string& name, const Change& change) {
        auto made = *shelf.larder.find(idOf(name));
        change(made);
        shelf.larder.put(made);
    }
    void pieces(const std::string& name, std::int64_t cents, double count, const std::string& supplier) {
        shelf.put(name, {});
        change(name, [&](auto& made) {
            larder::Pack pack;
            pack.price = {cents, {}};
            pack.forPieces = count;
            pack.supplier = supplier;
            made.packs = {pack};
        });
    }
    void got(const std::string& name, const std::string& from, PackUnit unit, Rational perUnit,
             Rational share) {
        shelf.put(name, {{0}, {17}, {60}});
        change(name, [&](auto& made) {
            made.gotFrom = larder::GotFrom{idOf(from), PackUnit::Piece, unit, perUnit, share};
        });
    }
    ShoppingList list(const spec::Spec& spec, double serves, double margin = 0) const {
        return shopping({{&spec, serves}}, shelf.larder, specs, {}, {margin, true});
    }
};

const ShoppingItem* itemOf(const ShoppingList& list, const std::string& name) {
    for (const auto& group : list.groups)
        for (const auto& item : group.items)
            if (item.ingredient == idOf(name)) return &item;
    return nullptr;
}

} // namespace

TEST_CASE("A party is bought in whole packs and paid as they are", "[preparation][shopping]") {
    Store store;
    store.shelf.putPriced("gin", {{47}, {0}, {0}}, 2100, 700)
        .putPriced("syrup", {{0}, {600}, {0}}, 300, 1000);
    const auto d = drink({line("gin", 50), line("syrup", 20)});
    const auto list = store.list(d, 40);
    const auto* gin = itemOf(list, "gin");
    REQUIRE(gin != nullptr);
    CHECK(gin->needed == preparation::Quantum{2000, PackUnit::Ml});
    CHECK(gin->packs == 3); // 2,000 of 700 ml
    CHECK(gin->price->minor == 6300);
    CHECK(itemOf(list, "syrup")->packs == 1); // 800 ml
    CHECK(list.totals.at({}) == 6600);
    // 14 serves are exactly one bottle, and not a hair more.
    CHECK(itemOf(store.list(d, 14), "gin")->packs == 1);
    CHECK(itemOf(store.list(d, 15), "gin")->packs == 2);
}

TEST_CASE("One lime gives juice and peel and is bought once", "[preparation][shopping]") {
    Store store;
    store.pieces("lime", 800, 40, "market");
    store.got("lime juice", "lime", PackUnit::Ml, 30, 1);
    store.got("lime peel", "lime", PackUnit::Piece, 1, 0);
    store.change("lime peel", [](auto& peel) {
        peel.facts.dry = true;
        peel.facts.soluble = false;
    });
    const auto d = drink({line("lime juice", 30), line("lime peel", 1, Measure::Piece, spec::Role::Garnish)});
    // List of needs: a litre of juice at 30 ml a fruit is 33.3 fruit, so 34 are bought.
    const auto litre = store.list(drink({line("lime juice", 1000)}), 1);
    REQUIRE(itemOf(litre, "lime") != nullptr);
    CHECK(itemOf(litre, "lime")->needed.amount == Approx(33.333).margin(0.001));
    CHECK(itemOf(litre, "lime")->toBuy == 34);
    CHECK(itemOf(litre, "lime")->packs == 1);
    const auto both = store.list(d, 60);
    CHECK(itemOf(both, "lime")->toBuy == 60); // not 120
    CHECK(itemOf(both, "lime")->packs == 2);
    CHECK(itemOf(both, "lime peel") == nullptr);
    // A quarter more, as the spread of what limes give asks for.
    const auto safe = store.list(d, 60, 0.25);
    CHECK(itemOf(safe, "lime")->toBuy == 75);
    CHECK(itemOf(safe, "lime")->withMargin);
    // Whole limes beside them are limes of their own.
    const auto wedges = store.list(drink({line("lime juice", 30), line("lime", 1, Measure::Piece)}), 10);
    CHECK(itemOf(wedges, "lime")->toBuy == 20);
    CHECK(both.groups.at(0).supplier == "market");
}

TEST_CASE("What stands on the shelf is taken off and said", "[preparation][shopping]") {
    Store store;
    store.shelf.putPriced("gin", {{47}, {0}, {0}}, 2100, 700)
        .putPriced("rum", {{40}, {0}, {0}}, 2500, 700)
        .putPriced("syrup", {{0}, {600}, {0}}, 300, 1000)
        .putPriced("amaro", {{30}, {200}, {0}}, 2000, 500);
    store.change("gin", [](auto& gin) { gin.stock.amount = 900; });
    store.change("rum", [](auto& rum) { rum.stock.amount = 5000; });
    store.change("syrup", [](auto& syrup) { syrup.stock.state = larder::OnShelf::Have; });
    store.change("amaro", [](auto& amaro) { amaro.stock.off = true; });
    const auto d = drink({line("gin", 40), line("rum", 10), line("syrup", 10), line("amaro", 10)});
    const auto list = store.list(d, 40);
    const auto* gin = itemOf(list, "gin");
    REQUIRE(gin != nullptr);
    CHECK(gin->onShelf == 900);
    CHECK(gin->toBuy == 700);
    CHECK(gin->packs == 1);
    CHECK(list.coveredBy == std::vector<base::IngredientId>{idOf("rum")});
    CHECK(list.notCounted == std::vector<base::IngredientId>{idOf("syrup")});
    CHECK(list.off == std::vector<base::IngredientId>{idOf("amaro")});
    CHECK(list.totals.at({}) == 2100);
    const auto all = shopping({{&d, 40}}, store.shelf.larder, {}, {}, {0, false});
    CHECK(itemOf(all, "gin")->packs == 3);
    CHECK(itemOf(all, "rum")->packs == 1);
}

TEST_CASE("Preparations are counted down to what they are made of", "[preparation][shopping]") {
    Store store;
    store.pieces("lime", 800, 40, "market");
    store.got("lime juice", "lime", PackUnit::Ml, 30, 1);
    store.shelf.putDry("sugar", 1000, 0, 0.85).putPriced("gin", {{47}, {0}, {0}}, 2100, 700);
    store.change("sugar", [](auto& sugar) {
        larder::Pack bag;
        bag.price = {120, {}};
        bag.forG = 1000;
        bag.supplier = "wholesale";
        sugar.packs = {bag};
    });
    store.shelf.put("cordial", {}).put("foam", {});
    auto cordial = drink({line("lime juice", 600), line("sugar", 600, Measure::G)});
    cordial.yieldMl = 900;
    auto foam = drink({line("cordial", 450), line("gin", 50)});
    foam.yieldMl = 500;
    store.specs = {{idOf("cordial"), cordial}, {idOf("foam"), foam}};
    const auto d = drink({line("gin", 50), line("cordial", 25), line("foam", 20)});
    const auto list = store.list(d, 50);
    // Foam: 1,000 ml, two batches: 900 ml cordial, 100 ml gin. Cordial: 1,250 + 900 ml, 2.3889 batches:
    // 1,433.3 g sugar and as much juice in ml, of 47.8 limes. Gin: 2,600 ml.
    REQUIRE(list.toMake.size() == 2);
    CHECK(list.toMake[0].ingredient == idOf("foam"));
    CHECK(list.toMake[0].batches == Approx(2).epsilon(1e-6));
    CHECK(list.toMake[1].ingredient == idOf("cordial"));
    CHECK(list.toMake[1].batches == Approx(2150.0 / 900).epsilon(1e-6));
    CHECK(itemOf(list, "sugar")->needed.amount == Approx(2150.0 / 900 * 600).epsilon(1e-6));
    CHECK(itemOf(list, "sugar")->packs == 2);
    CHECK(itemOf(list, "lime")->toBuy == 48);
    CHECK(itemOf(list, "gin")->needed.amount == Approx(2600).epsilon(1e-6));
    CHECK(itemOf(list, "gin")->packs == 4);
    CHECK(itemOf(list, "cordial") == nullptr);
    CHECK(list.totals.at({}) == 4 * 2100 + 2 * 120 + 2 * 800);
    CHECK(list.groups.back().supplier.empty());
    // 1,000 ml of foam already made: only its cordial's share falls away.
    store.change("foam", [](auto& f) { f.stock.amount = 1000; });
    const auto less = store.list(d, 50);
    REQUIRE(less.toMake.size() == 1);
    CHECK(less.toMake[0].batches == Approx(1250.0 / 900).epsilon(1e-6));

    store.specs[idOf("cordial")].lines.push_back(line("foam", 10));
    const auto circular = store.list(d, 50);
    CHECK(circular.circle.has_value());
    CHECK(itemOf(circular, "cordial") != nullptr); // nothing is lost: a thing to buy
}

TEST_CASE("Waste is bought too and nothing without an amount vanishes", "[preparation][shopping]") {
    Store store;
    store.shelf.putPriced("purée", {{0}, {100}, {5}}, 500, 1000).put("soda", {{0}, {0}, {0}});
    store.change("purée", [](auto& puree) { puree.usableShare = *Rational::fromText("0.8"); });
    store.change("soda", [](auto& soda) { soda.facts.carbonated = true; });
    auto mint = line("mint", 6, Measure::Leaf);
    const auto d = drink({line("purée", 40), unstated("soda"), line("nobody knows", 10), mint});
    const auto list = store.list(d, 20);
    CHECK(itemOf(list, "purée")->toBuy == Approx(1000));
    CHECK(itemOf(list, "purée")->packs == 1);
    REQUIRE(list.open.size() == 3);
    CHECK(list.open[0] == ShoppingList::Open{0, "soda"});
    CHECK(list.open[1].name == "nobody knows");
    CHECK(list.open[2].name == "mint");
}

TEST_CASE("Grams meet a bottle through its density or a person is asked", "[preparation][shopping]") {
    Store store;
    store.shelf.putPriced("honey", {}, 900, 500);
    const auto d = drink({line("honey", 20, Measure::G)});
    const auto unclear = store.list(d, 50);
    REQUIRE(itemOf(unclear, "honey") != nullptr);
    store.change("honey", [](auto& honey) { honey.facts.densityKgPerM3 = fact(1400); });
    const auto list = store.list(d, 50);
    CHECK(itemOf(list, "honey")->needed.amount == Approx(1000 / 1.4));
    CHECK(itemOf(list, "honey")->packs == 2);
}

TEST_CASE("Shopping holds for wishes beyond all measure", "[preparation][shopping]") {
    Store store;
    store.shelf.putPriced("gin", {{47}, {0}, {0}}, 2100, 700);
    const auto d = drink({line("gin", 1'000'000'000)});
    const auto list = store.list(d, 1e6);
    REQUIRE(itemOf(list, "gin") != nullptr);
    CHECK(itemOf(list, "gin")->packs > 0);
    CHECK(store.list(d, -1).groups.empty());
}

TEST_CASE("What is made and what is got lose their waste on the shelf as well", "[preparation][shopping]") {
    Store store;
    store.pieces("lime", 800, 40, "market");
    store.got("lime juice", "lime", PackUnit::Ml, 30, 1);
    store.shelf.putPriced("gin", {{47}, {0}, {0}}, 2100, 700).put("foam", {});
    auto foam = drink({line("gin", 500)});
    foam.yieldMl = 500;
    store.specs = {{idOf("foam"), foam}};
    store.change("foam", [](auto& f) {
        f.usableShare = *Rational::fromText("0.8");
        f.stock.amount = 1000;
    });
    store.change("lime juice", [](auto& juice) {
        juice.usableShare = *Rational::fromText("0.5");
        juice.stock.amount = 100;
    });
    const auto list = store.list(drink({line("foam", 20), line("lime juice", 5)}), 50);
    // Of 1,250 ml of foam 1,000 can be used, and 1,000 ml stand there: half a batch of 500 ml is short.
    REQUIRE(list.toMake.size() == 1);
    CHECK(list.toMake[0].needed.amount == Approx(250));
    CHECK(list.toMake[0].batches == Approx(0.5));
    // 250 ml of juice want 500, less 100: 400 ml of 30 ml a lime.
    CHECK(itemOf(list, "lime")->needed.amount == Approx(400.0 / 30));
}

TEST_CASE("A garnish line is bought and without an amount one piece a serve", "[preparation][shopping]") {
    Store store;
    store.pieces("cherry", 800, 40, "market");
    auto cherry = unstated("cherry");
    cherry.role = spec::Role::Garnish;
    const auto list = store.list(drink({cherry}), 50);
    REQUIRE(itemOf(list, "cherry") != nullptr);
    CHECK(itemOf(list, "cherry")->needed == preparation::Quantum{50, PackUnit::Piece});
    CHECK(itemOf(list, "cherry")->packs == 2);
    auto inWords = drink({cherry});
    inWords.garnish = "lemon twist";
    const auto open = store.list(inWords, 50).open;
    REQUIRE(open.size() == 1);
    CHECK(open[0] == ShoppingList::Open{0, "lemon twist"});
}
