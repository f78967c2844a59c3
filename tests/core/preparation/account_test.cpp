#include "core/preparation/account.h"

#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using preparation::Stand;
using quantity::Measure;
using spec::Bindings;
using spec::Step;
using spec::StepKind;

namespace {

Shelf kitchen() {
    Shelf shelf;
    shelf.putPriced("water", {{0}, {0}, {0}}, 0, 1000)
        .putDry("sugar", 1000, 0, 0.852)
        .put("spirit", {{40}, {0}, {0}})
        .putDry("acid", 0, 1000, 0.9);
    auto sugar = shelf.ingredient("sugar");
    sugar.facts = shelf.larder.find(sugar.id)->facts;
    larder::Pack pack;
    pack.id = base::PackId::derivedFrom("sugar");
    pack.price = {200, {}};
    pack.forG = 1000;
    sugar.packs = {pack};
    shelf.larder.put(sugar);
    return shelf;
}

Step weighed(StepKind kind, double grams) {
    Step step;
    step.kind = kind;
    step.gotG = grams;
    return step;
}

preparation::Made made(const Shelf& shelf, const spec::Spec& d) {
    const auto result =
        preparation::make(d, Bindings(d, shelf.larder, shelf.rules()), preparation::yieldOf(d));
    REQUIRE(result);
    return *result;
}

spec::Spec syrup() {
    return drink({line("sugar", 500, Measure::G), line("water", 500, Measure::G)});
}

} // namespace

TEST_CASE("The account of a syrup names what is in the pan and what each step left", "[account]") {
    auto spec = syrup();
    spec.steps = {weighed(StepKind::Simmer, 976), weighed(StepKind::Strain, 946)};
    const auto shelf = kitchen();
    const auto stands = preparation::account(made(shelf, spec));
    REQUIRE(stands.size() == 4);
    CHECK(stands[0].at == Stand::At::Pan);
    CHECK(stands[0].mass.grams() == Approx(1000));
    CHECK(stands[0].entered.grams() == Approx(1000));
    CHECK(*stands[0].brix == Approx(50));
    CHECK(stands[1].mass.grams() == Approx(976));
    CHECK(stands[1].left.grams() == Approx(24));
    CHECK(*stands[1].brix == Approx(100 * 500 / 976.0));
    CHECK(stands[1].measured);
    // Straining takes of the whole: as sweet as before.
    CHECK(stands[2].left.grams() == Approx(30));
    CHECK(*stands[2].brix == Approx(*stands[1].brix));
    CHECK(stands[3].at == Stand::At::Usable);
    CHECK(stands[3].mass.grams() == Approx(946));
    CHECK(stands[3].entered.grams() == Approx(0).margin(1e-6));
    CHECK(stands[3].left.grams() == Approx(0).margin(1e-6));
    CHECK(preparation::usableShare(made(shelf, spec)) == Approx(0.946));
    // 500 g at 2.00 the kilogram, over what is left.
    REQUIRE(stands[3].cost);
    CHECK(stands[3].cost->millionths == 1'000'000);
    CHECK(stands[3].costPer100Ml->major() == Approx(100 / stands[3].volume.ml()).margin(1e-6));
    CHECK(stands[3].densityKgPerM3.has_value());
    for (const auto& stand : stands)
        CHECK(stand.mass.grams() > 0);
}

TEST_CASE("What goes in after all steps and a measured yield stand in the last row", "[account]") {
    auto spec = syrup();
    spec.lines.push_back(line("acid", 10, Measure::G));
    spec.lines[2].beforeStep = 1;
    spec.steps = {weighed(StepKind::Strain, 900)};
    const auto shelf = kitchen();
    const auto stands = preparation::account(made(shelf, spec));
    REQUIRE(stands.size() == 3);
    CHECK(stands[0].mass.grams() == Approx(1000));
    CHECK(stands[2].entered.grams() == Approx(10));
    CHECK(stands[2].mass.grams() == Approx(910));
    spec.yieldMl = 700;
    const auto measured = preparation::account(made(shelf, spec));
    CHECK(measured[2].measured);
    CHECK(measured[2].volume.ml() == Approx(700));
    CHECK(measured[2].left.grams() == Approx(910 - measured[2].mass.grams()));
}

TEST_CASE("A preparation without steps is in the pan and usable", "[account]") {
    const auto shelf = kitchen();
    const auto stands = preparation::account(made(shelf, syrup()));
    REQUIRE(stands.size() == 2);
    CHECK(stands[0].mass.grams() == Approx(1000));
    CHECK(stands[1].mass.grams() == Approx(1000));
    CHECK(*stands[0].sugarGPerL == Approx(*stands[1].sugarGPerL));
}

TEST_CASE("A loss nobody stated leaves no price per volume and at most so much", "[account]") {
    auto spec = syrup();
    Step strain;
    strain.kind = StepKind::Strain;
    spec.steps = {strain};
    const auto stands = preparation::account(made(kitchen(), spec));
    CHECK(stands[1].atMost);
    CHECK(stands[2].atMost);
    CHECK_FALSE(stands[2].costPer100Ml);
    CHECK(stands[0].costPer100Ml);
}

TEST_CASE("A syrup stands in for another by its sugar and a spirit never does", "[account]") {
    const auto shelf = kitchen();
    const auto rich = made(shelf, drink({line("sugar", 400, Measure::G), line("water", 200, Measure::G)}));
    const auto ml = preparation::standsInFor(rich, quantity::Volume::fromMl(30), 615);
    REQUIRE(ml);
    CHECK(ml->ml() * rich.facts.sugarGPerL->typical == Approx(30 * 615.0));
    const auto spirit = made(shelf, drink({line("spirit", 500), line("sugar", 100, Measure::G)}));
    CHECK_FALSE(preparation::standsInFor(spirit, quantity::Volume::fromMl(30), 615));
    const auto water = made(shelf, drink({line("water", 500)}));
    CHECK_FALSE(preparation::standsInFor(water, quantity::Volume::fromMl(30), 615));
}
