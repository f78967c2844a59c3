#include "core/physics/ice_balance.h"

#include "core/physics/facts_to_masses.h"
#include "core/physics/freezing.h"
#include "core/physics/mixture.h"
#include "tests/support/catch.h"

#include <limits>
#include <random>

using namespace stillroom::physics;
using namespace stillroom::quantity;

namespace {

Composition drink(double ml, double percentVol, double sugarGPerL = 0) {
    LiquidFacts facts;
    facts.strength = Strength::fromPercentVol(percentVol);
    facts.gramsPerLitre[Substance::Sucrose] = sugarGPerL;
    const auto perMl = massesPerMl(facts);
    REQUIRE(perMl);
    Composition c;
    c.addScaled(perMl->perMl, ml);
    return c;
}

Temperature celsius(double t) {
    return Temperature::fromCelsius(t);
}

IceLoad weighed(double grams, double t = 0, double wet = 0) {
    IceLoad ice;
    ice.mass = Mass::fromGrams(grams);
    ice.t = celsius(t);
    ice.wetShare = wet;
    return ice;
}

} // namespace

TEST_CASE("A chilled drink stands at its own freezing point", "[physics][ice]") {
    std::mt19937_64 random(21);
    std::uniform_real_distribution<double> percent(0, 50);
    std::uniform_real_distribution<double> sugar(0, 200);
    std::uniform_real_distribution<double> warm(5, 30);
    for (int i = 0; i < 300; ++i) {
        const LiquidPart part{drink(100, percent(random), sugar(random)), celsius(warm(random))};
        const auto result = chill({&part, 1}, IceLoad{});
        REQUIRE(result);
        CHECK(result->melted.grams() > 0);
        CHECK_FALSE(result->allMelted);
        CHECK(result->t.celsius() == Approx(freezingOnset(result->drink).value.celsius()).margin(1e-6));
        CHECK(result->drink.totalGrams() ==
              Approx(part.masses.totalGrams() + result->melted.grams()).epsilon(1e-12));
        // Of a weighed load at 0 °C more melts: the ice that stays is cooled below zero with the drink.
        const auto heap = chill({&part, 1}, weighed(300));
        REQUIRE(heap);
        CHECK(heap->melted.grams() > result->melted.grams() - 1e-6);
        CHECK(heap->iceLeft.grams() + heap->melted.grams() == Approx(300));
    }
}

TEST_CASE("Heat is neither made nor lost in an ice balance", "[physics][ice]") {
    const LiquidPart part{drink(100, 30, 80), celsius(22)};
    const HeatStore tin = vessel(Mass::fromGrams(250), Material::Steel, celsius(18));
    BalanceOptions leak;
    leak.heatLeakJ = 900;
    const auto heat = [&](const Chilled& r, double ice, double iceT) {
        const double before = liquidEnthalpyJ(part.masses, part.t).value + 900 -
                              ice * kIceCpJPerGK * (0 - iceT) - ice * (kFusionJPerG + kWaterCpJPerGK * 25);
        const double after =
            liquidEnthalpyJ(r.drink, r.t).value - r.iceLeft.grams() * kIceCpJPerGK * (0 - r.t.celsius()) -
            r.iceLeft.grams() * (kFusionJPerG + kWaterCpJPerGK * 25) + tin.joulesPerK * r.t.minus(tin.t);
        return after - before;
    };
    for (const double grams : {20.0, 60.0, 150.0, 400.0}) {
        for (const double t : {0.0, -8.0, -18.0}) {
            const auto result = chill({&part, 1}, weighed(grams, t), {&tin, 1}, leak);
            REQUIRE(result);
            CHECK(heat(*result, grams, t) == Approx(0).margin(0.05));
        }
    }
}

TEST_CASE("Colder ice dilutes less and wet ice more", "[physics][ice]") {
    const LiquidPart part{drink(100, 25, 60), celsius(20)};
    const auto water = [&part](const IceLoad& ice) {
        const auto r = chill({&part, 1}, ice);
        REQUIRE(r);
        return r->melted.grams() + r->surfaceWater.grams();
    };
    CHECK(water(weighed(200, -18)) < water(weighed(200, 0)));
    CHECK(water(weighed(200, 0, 0.05)) > water(weighed(200, 0)));
    IceLoad cold;
    cold.t = celsius(-10);
    CHECK(water(cold) < water(IceLoad{}));
}

TEST_CASE("Little ice melts wholly and leaves the drink above its freezing point", "[physics][ice]") {
    const LiquidPart part{drink(100, 25), celsius(20)};
    const auto result = chill({&part, 1}, weighed(10, -5));
    REQUIRE(result);
    CHECK(result->allMelted);
    CHECK(result->melted.grams() == Approx(10));
    CHECK(result->iceLeft.grams() == Approx(0).margin(1e-9));
    CHECK(result->t > freezingOnset(result->drink).value);
    CHECK(result->t.celsius() < 20);
}

TEST_CASE("A drink colder than its freezing point melts nothing", "[physics][ice]") {
    const LiquidPart part{drink(100, 20), celsius(-15)};
    const auto result = chill({&part, 1}, IceLoad{});
    REQUIRE(result);
    CHECK(result->melted.grams() == 0);
    CHECK(result->t.celsius() == Approx(-15).margin(1e-5));
    // Much very cold ice freezes some of the water of a nearly frozen drink.
    const LiquidPart nearly{drink(100, 5), celsius(-1)};
    const auto grown = chill({&nearly, 1}, weighed(500, -40));
    REQUIRE(grown);
    CHECK(grown->melted.grams() < 0);
    CHECK(grown->iceLeft.grams() > 500);
}

TEST_CASE("Balances that cannot be meant are refused", "[physics][ice]") {
    const LiquidPart part{drink(100, 20), celsius(20)};
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK_FALSE(chill({}, IceLoad{}));
    CHECK_FALSE(chill({&part, 1}, weighed(100, 1)));
    CHECK_FALSE(chill({&part, 1}, weighed(-1)));
    CHECK_FALSE(chill({&part, 1}, weighed(nan)));
    CHECK_FALSE(chill({&part, 1}, weighed(100, 0, 1.5)));
    CHECK_FALSE(chill({&part, 1}, weighed(100, nan)));
    const LiquidPart broken{drink(100, 20), celsius(nan)};
    CHECK_FALSE(chill({&broken, 1}, IceLoad{}));
    CHECK_FALSE(mixedTemperature({}));
    const auto none = chill({&part, 1}, weighed(0));
    REQUIRE(none);
    CHECK(none->t.celsius() == Approx(20).margin(1e-5));
}

TEST_CASE("A hot build ends between its parts", "[physics][heat]") {
    Composition water;
    water[Substance::Water] = 145;
    const LiquidPart parts[] = {{drink(45, 43), celsius(20)}, {water, celsius(85)}};
    const HeatStore cold = vessel(Mass::fromGrams(280), Material::Porcelain, celsius(20));
    const HeatStore warm = vessel(Mass::fromGrams(280), Material::Porcelain, celsius(60));
    const auto alone = mixedTemperature(parts);
    const auto inCold = mixedTemperature(parts, {&cold, 1});
    const auto inWarm = mixedTemperature(parts, {&warm, 1});
    REQUIRE(alone);
    REQUIRE(inCold);
    REQUIRE(inWarm);
    CHECK(alone->value.celsius() > 65);
    CHECK(alone->value.celsius() < 85);
    CHECK(inCold->value < inWarm->value);
    CHECK(inWarm->value < alone->value);
    CHECK(alone->estimate); // heat capacity of spirit ends at 40 °C
}
