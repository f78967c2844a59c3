#include "core/spec/caution.h"
#include "tests/core/store/store_support.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>

// The case of tests/core/preparation/nested_test.cpp, whose head has the sums by hand, through a workbook: a
// gourd puree syrup, simmered and strained, in a cream, in a drink.

using namespace stillroom;
using namespace stillroom::test;
using quantity::Measure;
using spec::Quantity;
using spec::StepKind;
using store::OpenMode;
using store::Workbook;

namespace {

constexpr double kThousandth = 0.001;

larder::Ingredient ofFacts(const std::string& name, std::optional<double> abv, std::optional<double> sugar,
                           std::optional<double> acid) {
    larder::Ingredient ingredient;
    ingredient.id = base::IngredientId::random();
    ingredient.sort = larder::IngredientSort::Bottle;
    ingredient.name = name;
    if (abv) ingredient.facts.abvPercent = fact(*abv);
    if (sugar) ingredient.facts.sugarGPerL = fact(*sugar);
    if (acid) ingredient.facts.acidGPerL = fact(*acid);
    ingredient.facts.allergens = std::vector<std::string>{};
    return ingredient;
}

larder::Pack pack(std::int64_t cents, double size, bool byMass) {
    larder::Pack made;
    made.id = base::PackId::random();
    made.price = {cents, {}};
    (byMass ? made.forG : made.forMl) = size;
    return made;
}

spec::Line grams(const larder::Ingredient& of, int amount) {
    spec::Line made = line(of.name, amount, of.id);
    made.poured.measure = Measure::G;
    return made;
}

struct House {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    std::string path = folder.file("low-lamp.stillroom");
    std::unique_ptr<Workbook> book = Workbook::create(path, lowLamp(), clock);
    larder::Ingredient puree = ofFacts("gourd puree, jar", 0, 40, 0);
    larder::Ingredient spirit = ofFacts("aged spirit, 40", 40, 0, 0);
    history::Draft syrup, cream, drink;

    House() {
        auto sugar = ofFacts("fine sugar, sack", {}, 1000, 0);
        auto bark = ofFacts("warm bark, tin", {}, {}, {});
        auto water = ofFacts("well water", 0, 0, 0);
        auto dairy = ofFacts("dairy cream, tub", 0, 26, 0);
        puree.facts.tags = {"pumpkin"};
        puree.facts.group = "puree";
        puree.packs = {pack(360, 850, false)};
        sugar.facts.dry = true;
        sugar.facts.group = "sweetener";
        sugar.packs = {pack(120, 1000, true)};
        bark.facts.dry = true;
        bark.facts.soluble = false;
        bark.facts.group = "spice";
        bark.facts.tags = {"cassia_cinnamon"};
        bark.packs = {pack(450, 100, true)};
        water.facts.group = "water";
        dairy.facts.fatGPerL = fact(350);
        dairy.facts.proteinGPerL = fact(20);
        dairy.facts.group = "dairy";
        dairy.facts.allergens = std::vector<std::string>{"milk"};
        dairy.packs = {pack(240, 500, false)};
        spirit.packs = {pack(1800, 700, false)};
        book->saveIngredients({puree, sugar, bark, water, dairy, spirit});

        spec::Spec spec;
        spec.lines = {line(puree.name, 300, puree.id), grams(sugar, 500), grams(water, 400), grams(bark, 6)};
        for (const StepKind kind : {StepKind::Dissolve, StepKind::Simmer, StepKind::Strain})
            spec.steps.emplace_back().kind = kind;
        spec.steps[1].waterLostG = 200;
        spec.steps[2].yieldShare = 0.9;
        syrup = preparation("ember syrup", spec);
        spec::Spec blended;
        blended.lines = {line("ember syrup", 150, madeBy(syrup.drink)), line(dairy.name, 300, dairy.id),
                         line(spirit.name, 60, spirit.id)};
        blended.steps.emplace_back().kind = StepKind::Blend;
        cream = preparation("hearth cream", blended);
        spec::Spec served;
        served.lines = {line(spirit.name, 45, spirit.id), line("hearth cream", 30, madeBy(cream.drink))};
        drink = book->addDrink(drinkNamed("Ember Head"), served);
    }
    history::Draft preparation(const std::string& name, const spec::Spec& spec) const {
        history::Drink made = drinkNamed(name);
        made.form = history::DrinkForm::Preparation;
        return book->addDrink(made, spec);
    }
    base::IngredientId madeBy(base::DrinkId id) const {
        for (const larder::Ingredient* ingredient : book->larder().all())
            if (ingredient->madeBy == id) return ingredient->id;
        return {};
    }
    larder::Ingredient made(const history::Draft& draft) const {
        return *book->larder().find(madeBy(draft.drink));
    }
    double costPerMl(const history::Draft& draft) const {
        const auto packs = made(draft).packs;
        REQUIRE(packs.size() == 1);
        return static_cast<double>(packs[0].price.minor) / 100 / packs[0].forMl.value();
    }
    spec::Reading served(Quantity quantity) const {
        return spec::evaluate(book->draft(drink.id)->spec, book->larder(),
                              book->settings().rules)[spec::Stage::Served][quantity];
    }
    std::string centsServed() const {
        const auto cost = served(Quantity::Cost);
        CHECK(cost.bound == spec::Bound::Exact);
        return quantity::roundedToMoney({std::llround(cost.value * 1e6)}, {}).text();
    }
    void priceThePuree(std::int64_t cents) {
        puree.packs = {pack(cents, 850, false)};
        book->saveIngredient(puree);
    }
};

} // namespace

