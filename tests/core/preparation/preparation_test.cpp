#include "core/preparation/preparation.h"

#include "core/spec/caution.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using quantity::Measure;
using quantity::Rational;
using quantity::Volume;
using spec::Bindings;

namespace {

Shelf kitchen() {
    Shelf shelf;
    shelf.put("water", {{0}, {0}, {0}})
        .putPriced("spirit 50", {{50}, {0}, {0}}, 2000, 1000)
        .put("spirit 40", {{40}, {0}, {0}})
        .put("strong spirit", {{96}, {0}, {0}})
        .put("unlabelled wine", {{}, {20}, {5}})
        .put("lemon juice", {{0}, {16}, {60}})
        .putDry("sugar", 1000, 0, 0.852)
        .putDry("malic acid", 0, 0, 0.9);
    auto malic = shelf.ingredient("malic acid");
    malic.facts.dry = true;
    malic.facts.sugarGPerL = fact(0);
    // 1 g of malic acid titrates like 64.04/67.04 g of citric: equivalent weights 192.12/3 and 134.09/2.
    malic.facts.acidGPerL = fact(1000 * (192.12 / 3) / (134.09 / 2));
    malic.facts.acidShares.parts = {{physics::Substance::Malic, 1.0}};
    malic.facts.allergens = std::vector<std::string>{};
    shelf.larder.put(malic);
    return shelf;
}

std::optional<preparation::Made> made(const Shelf& shelf, const spec::Spec& d,
                                      const preparation::YieldEntry& yield = {}) {
    return preparation::make(d, Bindings(d, shelf.larder, shelf.rules()), yield);
}

spec::Spec syrup(std::int64_t sugar, std::int64_t water) {
    return drink({line("sugar", sugar, Measure::G), line("water", water, Measure::G)});
}

} // namespace

TEST_CASE("syrups by weight have the sugar of the published tables", "[preparation]") {
    // worked-drinks W07: 1:1 gives 813.238 ml, 61.483 g/100 ml, 1229.65 kg/m³; 2:1 gives 1130.58 ml. Ten
    // facts, no. 1: 30 ml hold 18.4 g and 26.5 g.
    const auto one = made(kitchen(), syrup(500, 500));
    REQUIRE(one);
    CHECK(one->yield.ml() == Approx(813.238).margin(0.08));
    CHECK(one->facts.sugarGPerL->typical == Approx(614.83).margin(0.05));
    CHECK(one->facts.densityKgPerM3->typical == Approx(1229.65).margin(0.05));
    CHECK(one->facts.sugarGPerL->typical * 0.030 == Approx(18.4).margin(0.05));
    CHECK(one->facts.abvPercent->typical == 0);
    CHECK(one->facts.group == "syrup");
    const auto two = made(kitchen(), syrup(1000, 500));
    CHECK(two->yield.ml() == Approx(1130.58).margin(0.11));
    CHECK(two->facts.sugarGPerL->typical * 0.030 == Approx(26.5).margin(0.05));
}

TEST_CASE("a liqueur from weights is neither half and half nor a sum of volumes", "[preparation]") {
    // Ten facts, no. 2: 500 g of 96 % with 1 kg of 50 Brix syrup gives about 1.398 l at 42.5 %.
    const auto liqueur =
        made(kitchen(), drink({line("strong spirit", 500, Measure::G), line("sugar", 500, Measure::G),
                               line("water", 500, Measure::G)}));
    CHECK(liqueur->yield.ml() == Approx(1398).margin(2));
    CHECK(liqueur->facts.abvPercent->typical == Approx(42.5).margin(0.05));
    CHECK(liqueur->facts.group == "liqueur");
    CHECK(liqueur->mass.grams() == Approx(1500).margin(0.01));
}

TEST_CASE("a measured yield below what went in is a loss and not a concentration", "[preparation]") {
    // worked-drinks W08: 700 ml at 50 % over 300 g of berries that give 270 g water, 15 g sugar, 3 g acid;
    // 12 % of the pool stays in the fruit: 859.53 ml at 35.834 % with 1.536 g/100 ml sugar.
    Shelf shelf = kitchen();
    shelf.putDry("citric acid", 0, 1000, 0.9);
    const auto infusion = drink({line("spirit 50", 700), line("water", 270, Measure::G),
                                 line("sugar", 15, Measure::G), line("citric acid", 3, Measure::G)});
    const auto strained = made(shelf, infusion, {Volume::fromMl(859.53), preparation::Loss::Strained});
    CHECK(strained->yield.ml() == Approx(859.53));
    CHECK(strained->yieldMeasured);
    CHECK(strained->facts.abvPercent->typical == Approx(35.834).margin(0.005));
    CHECK(strained->facts.sugarGPerL->typical == Approx(15.36).margin(0.05));
    CHECK(strained->facts.acidGPerL->typical == Approx(3.07).margin(0.05));
    CHECK(strained->mass.grams() == Approx(826.407).margin(0.1));
}

TEST_CASE("boiling down keeps the sugar and loses the water", "[preparation]") {
    const auto thick = made(kitchen(), syrup(500, 500), {Volume::fromMl(700), preparation::Loss::BoiledDown});
    CHECK(thick->yield.ml() == Approx(700));
    CHECK(thick->facts.sugarGPerL->typical == Approx(500 / 0.7));
    const auto thin = made(kitchen(), syrup(500, 500), {Volume::fromMl(900), {}});
    CHECK(thin->yield.ml() == Approx(900));
    CHECK(thin->facts.sugarGPerL->typical == Approx(500 / 0.9));
}

