#include "core/preparation/label.h"
#include "core/preparation/nesting.h"
#include "core/preparation/preparation.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <algorithm>

// A spiced puree syrup, simmered and strained, in a cream, in a drink: by hand from the published densities
// (CRC Handbook, sucrose + water and ethanol + water at 20 °C; ternary, recommended_model), linear between
// their rows.
//
// Ember syrup. 300 ml of puree with 40 g/l of sugar are 304.105 g (1.01368 g/ml at 3.946 Brix): 12 g sugar,
// 292.105 g water. With 500 g sugar and 400 g water, less 200 g simmered off: 512 g in 1004.105 g, 50.991
// Brix, 1.23514 g/ml, 812.95 ml; strained to nine tenths, 731.66 ml.
//   3.60 for 850 ml: 1.270588; 1.20 for 1 kg: 0.600000; 4.50 for 100 g, 6 g: 0.270000. Together 2.140588.
// Hearth cream. 150 ml of it (94.471 g sugar, 90.800 g water), 300 ml of dairy cream (105 g fat, 6 g protein,
// 7.8 g sugar, 176.344 g water) and 60 ml at 40 % (18.942 g ethanol, 37.941 g water): 305.085 g of water,
// 5.846 g/100 g of ethanol in it; 509.81 ml at 4.708 % vol with 200.61 g/l of sugar.
//   0.438852 + 2.40/500 x 300 = 1.440000 + 18.00/700 x 60 = 1.542857: 3.421709.
// The drink. 45 ml at 40 % and 30 ml of the cream: 1.157143 + 0.201354 = 1.358497; 19.412 ml of ethanol,
// 6.018 g of sugar. With the puree at 5.40: 2.775882, 3.551953, and 1.366161 for the drink.

using namespace stillroom;
using namespace stillroom::test;
using base::IngredientId;
using quantity::Measure;
using spec::StepKind;

namespace {

larder::Pack pack(std::int64_t cents, double size, bool byMass) {
    larder::Pack made;
    made.price = {cents, {}};
    (byMass ? made.forG : made.forMl) = size;
    return made;
}

Shelf stillroomShelf(std::int64_t pureeCents) {
    Shelf shelf;
    const auto put = [&](const std::string& name, larder::FactState facts,
                         std::optional<larder::Pack> price) {
        auto made = shelf.ingredient(name);
        made.facts = std::move(facts);
        if (!made.facts.allergens) made.facts.allergens = std::vector<std::string>{};
        if (price) made.packs = {*price};
        shelf.larder.put(made);
    };
    auto puree = factsOf({{0}, {40}, {0}});
    puree.tags = {"pumpkin"};
    puree.group = "puree";
    put("gourd puree", puree, pack(pureeCents, 850, false));
    auto sugar = factsOf({{}, {1000}, {0}});
    sugar.dry = true;
    sugar.group = "sweetener";
    put("fine sugar", sugar, pack(120, 1000, true));
    auto bark = larder::FactState();
    bark.dry = true;
    bark.soluble = false;
    bark.group = "spice";
    bark.tags = {"cassia_cinnamon"};
    put("warm bark", bark, pack(450, 100, true));
    put("water", factsOf({{0}, {0}, {0}}), std::nullopt);
    auto dairy = factsOf({{0}, {26}, {0}});
    dairy.fatGPerL = fact(350);
    dairy.proteinGPerL = fact(20);
    dairy.group = "dairy";
    dairy.allergens = std::vector<std::string>{"milk"};
    put("dairy cream", dairy, pack(240, 500, false));
    put("aged spirit", factsOf({{40}, {0}, {0}}), pack(1800, 700, false));
    return shelf;
}

spec::Spec emberSyrup() {
    auto d = drink({line("gourd puree", 300), line("fine sugar", 500, Measure::G),
                    line("water", 400, Measure::G), line("warm bark", 6, Measure::G)});
    for (const StepKind kind : {StepKind::Dissolve, StepKind::Simmer, StepKind::Strain})
        d.steps.emplace_back().kind = kind;
    d.steps[1].waterLostG = 200;
    d.steps[2].yieldShare = 0.9;
    return d;
}

spec::Spec hearthCream() {
    auto d = drink({line("ember syrup", 150), line("dairy cream", 300), line("aged spirit", 60)});
    d.steps.emplace_back().kind = StepKind::Blend;
    return d;
}

spec::Spec lateDrink() {
    return drink({line("aged spirit", 45), line("hearth cream", 30)});
}

struct House {
    Shelf shelf;
    std::map<IngredientId, preparation::Made> made;
};

// As a book does it: in the order of making, each with its facts and its cost.
House made(std::int64_t pureeCents) {
    House house{stillroomShelf(pureeCents), {}};
    preparation::Specs specs;
    std::map<IngredientId, std::string> names;
    for (const auto& [name, spec] :
         {std::pair{"hearth cream", hearthCream()}, {"ember syrup", emberSyrup()}}) {
        specs[IngredientId::derivedFrom(name)] = spec;
        names[IngredientId::derivedFrom(name)] = name;
    }
    const auto order = preparation::makingOrder(specs, house.shelf.larder);
    REQUIRE(order);
    for (const IngredientId id : *order) {
        const spec::Spec& spec = specs.at(id);
        const auto result =
            preparation::make(spec, spec::Bindings(spec, house.shelf.larder, house.shelf.rules()), {});
        REQUIRE(result);
        auto ingredient = house.shelf.ingredient(names.at(id));
        ingredient.sort = larder::IngredientSort::Preparation;
        ingredient.facts = result->facts;
        ingredient.packs = {preparation::packOf(*result, {}, {}).value()};
        house.shelf.larder.put(ingredient);
        house.made.emplace(id, *result);
    }
    return house;
}

const preparation::Made& of(const House& house, const std::string& name) {
    return house.made.at(IngredientId::derivedFrom(name));
}

constexpr double kThousandth = 0.001;

} // namespace