TEST_CASE("in a book a syrup in a cream in a drink comes out as it does by hand", "[store][nested]") {
    const House h;
    CHECK(h.made(h.syrup).facts.sugarGPerL->typical == Approx(629.80).epsilon(kThousandth));
    CHECK(h.made(h.syrup).facts.densityKgPerM3->typical == Approx(1235.14).epsilon(kThousandth));
    CHECK(h.costPerMl(h.syrup) == Approx(2.140588 / 731.66).epsilon(kThousandth));
    CHECK(h.made(h.cream).facts.abvPercent->typical == Approx(4.7077).epsilon(kThousandth));
    CHECK(h.made(h.cream).facts.sugarGPerL->typical == Approx(200.61).epsilon(kThousandth));
    CHECK(h.costPerMl(h.cream) == Approx(3.421709 / 509.81).epsilon(kThousandth));
    CHECK(h.centsServed() == "1.36");
    CHECK(h.served(Quantity::Cost).value == Approx(1.358497).margin(0.00005));
    CHECK(h.served(Quantity::Ethanol).value == Approx(19.4123 * 0.78924).epsilon(kThousandth));
    CHECK(h.served(Quantity::Sugar).value * h.served(Quantity::Volume).value / 100 ==
          Approx(6.0182).epsilon(kThousandth));
}

