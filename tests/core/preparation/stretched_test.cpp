#include "core/preparation/stretched.h"

#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using quantity::Measure;
using spec::Bindings;

namespace {

spec::Line named(const larder::Larder& larder, const char* name, int amount, Measure measure) {
    spec::Line made = line(name, amount, measure);
    made.ingredient = larder.match(name).ingredient;
    REQUIRE_FALSE(made.ingredient->isNull());
    return made;
}

} // namespace

TEST_CASE("a stretched juice says its acid beside the juice it stands in for", "[preparation][stretched]") {
    // Needs, 15: 100 g of peel, 66 g citric, 33 g malic, a litre of water, 165 ml of juice at 6 %: 9.35 % by
    // the rule of the peel, 8.8 g/100 ml as citric in the finished volume, half as sour again.
    const larder::Larder larder;
    auto d = drink({named(larder, "lime peel", 100, Measure::G), named(larder, "citric acid", 66, Measure::G),
                    named(larder, "malic acid", 33, Measure::G), named(larder, "water", 1000, Measure::Ml),
                    named(larder, "lime juice", 165, Measure::Ml)});
    const Bindings bindings(d, larder, {});
    const auto made = preparation::make(d, bindings, {});
    REQUIRE(made);
    const auto said = preparation::stretchedOf(d, bindings, *made);
    REQUIRE(said);
    CHECK(said->juice == 4);
    CHECK(said->byPeelRulePercent == Approx(9.35).margin(0.01));
    CHECK(said->madeGPer100Ml == Approx(8.8).margin(0.06));
    CHECK(said->juiceGPer100Ml == Approx(6.0));
    CHECK(said->timesAsSour == Approx(1.47).margin(0.02));
    // Neither a sour mix nor an adjusted orange is one.
    auto orange =
        drink({named(larder, "orange juice", 1000, Measure::Ml), named(larder, "citric acid", 32, Measure::G),
               named(larder, "water", 100, Measure::Ml)});
    const Bindings second(orange, larder, {});
    CHECK_FALSE(preparation::stretchedOf(orange, second, *preparation::make(orange, second, {})));
    d.lines.erase(d.lines.begin() + 1, d.lines.begin() + 3);
    const Bindings third(d, larder, {});
    CHECK_FALSE(preparation::stretchedOf(d, third, *preparation::make(d, third, {})));
}
