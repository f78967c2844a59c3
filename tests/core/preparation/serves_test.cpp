#include "core/preparation/serves.h"

#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using quantity::Measure;
using spec::Bindings;

namespace {

larder::Pack pack(std::int64_t cents, double grams, const std::string& on) {
    larder::Pack made;
    made.id = base::PackId::derivedFrom(on);
    made.price = {cents, {}};
    made.forG = grams;
    made.pricedOn = on;
    return made;
}

Shelf kitchen() {
    Shelf shelf;
    shelf.put("water", {{0}, {0}, {0}}).put("gin", {{47}, {0}, {0}}).put("syrup", {{0}, {498}, {0}});
    auto honey = shelf.ingredient("honey");
    honey.facts.dry = true;
    honey.facts.soluble = true;
    honey.facts.sugarGPerL = fact(820);
    honey.facts.acidGPerL = fact(0);
    honey.packs = {pack(890, 500, "2026-10-01"), pack(980, 500, "2026-11-03"), pack(1200, 500, "2027-01-01")};
    shelf.larder.put(honey);
    return shelf;
}

preparation::Made batch(const Shelf& shelf) {
    auto d = drink({line("honey", 500, Measure::G), line("water", 500, Measure::G)});
    d.yieldMl = 807;
    const auto made = preparation::make(d, Bindings(d, shelf.larder, shelf.rules()), preparation::yieldOf(d));
    REQUIRE(made);
    return *made;
}

} // namespace

TEST_CASE("A batch serves as often as it holds what a drink pours", "[serves]") {
    const auto shelf = kitchen();
    const std::vector<base::IngredientId> syrup{base::IngredientId::derivedFrom("syrup")};
    const auto read = [&](const spec::Spec& d) {
        return preparation::servesOf(d, Bindings(d, shelf.larder, shelf.rules()), syrup, batch(shelf));
    };
    const auto one = read(drink({line("gin", 60), line("syrup", 20)}));
    REQUIRE(one);
    CHECK(one->lines == std::vector<std::size_t>{1});
    CHECK(one->perServe->ml() == Approx(20));
    CHECK(*one->servesABatch == 40); // 807 / 20 = 40.35
    auto four = drink({line("syrup", 60), line("syrup", 20)});
    four.serves = 4;
    CHECK(*read(four)->servesABatch == 40);
    CHECK(*read(drink({ranged("syrup", 10, 20)}))->servesABatch == 40);
    CHECK_FALSE(read(drink({line("gin", 60)})));
    const auto open = read(drink({unstated("syrup", spec::Role::Mixed)}));
    REQUIRE(open);
    CHECK_FALSE(open->servesABatch);
}

TEST_CASE("The newest price that holds today is told with the one before", "[serves]") {
    const auto shelf = kitchen();
    const auto d = drink({line("water", 500, Measure::G), line("honey", 500, Measure::G)});
    const Bindings bindings(d, shelf.larder, shelf.rules());
    const auto change = preparation::lastPriceChange(d, bindings, "2026-11-25");
    REQUIRE(change);
    CHECK(change->line == 1);
    CHECK(change->step.day == "2026-11-03");
    CHECK(change->step.before.price.minor == 890);
    CHECK(change->step.after.price.minor == 980);
    CHECK_FALSE(preparation::lastPriceChange(d, bindings, "2026-10-15"));
}
