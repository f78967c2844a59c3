#include "core/preparation/adding.h"

#include "core/physics/titratable_acid.h"
#include "core/preparation/preparation.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using quantity::Mass;
using quantity::Measure;
using quantity::Volume;

namespace {

const larder::Larder& handbook() {
    static const larder::Larder larder;
    return larder;
}

preparation::Made made(const spec::Spec& d) {
    const auto result = preparation::make(d, spec::Bindings(d, handbook(), {}), preparation::yieldOf(d));
    REQUIRE(result);
    return *result;
}

spec::Spec syrup(double sugarG, double waterMl) {
    spec::Spec spec;
    spec.lines = {preparation::dryLine("white sugar", Mass::fromGrams(sugarG), handbook()),
                  preparation::liquidLine("water", Volume::fromMl(waterMl), handbook())};
    return spec;
}

} // namespace

TEST_CASE("What a Brix asks for brings the syrup there", "[adding]") {
    const auto thin = syrup(400, 600);
    const auto target = quantity::MassFraction::fromPercent(50);
    const auto ask = preparation::toBrix(made(thin).composition, target);
    REQUIRE(ask);
    REQUIRE(ask->addSugar);
    const auto sweet = preparation::withAdded(
        thin, {preparation::dryLine(preparation::nameOfSubstance(physics::Substance::Sucrose), *ask->addSugar,
                                    handbook())});
    // The handbook's white sugar is not sugar alone: 0.1 g in 100 g.
    CHECK(*made(sweet).brix == Approx(50).margin(0.1));
    REQUIRE(ask->boilOff);
    CHECK(*made(preparation::withBoiledOff(thin, *ask->boilOff)).brix == Approx(50).margin(0.01));
}

TEST_CASE("Lime acid in another juice is what was asked for", "[adding]") {
    spec::Spec orange;
    orange.lines = {preparation::liquidLine("orange juice", Volume::fromMl(1000), handbook())};
    const auto lime = handbook().match("lime juice");
    const auto target = preparation::compositionOfIngredient(lime.ingredient, handbook(), {});
    REQUIRE(target);
    const auto ask = preparation::acidToMatch(made(orange).composition, *target);
    REQUIRE(ask);
    std::vector<spec::Line> lines;
    for (const auto& [acid, mass] : ask->add)
        lines.push_back(preparation::dryLine(preparation::nameOfSubstance(acid), mass, handbook()));
    REQUIRE_FALSE(lines.empty());
    for (const auto& line : lines)
        CHECK(line.ingredient.has_value());
    const auto adjusted = made(preparation::withAdded(orange, lines));
    CHECK(adjusted.facts.acidGPerL->typical ==
          Approx(handbook().find(lime.ingredient)->facts.acidGPerL->typical).epsilon(0.02));
}

TEST_CASE("A measured yield was measured before what is added", "[adding]") {
    auto measured = syrup(500, 500);
    measured.yieldMl = 700;
    const auto more =
        preparation::withAdded(measured, {preparation::liquidLine("water", Volume::fromMl(100), handbook())});
    CHECK_FALSE(more.yieldMl);
    REQUIRE(more.steps.size() == 1);
    CHECK(more.steps[0].gotMl == 700.0);
    CHECK(made(more).mass.grams() == Approx(made(measured).mass.grams() + 99.82).margin(0.1));
    CHECK(preparation::withAdded(measured, {}) == measured);
    CHECK(preparation::withBoiledOff(measured, Mass::fromGrams(0)) == measured);
}

TEST_CASE("Nothing is known of what is not in the larder", "[adding]") {
    CHECK_FALSE(preparation::compositionOfIngredient(base::IngredientId::random(), handbook(), {}));
    const auto sugar = handbook().match("white sugar");
    CHECK_FALSE(preparation::compositionOfIngredient(sugar.ingredient, handbook(), {}));
}
