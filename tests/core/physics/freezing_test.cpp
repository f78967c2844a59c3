#include "core/physics/freezing.h"

#include "core/physics/facts_to_masses.h"
#include "core/physics/mixture.h"
#include "core/physics/pchip.h"
#include "tests/support/catch.h"

#include <limits>
#include <random>

using namespace stillroom::physics;
using namespace stillroom::quantity;

namespace {

Composition drink(double percentVol, double sugarGPerL = 0, double acidGPerL = 0) {
    LiquidFacts facts;
    facts.strength = Strength::fromPercentVol(percentVol);
    facts.gramsPerLitre[Substance::Sucrose] = sugarGPerL;
    facts.gramsPerLitre[Substance::Citric] = acidGPerL;
    const auto perMl = massesPerMl(facts);
    REQUIRE(perMl);
    Composition c;
    c.addScaled(perMl->perMl, 1000);
    return c;
}

Temperature celsius(double t) {
    return Temperature::fromCelsius(t);
}

} // namespace

TEST_CASE("A shape-preserving curve meets its points and stays between them", "[physics][freezing]") {
    constexpr Pchip<5> curve({{{0, 0}, {1, 1}, {2, 1}, {4, 5}, {5, 4}}});
    CHECK(curve(0) == 0);
    CHECK(curve(1) == 1);
    CHECK(curve(4) == 5);
    CHECK(curve(-3) == 0);
    CHECK(curve(9) == 4);
    for (double x = 1; x <= 2; x += 0.05)
        CHECK(curve(x) == Approx(1));
    for (double x = 2; x < 3.99; x += 0.05) {
        CHECK(curve(x) <= 5);
        CHECK(curve(x) >= 1);
        CHECK(curve(x + 0.01) >= curve(x));
    }
    // A straight line stays one.
    constexpr Pchip<4> line({{{0, 1}, {1, 3}, {3, 7}, {4, 9}}});
    for (double x = 0; x <= 4; x += 0.1)
        CHECK(line(x) == Approx(1 + 2 * x).epsilon(1e-12));
}

TEST_CASE("Ice and water are in balance at the temperature asked for", "[physics][freezing]") {
    for (double t = -60; t <= 0; t += 0.5)
        CHECK(iceEquilibrium(lnWaterActivityOverIce(celsius(t))).celsius() == Approx(t).margin(1e-6));
    CHECK(lnWaterActivityOverIce(celsius(5)) == 0);
    CHECK(iceEquilibrium(0.1).celsius() == Approx(0).margin(1e-9));
}

TEST_CASE("More of a solute freezes later and more water sooner", "[physics][freezing]") {
    std::mt19937_64 random(5);
    std::uniform_real_distribution<double> percent(1, 50);
    std::uniform_real_distribution<double> sugar(0, 250);
    for (int i = 0; i < 500; ++i) {
        const Composition c = drink(percent(random), sugar(random), 5);
        const double onset = freezingOnset(c).value.celsius();
        CHECK(onset < 0);
        for (const Substance s : {Substance::Ethanol, Substance::Sucrose, Substance::Glucose,
                                  Substance::Citric, Substance::Malic, Substance::Salt}) {
            Composition more = c;
            more[s] += 10;
            CHECK(freezingOnset(more).value.celsius() < onset);
        }
        Composition wetter = c;
        wetter[Substance::Water] += 10;
        CHECK(freezingOnset(wetter).value.celsius() > onset);
        Composition half;
        half.addScaled(c, 0.5);
        CHECK(freezingOnset(half).value.celsius() == Approx(onset).epsilon(1e-9));
        CHECK(freezing(c)->onset.celsius() == Approx(onset).epsilon(1e-12));
    }
}