TEST_CASE("a syrup in a cream in a drink comes out as it does by hand", "[preparation][nested]") {
    const House house = made(360);
    const auto& syrup = of(house, "ember syrup");
    CHECK(syrup.yield.ml() == Approx(731.66).epsilon(kThousandth));
    CHECK(*syrup.brix == Approx(50.991).epsilon(kThousandth));
    CHECK(syrup.facts.sugarGPerL->typical == Approx(629.80).epsilon(kThousandth));
    CHECK(syrup.facts.densityKgPerM3->typical == Approx(1235.14).epsilon(kThousandth));
    REQUIRE(syrup.cost);
    CHECK(syrup.cost->millionths == 2'140'588);
    REQUIRE(syrup.costPerMl);
    CHECK(static_cast<double>(syrup.costPerMl->millionths) == Approx(2925.68).epsilon(kThousandth));
    CHECK(syrup.process.steps[1].volume.ml() == Approx(812.95).epsilon(kThousandth));
    CHECK(syrup.process.steps[2].cost == syrup.cost);

    const auto& cream = of(house, "hearth cream");
    CHECK(cream.yield.ml() == Approx(509.81).epsilon(kThousandth));
    CHECK(cream.facts.abvPercent->typical == Approx(4.7077).epsilon(kThousandth));
    CHECK(cream.facts.sugarGPerL->typical == Approx(200.61).epsilon(kThousandth));
    REQUIRE(cream.cost);
    CHECK(cream.cost->major() == Approx(3.421709).margin(0.0001));

    const auto served = house.shelf.read(lateDrink())[spec::Stage::Served];
    CHECK(served[spec::Quantity::Cost].bound == spec::Bound::Exact);
    CHECK(served[spec::Quantity::Cost].value == Approx(1.358497).margin(0.00005));
    CHECK(quantity::roundedToMoney({std::llround(served[spec::Quantity::Cost].value * 1e6)}, {}).text() ==
          "1.36");
    CHECK(served[spec::Quantity::Ethanol].value == Approx(19.4123 * 0.78924).epsilon(kThousandth));
    const double ml = served[spec::Quantity::Volume].value;
    CHECK(served[spec::Quantity::Sugar].value * ml / 100 == Approx(6.0182).epsilon(kThousandth));
}

TEST_CASE("a price at the bottom changes the drink at the top", "[preparation][nested]") {
    const House house = made(540);
    CHECK(of(house, "ember syrup").cost->millionths == 2'775'882);
    CHECK(of(house, "hearth cream").cost->major() == Approx(3.551953).margin(0.0001));
    const auto cost = house.shelf.read(lateDrink())[spec::Stage::Served][spec::Quantity::Cost];
    CHECK(cost.value == Approx(1.366161).margin(0.00005));
    CHECK(quantity::roundedToMoney({std::llround(cost.value * 1e6)}, {}).text() == "1.37");
}

TEST_CASE("allergens and cautions of the bottom arrive at the top", "[preparation][nested]") {
    const House house = made(360);
    const auto& cream = of(house, "hearth cream");
    CHECK(cream.facts.allergens == std::vector<std::string>{"milk"});
    CHECK(cream.facts.tags ==
          std::vector<std::string>{"cassia_cinnamon", "dairy", "dairy_within", "pumpkin"});
    const auto d = lateDrink();
    const spec::Bindings bindings(d, house.shelf.larder, house.shelf.rules());
    CHECK(spec::allergens(d, bindings).contains == std::vector<std::string>{"milk"});
    CHECK(spec::allergens(d, bindings).unknownLines.empty());
    const auto fires = [](const std::vector<spec::Caution>& all, const std::string& id) {
        return std::any_of(all.begin(), all.end(), [&](const auto& c) { return c.id == id; });
    };
    CHECK(fires(spec::cautions(d, bindings, house.shelf.read(d)), "coumarin"));
    const auto c = hearthCream();
    const spec::Bindings ofCream(c, house.shelf.larder, house.shelf.rules());
    const auto keeping = preparation::keepingOf("hearth cream", c, ofCream, cream);
    const auto label = preparation::labelOf("hearth cream", c, ofCream, cream, "2026-11-06", keeping);
    CHECK(fires(label.cautions, "pumpkin"));
    CHECK(label.allergens == std::vector<std::string>{"milk"});
    CHECK(label.allergensComplete);
    CHECK(label.keeping.mustRefrigerate); // by the syrup's puree, two levels down
    CHECK(label.useBy == "2026-11-08");
}

TEST_CASE("a cheap preparation is not rounded away on its way up", "[preparation][nested]") {
    Shelf shelf = stillroomShelf(360);
    const auto d = drink({line("fine sugar", 5, Measure::G), line("water", 995)});
    const auto thin = preparation::make(d, spec::Bindings(d, shelf.larder, shelf.rules()), {});
    CHECK(thin->cost->millionths == 6000); // 0.6 of a cent
    const auto packed = preparation::packOf(*thin, {}, {});
    CHECK(static_cast<double>(packed->price.minor) / *packed->forMl ==
          Approx(0.6 / thin->yield.ml()).epsilon(1e-5));
}