TEST_CASE("in a book a price at the bottom flows to the top and history keeps the old one",
          "[store][nested]") {
    House h;
    for (const auto* draft : {&h.syrup, &h.cream, &h.drink}) {
        h.clock.advanceMs(1000);
        REQUIRE(h.book->keep(draft->id, "first"));
    }
    h.clock.advanceMs(1000);
    h.priceThePuree(540);
    CHECK(h.costPerMl(h.syrup) == Approx(2.775882 / 731.66).epsilon(kThousandth));
    CHECK(h.costPerMl(h.cream) == Approx(3.551953 / 509.81).epsilon(kThousandth));
    CHECK(h.served(Quantity::Cost).value == Approx(1.366161).margin(0.00005));
    CHECK(h.centsServed() == "1.37");

    // The kept drink pins the cream's revision, which pins the syrup's: three levels down at the old price.
    const auto kept = h.book->revisions(h.drink.drink).back();
    const auto cream = h.book->revisions(h.cream.drink).back();
    const auto syrup = h.book->revisions(h.syrup.drink).back();
    CHECK(kept.facts.preparations.at(h.madeBy(h.cream.drink)) == cream.id);
    CHECK(cream.facts.preparations.at(h.madeBy(h.syrup.drink)) == syrup.id);
    const auto again = spec::evaluate(kept.spec, h.book->larderOf(kept), h.book->rulesOf(kept));
    CHECK(again == kept.readings);
    CHECK(again[spec::Stage::Served][Quantity::Cost].value == Approx(1.358497).margin(0.00005));

    // A syrup kept anew is poured by the draft, not by the revision.
    auto sweeter = h.syrup.spec;
    sweeter.lines[1].poured.amount = quantity::Amount::exact(900);
    h.book->saveDraft(h.syrup.id, sweeter);
    REQUIRE(h.book->keep(h.syrup.id, "sweeter"));
    CHECK(h.made(h.cream).facts.sugarGPerL->typical > 250);
    CHECK(spec::evaluate(kept.spec, h.book->larderOf(kept), h.book->rulesOf(kept)) == kept.readings);
}

TEST_CASE("in a book allergens and cautions of the bottom arrive at the top", "[store][nested]") {
    House h;
    const auto spec = h.book->draft(h.drink.id)->spec;
    const auto larder = h.book->larder();
    const spec::Bindings bindings(spec, larder, h.book->settings().rules);
    CHECK(spec::allergens(spec, bindings).contains == std::vector<std::string>{"milk"});
    CHECK(spec::allergens(spec, bindings).unknownLines.empty());
    CHECK(h.made(h.cream).facts.tags ==
          std::vector<std::string>{"cassia_cinnamon", "dairy", "dairy_within", "pumpkin"});
    const auto cautions = spec::cautions(spec, bindings, spec::evaluate(spec, bindings));
    CHECK(std::any_of(cautions.begin(), cautions.end(), [](const auto& c) { return c.id == "coumarin"; }));
    // Nuts in the puree, two levels down, are in the glass.
    h.puree.facts.allergens = std::vector<std::string>{"nuts"};
    h.book->saveIngredient(h.puree);
    const auto changed = h.book->larder();
    const spec::Bindings now(spec, changed, h.book->settings().rules);
    CHECK(spec::allergens(spec, now).contains == std::vector<std::string>{"milk", "nuts"});
}

TEST_CASE("a lot in use lends its figures to what is made of it", "[store][nested]") {
    House h;
    larder::Lot lot;
    lot.id = base::LotId::random();
    lot.ingredient = h.spirit.id;
    lot.on = "2026-11-20";
    lot.abvPercent = larder::Fact{50, 50, 50, larder::SourceKind::Measured, "hydrometer", "2026-11-20"};
    h.spirit.lotInUse = lot.id;
    h.book->saveIngredient(h.spirit);
    h.book->saveLot(lot);
    CHECK(h.made(h.cream).facts.abvPercent->typical == Approx(4.7077 * 50 / 40).epsilon(0.005));
}

TEST_CASE("a revision of what is got from a purchase keeps the purchase's price of its day",
          "[store][nested]") {
    House h;
    auto fruit = ofFacts("limes, crate", {}, {}, {});
    fruit.packs = {pack(1200, 1, false)};
    fruit.packs[0].forMl.reset();
    fruit.packs[0].forPieces = 40;
    auto juice = ofFacts("lime juice, pressed", 0, 17, 46);
    juice.gotFrom = larder::GotFrom{fruit.id, larder::PackUnit::Piece, larder::PackUnit::Ml, 30, 1};
    h.book->saveIngredients({fruit, juice});
    spec::Spec spec;
    spec.lines = {line(juice.name, 30, juice.id)};
    const auto draft = h.book->addDrink(drinkNamed("Green Rock"), spec);
    const auto kept = h.book->keep(draft.id, "one lime");
    REQUIRE(kept);
    CHECK(kept->readings[spec::Stage::Served][Quantity::Cost].value == Approx(0.30));
    h.clock.advanceMs(1000);
    fruit.packs[0].price.minor = 2400;
    h.book->saveIngredient(fruit);
    CHECK(
        spec::evaluate(spec, h.book->larder(), h.book->settings().rules)[spec::Stage::Served][Quantity::Cost]
            .value == Approx(0.60));
    CHECK(spec::evaluate(kept->spec, h.book->larderOf(*kept), h.book->rulesOf(*kept)) == kept->readings);
}

