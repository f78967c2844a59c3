#include "core/preparation/reach.h"

#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using larder::OnShelf;
using preparation::DrinkReach;
using preparation::Reach;
using preparation::Specs;
using preparation::Standing;

namespace {

base::IngredientId idOf(const std::string& name) {
    return base::IngredientId::derivedFrom(name);
}

struct Bar {
    larder::Larder larder = larder::Larder::withoutHandbook();
    Specs specs;

    larder::Ingredient get(const std::string& name) const {
        if (const auto* known = larder.find(idOf(name))) return *known;
        larder::Ingredient made;
        made.id = idOf(name);
        made.name = name;
        return made;
    }
    Bar& put(const std::string& name, OnShelf state) {
        auto made = get(name);
        made.stock.state = state;
        larder.put(made);
        return *this;
    }
    Bar& off(const std::string& name, bool off = true) {
        auto made = get(name);
        made.stock.off = off;
        larder.put(made);
        return *this;
    }
    DrinkReach of(const spec::Spec& drink) const { return Reach(larder, specs).of(drink); }
    preparation::Met met(const std::string& name) const { return Reach(larder, specs).of(idOf(name)); }
};

std::set<base::IngredientId> ids(const std::vector<std::string>& names) {
    std::set<base::IngredientId> all;
    for (const auto& name : names)
        all.insert(idOf(name));
    return all;
}

} // namespace

TEST_CASE("A drink is within reach when every line stands on the shelf", "[preparation][reach]") {
    Bar bar;
    bar.put("gin", OnShelf::Have)
        .put("vermouth", OnShelf::Low)
        .put("amaro", OnShelf::Out)
        .put("bitters", OnShelf::NotSaid);
    const auto two = bar.of(drink({line("gin", 50), line("vermouth", 25)}));
    CHECK(two.within());
    CHECK(two.low == ids({"vermouth"}));
    const auto one = bar.of(drink({line("gin", 50), line("amaro", 25)}));
    CHECK_FALSE(one.within());
    CHECK(one.oneShort());
    CHECK(one.missing == std::vector<int>{1});
    CHECK(one.lacks == ids({"amaro"}));
    // What nobody said is not there, and is told from what is out.
    CHECK(bar.of(drink({line("bitters", 1)})).oneShort());
    CHECK(bar.met("bitters").nobodySaid);
    CHECK_FALSE(bar.met("amaro").nobodySaid);
    auto counted = bar.get("gin");
    counted.stock.amount = 0;
    bar.larder.put(counted);
    CHECK(bar.met("gin").standing == Standing::NotHad);
    // Optional lines and lines to taste ask for nothing; a garnish is told and does not stop a drink.
    auto optional = line("amaro", 5);
    optional.optional = true;
    const auto served = bar.of(drink(
        {line("vermouth", 50), optional, line("bitters", 1, quantity::Measure::Piece, spec::Role::Garnish)}));
    CHECK(served.within());
    CHECK(served.garnishMissing == std::vector<int>{2});
    const auto unknown = bar.of(drink({line("vermouth", 50), line("moonbeams", 5)}));
    CHECK(unknown.unknownLines == std::vector<int>{1});
    CHECK_FALSE(unknown.within());
    CHECK_FALSE(unknown.oneShort());
}

TEST_CASE("Any bottle meets its kind and the better alternative is taken", "[preparation][reach]") {
    Bar bar;
    bar.put("gin", OnShelf::NotSaid).put("amaro", OnShelf::Out).put("aperitivo", OnShelf::Have);
    auto bottle = bar.get("harbour gin");
    bottle.kind = idOf("gin");
    bar.larder.put(bottle);
    CHECK(bar.met("gin").lacks == ids({"gin"}));
    bar.put("harbour gin", OnShelf::Low);
    CHECK(bar.met("gin").standing == Standing::Low);
    auto either = line("amaro", 20);
    either.alternatives.push_back({either.poured, "aperitivo", idOf("aperitivo")});
    CHECK(bar.of(drink({line("gin", 40), either})).within());
}