TEST_CASE("A solute beyond its table is marked and goes on without a jump", "[physics][freezing]") {
    Composition c;
    c[Substance::Water] = 100;
    CHECK(freezing(c)->onset.celsius() == Approx(0).margin(1e-9));
    const std::pair<Substance, double> tables[] = {{Substance::Glucose, 30}, {Substance::Fructose, 20},
                                                   {Substance::Citric, 30},  {Substance::Lactic, 20},
                                                   {Substance::Salt, 20},    {Substance::Ethanol, 68}};
    for (const auto& [substance, last] : tables) {
        const auto at = [s = substance](double percent) {
            Composition m;
            m[s] = percent;
            m[Substance::Water] = 100 - percent;
            return *freezing(m);
        };
        CHECK_FALSE(at(last - 0.01).estimate);
        CHECK(at(last + 0.01).estimate);
        CHECK(at(last + 0.01).onset.celsius() == Approx(at(last - 0.01).onset.celsius()).margin(0.05));
        CHECK(at(last + 3).onset.celsius() <= at(last).onset.celsius());
    }
    // Syrup passes from the table to the equation at 42 g/100 g.
    Composition syrup;
    syrup[Substance::Sucrose] = 41.99;
    syrup[Substance::Water] = 58.01;
    const double below = freezing(syrup)->onset.celsius();
    syrup[Substance::Sucrose] = 42.01;
    syrup[Substance::Water] = 57.99;
    CHECK(freezing(syrup)->onset.celsius() == Approx(below).margin(0.06));
    CHECK(freezing(syrup)->estimate); // the CRC Handbook's sucrose ends at 42 g/100 g
    syrup[Substance::Sucrose] = 41.99;
    syrup[Substance::Water] = 58.01;
    CHECK_FALSE(freezing(syrup)->estimate);
    CHECK_FALSE(freezing(Composition{}));
}

TEST_CASE("In the freezer ice forms until the rest stays liquid", "[physics][freezing]") {
    for (double percent = 5; percent <= 50; percent += 5) {
        const Composition c = drink(percent, 40);
        for (double t = -30; t <= 5; t += 5) {
            const auto cold = atTemperature(c, celsius(t));
            REQUIRE(cold);
            CHECK(cold->liquid.totalGrams() + cold->ice.grams() == Approx(c.totalGrams()).epsilon(1e-12));
            CHECK((cold->state == ColdState::Liquid) == (cold->marginK >= 0));
            if (cold->ice.grams() > 0)
                CHECK(freezingOnset(cold->liquid).value.celsius() == Approx(t).margin(1e-5));
        }
    }
    CHECK(atTemperature(drink(5), celsius(-25))->state == ColdState::Solid);
    CHECK_FALSE(atTemperature(drink(5), celsius(-46)));
    CHECK_FALSE(atTemperature(drink(5), celsius(std::numeric_limits<double>::quiet_NaN())));
    CHECK_FALSE(atTemperature(Composition{}, celsius(-5)));
}

TEST_CASE("A batch of 22 percent at minus 18 C is a third ice and one of 36 percent liquid",
          "[physics][freezing]") {
    const auto weak = atTemperature(drink(22, 6), celsius(-18)); // 6 g/l sugar
    CHECK(weak->state == ColdState::Slush);
    CHECK(weak->iceShare == Approx(1.0 / 3).margin(0.03));
    CHECK(atTemperature(drink(36, 2), celsius(-18))->state == ColdState::Liquid);
    // The trade says 33 to 34 % vol.
    const auto needed = strengthToStayLiquid(drink(22), celsius(-18));
    REQUIRE(needed);
    CHECK(needed->percentVol() == Approx(33.5).margin(0.5));
    CHECK_FALSE(strengthToStayLiquid(drink(0, 100), celsius(-18)));
    CHECK_FALSE(strengthToStayLiquid(drink(20), celsius(1)));
}

TEST_CASE("The strength to stay liquid does not hang on how much water is in now", "[physics][freezing]") {
    for (const double sugar : {0.0, 4.0, 12.0}) {
        std::optional<double> before;
        for (const double water : {20.0, 40.0, 80.0, 107.0, 160.0}) {
            Composition c;
            c[Substance::Ethanol] = 22;
            c[Substance::Sucrose] = sugar;
            c[Substance::Water] = water;
            const auto needed = strengthToStayLiquid(c, celsius(-18));
            INFO(sugar << " g sugar, " << water << " g water");
            REQUIRE(needed);
            if (before) CHECK(needed->percentVol() == Approx(*before).margin(1e-6));
            before = needed->percentVol();
        }
    }
}
