#include "core/larder/at_least.h"
#include "core/preparation/preparation.h"
#include "core/preparation/recompute.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom;
using namespace stillroom::test;
using quantity::Measure;
using spec::Bindings;
using spec::Bound;
using spec::Quantity;
using spec::Stage;

namespace {

// A kitchen with one thing made in it, as it is poured.
struct Kitchen {
    Shelf shelf;
    base::IngredientId made = shelf.ingredient("made here").id;

    explicit Kitchen(const spec::Spec& spec) {
        shelf.put("water", {{0}, {0}, {0}})
            .putPriced("spirit 40", {{40}, {0}, {0}}, 2000, 1000)
            .putPriced("juice", {{0}, {17}, {60}}, 400, 1000)
            .putDry("sugar", 1000, 0, 0.852)
            .putDry("citric acid", 0, 1000, 0.9)
            .putDry("malic acid", 0, 1000, 0.9);
        auto sugar = *shelf.larder.find(shelf.ingredient("sugar").id);
        sugar.packs = {larder::Pack{}};
        sugar.packs[0].price = {120, {}};
        sugar.packs[0].forG = 1000;
        shelf.larder.put(sugar);
        m_spec = spec;
    }
    larder::Larder larder() const {
        larder::Ingredient preparation;
        preparation.id = made;
        preparation.sort = larder::IngredientSort::Preparation;
        preparation.name = "made here";
        auto all = shelf.larder;
        all.put(preparation);
        const spec::BindingHouse house(all, shelf.rules());
        all.put(*preparation::asMade(preparation, m_spec, house));
        return all;
    }
    spec::StageReadings served(const spec::Spec& spec) const {
        return spec::evaluate(spec, Bindings(spec, larder(), shelf.rules()))[Stage::Served];
    }
    std::vector<spec::Gap> gaps(const spec::Spec& spec) const {
        return spec::gaps(spec, Bindings(spec, larder(), shelf.rules()));
    }

  private:
    spec::Spec m_spec;
};

spec::Line poured(int ml) {
    return line("made here", ml);
}

spec::Spec simmered() {
    auto syrup = drink({line("sugar", 500, Measure::G), line("water", 500, Measure::G)});
    syrup.steps.emplace_back();
    syrup.steps[0].kind = spec::StepKind::Simmer;
    return syrup;
}

} // namespace

TEST_CASE("a syrup simmered to nobody knows how much hands on what is known of it",
          "[preparation][at_least]") {
    const Kitchen kitchen(simmered());
    const auto made = kitchen.larder();
    const auto& facts = made.find(kitchen.made)->facts;
    // No alcohol went in, so none is in it; 50 Brix are 614.8 g/l (ICUMSA SPS-4) before any water left.
    REQUIRE(facts.abvPercent);
    CHECK(facts.abvPercent->typical == 0.0);
    CHECK(facts.sugarGPerL->typical == Approx(614.8).margin(1));
    CHECK(larder::hasTag(facts, larder::kSugarAtLeast));
    CHECK_FALSE(larder::hasTag(facts, larder::kStrengthAtLeast));

    const auto served = kitchen.served(drink({line("spirit 40", 50), poured(20)}));
    CHECK(served[Quantity::Strength].bound != Bound::Unknown);
    CHECK(served[Quantity::Strength].bound != Bound::AtLeast);
    CHECK(served[Quantity::Strength].value == Approx(28.7).margin(0.3)); // 20 of 70 ml, and contraction
    CHECK(served[Quantity::Sugar].bound == Bound::AtLeast);
    CHECK(served[Quantity::Sugar].value == Approx(17.6).margin(0.3)); // 12.3 g in 70 ml
    // 50 ml at 20.00 a litre and 20 of at most 813 ml that cost 0.60.
    CHECK(served[Quantity::Cost].bound == Bound::AtLeast);
    CHECK(served[Quantity::Cost].value == Approx(1.0 + 0.6 * 20 / 813.2).margin(0.0005));
}

TEST_CASE("what is known of a price and of acid counts in what is made of it", "[preparation][at_least]") {
    // 165 ml of juice at 4.00 a litre are 0.66; the acids have no price.
    const auto superjuice = drink({line("juice", 165), line("water", 1000),
                                   line("citric acid", 66, Measure::G), line("malic acid", 33, Measure::G)});
    const Kitchen kitchen(superjuice);
    const auto d = drink({line("spirit 40", 50), poured(25)});
    const auto served = kitchen.served(d);
    CHECK(served[Quantity::Cost].bound == Bound::AtLeast);
    const double litres = kitchen.larder().find(kitchen.made)->packs.at(0).forMl.value() / 1000;
    const double price =
        static_cast<double>(kitchen.larder().find(kitchen.made)->packs.at(0).price.minor) / 100;
    CHECK(price / litres == Approx(0.66 / 1.22).margin(0.01));
    CHECK(served[Quantity::Cost].value == Approx(1.0 + 25 * price / litres / 1000).margin(0.0002));
    const auto gaps = kitchen.gaps(d);
    const auto gap = std::find_if(gaps.begin(), gaps.end(), [](const spec::Gap& each) {
        return each.code == spec::GapCode::PriceUnknown;
    });
    REQUIRE(gap != gaps.end());
    CHECK(gap->ingredient == "made here");
    CHECK(gap->detail == "citric acid, malic acid");
}

TEST_CASE("a figure known whole again is a bound no more", "[preparation][at_least]") {
    auto told = simmered();
    told.steps[0].waterLostG = 100;
    const Kitchen kitchen(told);
    const auto larder = kitchen.larder();
    for (const std::string& tag : larder.find(kitchen.made)->facts.tags)
        CHECK_FALSE(larder::isAtLeastTag(tag));
    // Measured in the glass, the lot's figure stands, and nothing is at least.
    const Kitchen untold(simmered());
    auto all = untold.larder();
    larder::Lot lot;
    lot.id = base::LotId::random();
    lot.ingredient = untold.made;
    lot.sugarGPerL = larder::Fact::single(700, larder::SourceKind::Measured, "refractometer");
    auto preparation = *all.find(untold.made);
    preparation.lotInUse = lot.id;
    all.put(preparation);
    all.put(lot);
    CHECK_FALSE(larder::hasTag(all.poured(untold.made)->facts, larder::kSugarAtLeast));
    CHECK(larder::hasTag(all.poured(untold.made)->facts, larder::kAcidAtLeast) ==
          larder::hasTag(preparation.facts, larder::kAcidAtLeast));
    // And what somebody typed as its price is its price.
    auto typed = *all.find(untold.made);
    typed.packs = {larder::Pack{}};
    typed.packs[0].id = base::PackId::random();
    typed.packs[0].price = {300, {}};
    typed.packs[0].forMl = 1000;
    const spec::BindingHouse house(all, untold.shelf.rules());
    const auto again = preparation::asMade(typed, simmered(), house);
    REQUIRE(again);
    CHECK_FALSE(larder::hasTag(again->facts, larder::kPriceAtLeast));
}