TEST_CASE("A preparation is met by itself or by what it is made of", "[preparation][reach]") {
    Bar bar;
    bar.put("lime", OnShelf::Have)
        .put("sugar", OnShelf::Out)
        .put("cordial", OnShelf::NotSaid)
        .put("foam", OnShelf::NotSaid);
    auto juice = bar.get("lime juice");
    juice.gotFrom = larder::GotFrom{idOf("lime"), larder::PackUnit::Piece, larder::PackUnit::Ml, 30, 1};
    bar.larder.put(juice);
    bar.specs[idOf("cordial")] = drink({line("lime juice", 100), line("sugar", 100)});
    bar.specs[idOf("foam")] = drink({line("cordial", 100)});
    CHECK(bar.met("lime juice").standing == Standing::Got);
    // Two levels down it is the sugar that is short.
    CHECK(bar.met("foam").lacks == ids({"sugar"}));
    CHECK(bar.of(drink({line("foam", 20)})).oneShort());
    bar.put("sugar", OnShelf::Have);
    CHECK(bar.met("foam").standing == Standing::Made);
    CHECK(bar.of(drink({line("foam", 20)})).toMake == ids({"foam"}));
    // A lot that is not used up stands there, whatever became of the sugar.
    bar.put("sugar", OnShelf::Out);
    larder::Lot lot;
    lot.id = base::LotId::random();
    lot.ingredient = idOf("cordial");
    bar.larder.put(lot);
    CHECK(bar.met("cordial").standing == Standing::There);
    CHECK(bar.met("foam").standing == Standing::Made);
    lot.usedUp = true;
    bar.larder.put(lot);
    CHECK(bar.met("foam").lacks == ids({"sugar"}));
    // Made of itself: never within reach, and the question ends.
    bar.specs[idOf("cordial")] = drink({line("foam", 10)});
    CHECK(bar.met("foam").standing == Standing::NotHad);
}

TEST_CASE("A purchase is ranked by the drinks it opens alone", "[preparation][reach]") {
    Bar bar;
    for (const char* name : {"gin", "amaro", "rum", "sherry"})
        bar.put(name, OnShelf::Out);
    bar.put("vermouth", OnShelf::Have);
    bar.off("rum");
    std::vector<DrinkReach> drinks;
    for (const auto& spec :
         {drink({line("gin", 50), line("vermouth", 25)}), drink({line("amaro", 50), line("vermouth", 25)}),
          drink({line("gin", 50)}), drink({line("gin", 50), line("sherry", 25)}), drink({line("rum", 50)}),
          drink({line("vermouth", 50)})})
        drinks.push_back(bar.of(spec));
    const auto ranked = preparation::purchases(drinks);
    REQUIRE(ranked.size() == 3);
    CHECK(ranked[0].ingredient == idOf("gin"));
    CHECK(ranked[0].opens == std::vector<std::size_t>{0, 2});
    CHECK(ranked[0].helps == std::vector<std::size_t>{3});
    CHECK(ranked[1].ingredient == idOf("amaro"));
    CHECK(ranked[2].ingredient == idOf("sherry"));
    CHECK(ranked[2].opens.empty());
    // What a purchase brings is what stands there once it is bought.
    bar.put("gin", OnShelf::Have);
    CHECK(bar.of(drink({line("gin", 50), line("vermouth", 25)})).within());
}

TEST_CASE("What is off takes its drinks with it", "[preparation][reach]") {
    Bar bar;
    bar.put("gin", OnShelf::Have)
        .put("vermouth", OnShelf::Have)
        .put("syrup", OnShelf::Have)
        .put("sugar", OnShelf::Have);
    bar.specs[idOf("syrup")] = drink({line("sugar", 100)});
    const std::vector<spec::Spec> specs{drink({line("gin", 50)}), drink({line("gin", 50), line("syrup", 10)}),
                                        drink({line("vermouth", 50), line("syrup", 10)})};
    const auto fallen = [&] {
        std::vector<DrinkReach> drinks;
        for (const auto& spec : specs)
            drinks.push_back(bar.of(spec));
        return preparation::fallen(bar.larder, drinks);
    };
    CHECK(fallen().empty());
    bar.off("syrup");
    auto fell = fallen();
    REQUIRE(fell.size() == 1);
    CHECK(fell[0].off == idOf("syrup"));
    CHECK(fell[0].drinks == std::vector<std::size_t>{1, 2});
    CHECK_FALSE(bar.of(specs[1]).oneShort());
    bar.off("syrup", false);
    CHECK(fallen().empty());
    // An input that is off takes what is made of it, when none of that stands there.
    bar.put("syrup", OnShelf::Out).off("sugar");
    fell = fallen();
    REQUIRE(fell.size() == 1);
    CHECK(fell[0].off == idOf("sugar"));
    CHECK(fell[0].drinks == std::vector<std::size_t>{1, 2});
}

TEST_CASE("a kind is off with the house bottle unless another stands there", "[preparation][reach]") {
    Bar bar;
    auto kind = bar.get("gin");
    kind.houseBottle = idOf("gin 47");
    bar.larder.put(kind);
    auto other = bar.get("gin 40");
    other.kind = kind.id;
    bar.larder.put(other);
    auto house = bar.get("gin 47");
    house.kind = kind.id;
    bar.larder.put(house);
    bar.off("gin 47");
    CHECK(bar.met("gin").standing == Standing::Off);
    CHECK(bar.met("gin").lacks == ids({"gin 47"}));
    bar.put("gin 40", OnShelf::Have);
    CHECK(bar.met("gin").standing == Standing::There);
    bar.off("gin 47", false);
    bar.put("gin 40", OnShelf::Out);
    CHECK(bar.met("gin").lacks == ids({"gin"})); // which bottle is bought is a choice of its own
}
