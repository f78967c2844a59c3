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

TEST_CASE("One unknown line leaves the rest as a lower end and never as nothing", "[account]") {
    auto shelf = kitchen();
    shelf
        .put("mystery liqueur", {{24}, {}, {0}}) // nobody knows its sugar
        .put("unlabelled spirit", {{}, {0}, {0}});
    const auto usable = [&](const spec::Spec& d) { return preparation::account(made(shelf, d)).back(); };
    auto d = syrup();
    d.lines.push_back(line("mystery liqueur", 100));
    const auto known = usable(syrup());
    const auto sweet = usable(d);
    CHECK_FALSE(sweet.sugarGPerL);
    REQUIRE(sweet.least.sugarGPerL);
    // 500 g in the volume of all, the liqueur's sugar on top: at the least.
    CHECK(*sweet.least.sugarGPerL == Approx(500 / sweet.volume.ml() * 1000).epsilon(1e-6));
    CHECK(*sweet.least.sugarGPerL < *known.sugarGPerL);
    REQUIRE(sweet.least.brix);
    CHECK(sweet.acidGPerL); // that one is known
    CHECK_FALSE(sweet.least.acidGPerL);
    REQUIRE(sweet.strengthPercent); // and so is the strength
    // And it holds: whatever the liqueur turns out to hold, up to what a litre can, there is as much or more.
    for (const double sugar : {0.0, 100.0, 300.0, 500.0}) {
        auto told = shelf;
        told.put("mystery liqueur", {{24}, {sugar}, {0}});
        const auto then = preparation::account(made(told, d)).back();
        REQUIRE(then.sugarGPerL);
        CHECK(*then.sugarGPerL >= *sweet.least.sugarGPerL * (1 - 1e-3));
    }
    // The price of the liqueur is missing: it costs what the sugar costs, at the least.
    CHECK_FALSE(sweet.cost);
    REQUIRE(sweet.least.cost);
    CHECK(sweet.least.cost->major() == Approx(1.0));
    REQUIRE(sweet.leastCostPer100Ml);

    auto strong = drink({line("spirit", 500), line("unlabelled spirit", 100)});
    const auto strength = usable(strong);
    CHECK_FALSE(strength.strengthPercent);
    REQUIRE(strength.least.strengthPercent);
    CHECK(*strength.least.strengthPercent == Approx(100 * 0.4 * 500 / 600).margin(0.5));
}

TEST_CASE("Water boiled off that nobody weighed only makes it sweeter and a ferment bounds nothing",
          "[account]") {
    const auto shelf = kitchen();
    auto spec = syrup();
    Step simmer;
    simmer.kind = StepKind::Simmer;
    spec.steps = {simmer};
    const auto boiled = preparation::account(made(shelf, spec)).back();
    const auto plain = preparation::account(made(shelf, syrup())).back();
    CHECK_FALSE(boiled.sugarGPerL);
    REQUIRE(boiled.least.sugarGPerL);
    CHECK(*boiled.least.sugarGPerL == Approx(*plain.sugarGPerL));
    REQUIRE(boiled.least.brix);
    CHECK(*boiled.least.brix == Approx(50).margin(0.01));
    CHECK(boiled.atMost);
    CHECK_FALSE(boiled.costPer100Ml); // at most so much, so at least so dear
    REQUIRE(boiled.leastCostPer100Ml);
    spec.steps[0].kind = StepKind::Ferment;
    const auto fermented = preparation::account(made(shelf, spec)).back();
    CHECK_FALSE(fermented.sugarGPerL);
    CHECK_FALSE(fermented.least.sugarGPerL);
    CHECK_FALSE(fermented.least.strengthPercent);
}