TEST_CASE("a preparation poured into a drink reads as what it was made of", "[preparation]") {
    Shelf shelf = kitchen();
    auto cordial = shelf.ingredient("cordial");
    cordial.sort = larder::IngredientSort::Preparation;
    const auto recipe = drink({line("lemon juice", 100), line("sugar", 80, Measure::G),
                               line("malic acid", 2, Measure::G), line("spirit 40", 50)});
    cordial.facts = made(shelf, recipe)->facts;
    shelf.larder.put(cordial);
    const double yield = made(shelf, recipe)->yield.ml();
    const auto apart = shelf.read(recipe)[spec::Stage::Served];
    const auto poured = shelf.read(drink({line(
        "cordial", *Rational::make(static_cast<std::int64_t>(yield * 1000), 1000))}))[spec::Stage::Served];
    for (const auto q : {spec::Quantity::Volume, spec::Quantity::Strength, spec::Quantity::Ethanol,
                         spec::Quantity::Sugar, spec::Quantity::Brix, spec::Quantity::Acid,
                         spec::Quantity::Mass, spec::Quantity::Density, spec::Quantity::EnergyKj}) {
        INFO(spec::quantityId(q));
        CHECK(poured[q].value == Approx(apart[q].value).epsilon(2e-5));
        CHECK(poured[q].bound == spec::Bound::Exact);
    }
    CHECK(cordial.facts.acidShares.parts.size() == 2);
}

TEST_CASE("what is unknown in an ingredient is unknown in what is made of it", "[preparation]") {
    const auto d = drink({line("unlabelled wine", 500), line("sugar", 250, Measure::G)});
    const auto syrupOfWine = made(kitchen(), d);
    REQUIRE(syrupOfWine);
    CHECK_FALSE(syrupOfWine->facts.abvPercent);
    CHECK_FALSE(syrupOfWine->facts.densityKgPerM3);
    CHECK_FALSE(syrupOfWine->cost);
    CHECK_FALSE(syrupOfWine->facts.allergens);
    CHECK_FALSE(made(kitchen(), spec::Spec{}));
    CHECK_FALSE(made(kitchen(), drink({unstated("water", spec::Role::Mixed)})));
}

TEST_CASE("allergens and tags are inherited and a missing list hides none", "[preparation]") {
    Shelf shelf = kitchen();
    auto almonds = shelf.ingredient("almonds");
    almonds.facts.dry = true;
    almonds.facts.soluble = false;
    almonds.facts.allergens = std::vector<std::string>{"nuts"};
    almonds.facts.tags = {"almond"};
    shelf.larder.put(almonds);
    auto plain = shelf.ingredient("plain water");
    plain.facts = factsOf({{0}, {0}, {0}});
    plain.facts.allergens = std::vector<std::string>{};
    shelf.larder.put(plain);

    const auto known = made(shelf, drink({line("plain water", 500), line("almonds", 250, Measure::G)}));
    CHECK(known->facts.allergens == std::vector<std::string>{"nuts"});
    CHECK(known->facts.tags == std::vector<std::string>{"almond"});
    const auto partly = made(
        shelf, drink({line("plain water", 500), line("almonds", 250, Measure::G), line("lemon juice", 20)}));
    CHECK(partly->facts.allergens == std::vector<std::string>{"nuts"});
    CHECK(partly->knownAllergens == std::vector<std::string>{"nuts"});
    CHECK(partly->facts.tags == std::vector<std::string>{"allergens_incomplete", "almond"});

    auto orgeat = shelf.ingredient("almond syrup");
    orgeat.facts = partly->facts;
    shelf.larder.put(orgeat);
    const auto d = drink({line("almond syrup", 20)});
    const auto summary = spec::allergens(d, Bindings(d, shelf.larder, shelf.rules()));
    CHECK(summary.contains == std::vector<std::string>{"nuts"});
    CHECK(summary.unknownLines == std::vector<int>{0});
}

TEST_CASE("the cost of a preparation is divided by what came out", "[preparation]") {
    // 500 ml of a 20.00 litre is 10.00; strained to 400 ml that is 0.025 a ml.
    const auto infusion =
        made(kitchen(), drink({line("spirit 50", 500)}), {Volume::fromMl(400), preparation::Loss::Strained});
    REQUIRE(infusion->cost);
    CHECK(infusion->cost->millionths == 10'000'000);
    const auto pack = preparation::packOf(*infusion, {}, {});
    REQUIRE(pack);
    CHECK(pack->price.minor == 1000);
    CHECK(*pack->forMl == Approx(400));
}

TEST_CASE("a range in a preparation is a range in its facts", "[preparation]") {
    const auto d = drink({line("water", 500, Measure::G), ranged("sugar", 400, 500, Measure::G)});
    const auto facts = preparation::factsOf(d, Bindings(d, kitchen().larder, {}), {});
    REQUIRE(facts);
    CHECK(facts->sugarGPerL->low < facts->sugarGPerL->high);
    CHECK(facts->sugarGPerL->high == Approx(614.83).margin(0.1));
}

TEST_CASE("stirring until dissolved is not stirring on ice", "[preparation]") {
    auto d = syrup(500, 500);
    d.method.technique = spec::Technique::Stir;
    CHECK(made(kitchen(), d)->yield.ml() == Approx(813.238).margin(0.08));
    d.method.ice = "cubes";
    CHECK(made(kitchen(), d)->yield.ml() > 1000);
}
