#include "core/store/workbook.h"

#include "tests/core/store/store_support.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using store::OpenMode;
using store::Workbook;

namespace {

// A house-made cordial: a bottle cut with water one to one, so that half of everything is left.
struct House {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    std::string path = folder.file("low-lamp.stillroom");
    std::unique_ptr<Workbook> book = Workbook::create(path, lowLamp(), clock);
    larder::Ingredient gin = bottleOf("harbour gin 40", 40);
    larder::Ingredient water = bottleOf("well water", 0);
    base::DraftId cut;
    base::DrinkId cutDrink;

    House() {
        for (auto* bottle : {&gin, &water}) {
            bottle->facts.allergens.emplace();
            bottle->packs = {{base::PackId::random(), {1000, {}}, 1000.0, {}, {}, "2026-10-01"}};
            book->saveIngredient(*bottle);
        }
        history::Drink drink = drinkNamed("cut gin");
        drink.form = history::DrinkForm::Preparation;
        spec::Spec spec;
        spec.lines = {line("harbour gin", 500, gin.id), line("well water", 500, water.id)};
        const auto draft = book->addDrink(drink, spec);
        cut = draft.id;
        cutDrink = draft.drink;
    }
    base::IngredientId cutGin() const {
        for (const larder::Ingredient* ingredient : book->larder().all())
            if (ingredient->madeBy == cutDrink) return ingredient->id;
        return {};
    }
    double cutStrength() const { return book->larder().find(cutGin())->facts.abvPercent.value().typical; }
};

} // namespace

TEST_CASE("what is made here stands in the larder with computed facts and cost", "[store]") {
    House h;
    const auto id = h.cutGin();
    REQUIRE_FALSE(id.isNull());
    const auto larder = h.book->larder();
    const larder::Ingredient* made = larder.find(id);
    CHECK(made->name == "cut gin");
    CHECK(made->sort == larder::IngredientSort::Preparation);
    // 40 % cut one to one: a little over 20 %, since the volume contracts.
    CHECK(h.cutStrength() == Approx(20.1).margin(0.15));
    REQUIRE(made->packs.size() == 1); // 1000 ml at 10.00 the litre, and it shrinks by a few ml
    CHECK(made->packs[0].price.minor == 1000);
    CHECK(made->packs[0].forMl.value() == Approx(997).margin(3));
    h.book.reset();
    h.book = Workbook::open(h.path, OpenMode::ReadWrite, h.clock);
    CHECK(h.cutGin() == id);
}

TEST_CASE("a draft of a preparation counts until one is kept and then the kept one", "[store]") {
    House h;
    auto spec = h.book->draft(h.cut)->spec;
    spec.lines[0].poured.amount = quantity::Amount::exact(1500);
    h.book->saveDraft(h.cut, spec);
    CHECK(h.cutStrength() == Approx(30.1).margin(0.2));
    const auto kept = h.book->keep(h.cut, "three to one");
    REQUIRE(kept);
    spec.lines[0].poured.amount = quantity::Amount::exact(250);
    h.book->saveDraft(h.cut, spec);
    CHECK(h.cutStrength() == Approx(30.1).margin(0.2));
    const auto second = h.book->keep(h.cut, "one to two");
    REQUIRE(second);
    CHECK(h.cutStrength() == Approx(13.4).margin(0.2));
    auto drink = *h.book->drink(h.cutDrink);
    drink.house = kept->id;
    h.book->saveDrink(drink);
    CHECK(h.cutStrength() == Approx(30.1).margin(0.2));
}

TEST_CASE("a drink pins which revision of a preparation it poured", "[store]") {
    House h;
    const auto first = h.book->keep(h.cut, "one to one");
    const auto id = h.cutGin();
    const auto draft = h.book->addDrink(drinkNamed("Ox Skerry"), sour(22, id));
    h.clock.advanceMs(1000);
    const auto kept = h.book->keep(draft.id, "with the cut gin");
    REQUIRE(kept);
    CHECK(kept->facts.preparations.at(id) == first->id);
    CHECK(kept->facts.states.at(id) == h.book->larder().find(id)->facts.hash());
    CHECK(h.book->factState(kept->facts.states.at(id)));

    h.clock.advanceMs(1000);
    auto dearer = h.gin;
    dearer.packs[0].price.minor = 5000;
    h.book->saveIngredient(dearer);
    auto spec = h.book->draft(h.cut)->spec;
    spec.lines[0].poured.amount = quantity::Amount::exact(1500);
    h.book->saveDraft(h.cut, spec);
    REQUIRE(h.book->keep(h.cut, "three to one"));
    // The new preparation is a difference for the drink; the old revision reads as it did, cost and all.
    const auto again = h.book->larderOf(*kept);
    CHECK(spec::evaluate(kept->spec, again, h.book->settings().rules) == kept->readings);
    const auto second = h.book->keep(draft.id, "with the stronger cut");
    REQUIRE(second);
    CHECK(second->facts.preparations.at(id) != first->id);
    CHECK(second->readings != kept->readings);
}

TEST_CASE("a preparation of a preparation is computed after it and a circle ends", "[store]") {
    House h;
    const auto cutId = h.cutGin();
    history::Drink drink = drinkNamed("a second cut");
    drink.form = history::DrinkForm::Preparation;
    spec::Spec spec;
    spec.lines = {line("cut gin", 500, cutId), line("well water", 500, h.water.id)};
    const auto draft = h.book->addDrink(drink, spec);
    const auto secondId = [&] {
        for (const larder::Ingredient* ingredient : h.book->larder().all())
            if (ingredient->madeBy == draft.drink) return ingredient->id;
        return base::IngredientId{};
    }();
    CHECK(h.book->larder().find(secondId)->facts.abvPercent.value().typical == Approx(10.1).margin(0.15));
    auto circle = h.book->draft(h.cut)->spec;
    circle.lines[0].ingredient = secondId;
    h.book->saveDraft(h.cut, circle);
    CHECK(h.book->larder().find(cutId) != nullptr); // no end without an end
    CHECK(h.book->larder().find(secondId) != nullptr);
}

TEST_CASE("an ingredient that names its preparation stands for it", "[store]") {
    House h;
    const auto unnamed = h.cutGin();
    larder::Ingredient named;
    named.id = base::IngredientId::random();
    named.sort = larder::IngredientSort::Preparation;
    named.name = "our cut gin";
    named.madeBy = h.cutDrink;
    named.packs = {{base::PackId::random(), {900, {}}, 500.0, {}, {}, "2026-11-01"}};
    h.book->saveIngredient(named);
    CHECK(h.cutGin() == named.id);
    CHECK(h.book->larder().find(unnamed) == nullptr);
    CHECK(h.cutStrength() == Approx(20.1).margin(0.15));
    CHECK(h.book->larder().find(named.id)->packs == named.packs); // a typed price wins
}