TEST_CASE("a revision is read at the exchange rates up to its day", "[store][nested]") {
    House h;
    const auto gbp = *quantity::Currency::fromCode("GBP");
    auto settings = h.book->settings();
    settings.rules.rates = {
        {gbp, settings.rules.currency, *quantity::Rational::make(117, 100), "2026-11-01"}};
    h.book->saveSettings(settings);
    h.spirit.packs[0].price.currency = gbp;
    h.spirit.packs[0].id = base::PackId::random();
    h.book->saveIngredient(h.spirit);
    spec::Spec spec;
    spec.lines = {line(h.spirit.name, 70, h.spirit.id)};
    const auto draft = h.book->addDrink(drinkNamed("Far Light"), spec);
    const auto kept = h.book->keep(draft.id, "from over the water");
    REQUIRE(kept);
    CHECK(kept->readings[spec::Stage::Served][Quantity::Cost].value == Approx(1.80 * 1.17));
    settings.rules.rates.push_back({gbp, settings.rules.currency, 2, "2026-11-20"});
    h.book->saveSettings(settings);
    const auto today = [&] {
        return spec::evaluate(spec, h.book->larder(),
                              h.book->settings().rules)[spec::Stage::Served][Quantity::Cost]
            .value;
    };
    CHECK(today() == Approx(1.80 * 1.17)); // a rate of a later day is none yet
    constexpr std::int64_t kDayMs = 86'400'000;
    h.clock.advanceMs(17 * kDayMs);
    CHECK(today() == Approx(1.80 * 1.17));
    h.clock.advanceMs(kDayMs); // 20 November
    CHECK(today() == Approx(3.60));
    CHECK(spec::evaluate(kept->spec, h.book->larderOf(*kept), h.book->rulesOf(*kept)) == kept->readings);
}

TEST_CASE("a price of a later day costs nothing more today and in what is kept today", "[store][nested]") {
    // 50 ml of a bottle of 700 ml at 24.50, and at 35.00 from the first of May: 1.75 and 2.50.
    House h;
    auto gin = ofFacts("house gin, 47", 47, 0, 0);
    gin.packs = {pack(2450, 700, false), pack(3500, 700, false)};
    gin.packs[0].pricedOn = "2026-11-02";
    gin.packs[1].pricedOn = "2027-05-01";
    h.book->saveIngredient(gin);
    spec::Spec drink;
    drink.lines = {line(gin.name, 50, gin.id)};
    const auto cost = [&] {
        return spec::evaluate(drink, h.book->larder(),
                              h.book->settings().rules)[spec::Stage::Served][Quantity::Cost]
            .value;
    };
    CHECK(cost() == Approx(1.75));
    const auto draft = h.book->addDrink(drinkNamed("Far Day"), drink);
    const auto kept = h.book->keep(draft.id, "as priced");
    REQUIRE(kept);
    CHECK(kept->readings[spec::Stage::Served][Quantity::Cost].value == Approx(1.75));
    constexpr std::int64_t kDayMs = 86'400'000;
    h.clock.advanceMs(180 * kDayMs); // 1 May 2027
    CHECK(cost() == Approx(2.50));
    CHECK(spec::evaluate(kept->spec, h.book->larderOf(*kept), h.book->rulesOf(*kept)) == kept->readings);
    // One without a date, entered last, is newer than those that hold.
    gin.packs.push_back(pack(2800, 700, false));
    h.book->saveIngredient(gin);
    CHECK(cost() == Approx(2.00));
}
