#include "tests/core/store/store_support.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom;
using namespace stillroom::test;
using store::Workbook;

namespace {

struct Bar {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    std::string path = folder.file("low-lamp.stillroom");
    std::unique_ptr<Workbook> book = Workbook::create(path, lowLamp(), clock);

    spec::Readings readAsItWas(const history::Revision& revision) const {
        return spec::evaluate(revision.spec, book->larderOf(revision), book->settings().rules);
    }
};

larder::Pack litreFor(std::int64_t minor) {
    return {base::PackId::random(), {minor, {}}, 1000.0, {}, {}, "2026-10-01"};
}

const spec::Reading& costOf(const spec::Readings& readings) {
    return readings[spec::Stage::Served][spec::Quantity::Cost];
}

// Limes at 0.30 apiece, and the 30 ml of juice that one gives.
struct Fruit {
    larder::Ingredient limes, juice;
    Fruit() {
        limes.id = base::IngredientId::random();
        limes.name = "harbour limes";
        limes.packs = {{base::PackId::random(), {30, {}}, {}, {}, 1.0, "2026-10-01"}};
        juice = bottleOf("harbour lime juice", 0);
        juice.gotFrom = larder::GotFrom{limes.id, larder::PackUnit::Piece, larder::PackUnit::Ml, 30, 1};
    }
};

spec::Spec poured(const larder::Ingredient& ingredient, int ml) {
    spec::Spec spec;
    spec.lines = {line(ingredient.name, ml, ingredient.id)};
    return spec;
}

} // namespace

TEST_CASE("a revision costs what its limes cost then", "[store]") {
    Bar bar;
    Fruit fruit;
    bar.book->saveIngredients({fruit.limes, fruit.juice});
    bar.clock.advanceMs(1000);
    const auto draft = bar.book->addDrink(drinkNamed("Ox Skerry"), poured(fruit.juice, 60));
    const auto kept = bar.book->keep(draft.id, "two limes");
    REQUIRE(kept);
    REQUIRE(costOf(kept->readings).bound == spec::Bound::Exact);
    CHECK(costOf(kept->readings).value == Approx(0.60)); // 60 ml ÷ 30 ml × 0.30
    bar.clock.advanceMs(1000);
    fruit.limes.packs = {{base::PackId::random(), {90, {}}, {}, {}, 1.0, "2026-11-02"}};
    bar.book->saveIngredient(fruit.limes);
    CHECK(costOf(spec::evaluate(draft.spec, bar.book->larder(), bar.book->settings().rules)).value ==
          Approx(1.80));
    CHECK(bar.readAsItWas(*kept) == kept->readings);
}

TEST_CASE("what is in the bin still costs what it did for a revision", "[store]") {
    Bar bar;
    auto gin = bottleOf("harbour gin 47", 47);
    gin.packs = {litreFor(2000)};
    bar.book->saveIngredient(gin);
    bar.clock.advanceMs(1000);
    const auto draft = bar.book->addDrink(drinkNamed("Ox Skerry"), poured(gin, 50));
    const auto kept = bar.book->keep(draft.id, "neat");
    REQUIRE(kept);
    CHECK(costOf(kept->readings).value == Approx(1.0));
    bar.clock.advanceMs(1000);
    bar.book->binIngredient(gin.id, true);
    CHECK(bar.readAsItWas(*kept) == kept->readings);
}

TEST_CASE("a draft that names what is in the bin has a gap of its name", "[store]") {
    Bar bar;
    const auto gin = bottleOf("harbour gin 47", 47);
    bar.book->saveIngredient(gin);
    const auto draft = bar.book->addDrink(drinkNamed("Ox Skerry"), poured(gin, 50));
    bar.book->binIngredient(gin.id, true);
    CHECK(bar.book->draft(draft.id)->spec == draft.spec); // nobody writes in a draft but its owner
    const auto readings = spec::evaluate(draft.spec, bar.book->larder(), bar.book->settings().rules);
    const auto& strength = readings[spec::Stage::Served][spec::Quantity::Strength];
    CHECK(strength.bound == spec::Bound::AtLeast); // of nothing that is known
    const auto gaps =
        spec::gaps(draft.spec, spec::Bindings(draft.spec, bar.book->larder(), bar.book->settings().rules));
    const spec::Gap unknown{spec::GapCode::IngredientUnknown, 0, "harbour gin 47"};
    CHECK(std::find(gaps.begin(), gaps.end(), unknown) != gaps.end());
    bar.book->binIngredient(gin.id, false);
    const auto back = spec::evaluate(draft.spec, bar.book->larder(), bar.book->settings().rules);
    CHECK(back[spec::Stage::Served][spec::Quantity::Strength].bound == spec::Bound::Exact);
}

TEST_CASE("a preparation is made of the lot in use", "[store]") {
    Bar bar;
    auto gin = bottleOf("harbour gin 40", 40);
    larder::Lot cask;
    cask.id = base::LotId::random();
    cask.ingredient = gin.id;
    cask.on = "2026-10-30";
    cask.abvPercent = larder::Fact{50, 50, 50, larder::SourceKind::Measured, "hydrometer", "2026-10-30"};
    gin.lotInUse = cask.id;
    bar.book->saveIngredient(gin);
    bar.book->saveLot(cask);
    history::Drink infusion = drinkNamed("infused gin");
    infusion.form = history::DrinkForm::Preparation;
    const auto draft = bar.book->addDrink(infusion, poured(gin, 500));
    const auto larder = bar.book->larder();
    bool found = false;
    for (const larder::Ingredient* ingredient : larder.all()) {
        if (ingredient->madeBy != draft.drink) continue;
        found = true;
        REQUIRE(ingredient->facts.abvPercent);
        CHECK(ingredient->facts.abvPercent->typical == Approx(50).margin(0.05));
    }
    CHECK(found);
}
