#include "core/preparation/batch.h"

#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <limits>

using namespace stillroom;
using namespace stillroom::test;
using quantity::Mass;
using quantity::Measure;
using quantity::Rational;
using quantity::Volume;

namespace {

Shelf kitchen() {
    Shelf shelf;
    shelf.put("water", {{0}, {0}, {0}}).putDry("sugar", 1000, 0, 0.852).putDry("acid", 0, 1000, 0.9);
    return shelf;
}

spec::Spec cordial() {
    spec::Spec made =
        drink({line("sugar", 500, Measure::G), line("water", 500, Measure::Ml), line("acid", 8, Measure::G)});
    spec::Step simmer;
    simmer.kind = spec::StepKind::Simmer;
    simmer.minutes = 6;
    simmer.waterLostG = 24;
    spec::Step strain;
    strain.kind = spec::StepKind::Strain;
    strain.yieldShare = 0.95;
    made.steps = {simmer, strain};
    return made;
}

preparation::Made made(const spec::Spec& d) {
    const auto shelf = kitchen();
    const auto result =
        preparation::make(d, spec::Bindings(d, shelf.larder, shelf.rules()), preparation::yieldOf(d));
    REQUIRE(result);
    return *result;
}

} // namespace

TEST_CASE("A batch for an output comes to that output", "[batch]") {
    const auto once = made(cordial());
    const auto factor = preparation::factorForOutput(once, Volume::fromMl(2000));
    REQUIRE(factor);
    const auto scaled = preparation::scaledBatch(cordial(), *factor);
    REQUIRE(scaled);
    CHECK(made(*scaled).yield.ml() == Approx(2000).epsilon(1e-5));
    CHECK(made(*scaled).facts.sugarGPerL->typical == Approx(once.facts.sugarGPerL->typical).epsilon(1e-5));
    CHECK(scaled->steps[0].minutes == 6.0);
    CHECK(*scaled->steps[0].waterLostG == Approx(24 * *factor));
    CHECK(scaled->steps[1].yieldShare == 0.95);
    const auto byMass = preparation::factorForOutput(once, Mass::fromGrams(once.mass.grams() / 2));
    CHECK(*byMass == Approx(0.5));
}

TEST_CASE("A batch by the input there is takes all of it", "[batch]") {
    const auto factor = preparation::factorForInput(cordial(), 0, 340);
    REQUIRE(factor);
    CHECK(*factor == Approx(0.68));
    const auto scaled = preparation::scaledBatch(cordial(), *factor);
    REQUIRE(scaled);
    CHECK(scaled->lines[0].poured.amount.low == Rational(340));
    CHECK(scaled->lines[1].poured.amount.low == Rational(340));
    CHECK(scaled->lines[2].poured.amount.low == *Rational::make(544, 100));
    auto twice = cordial();
    twice.lines[0].poured.multiplier = 2;
    CHECK(*preparation::factorForInput(twice, 0, 340) == Approx(0.34));
    CHECK_FALSE(preparation::factorForInput(cordial(), 9, 340));
}

TEST_CASE("The smallest batch weighs its smallest dose to two per cent", "[batch]") {
    // 8 g of acid: half of 0.1 g is 2 % of 2.5 g, half of 1 g of 25 g.
    CHECK(*preparation::smallestFactor(cordial(), Mass::fromGrams(0.1)) == Approx(2.5 / 8));
    const auto coarse = preparation::smallestFactor(cordial(), Mass::fromGrams(1));
    REQUIRE(coarse);
    CHECK(*coarse == Approx(25.0 / 8));
    double worst = 0;
    for (const auto& weighing : preparation::weighings(cordial(), *coarse, Mass::fromGrams(1)))
        worst = std::max(worst, weighing.error);
    CHECK(worst == Approx(0.02));
    CHECK_FALSE(preparation::smallestFactor(drink({line("water", 500)}), Mass::fromGrams(1)));
    CHECK_FALSE(preparation::smallestFactor(cordial(), Mass::fromGrams(0)));
}

TEST_CASE("A batch that cannot be is refused", "[batch]") {
    const auto once = made(cordial());
    CHECK_FALSE(preparation::factorForOutput(once, Volume::fromMl(0)));
    CHECK_FALSE(preparation::factorForOutput(once, Volume::fromMl(-5)));
    CHECK_FALSE(preparation::factorForOutput(once, Volume::fromMl(1e12)));
    CHECK_FALSE(preparation::scaledBatch(cordial(), std::numeric_limits<double>::quiet_NaN()));
    CHECK_FALSE(preparation::scaledBatch(cordial(), 0));
    auto huge = cordial();
    huge.lines[0].poured.amount = quantity::Amount::exact(*Rational::make(9'000'000'000'000'000, 1));
    CHECK_FALSE(preparation::scaledBatch(huge, 1000));
}
