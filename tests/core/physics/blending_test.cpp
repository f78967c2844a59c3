#include "core/physics/blending.h"

#include "core/physics/facts_to_masses.h"
#include "core/physics/mixture.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>
#include <limits>

using namespace stillroom::physics;
using namespace stillroom::quantity;

namespace {

Composition liquid(double percentVol, double sugarGPerL = 0) {
    LiquidFacts facts;
    facts.strength = Strength::fromPercentVol(percentVol);
    facts.gramsPerLitre[Substance::Sucrose] = sugarGPerL;
    const auto perMl = massesPerMl(facts);
    REQUIRE(perMl);
    return perMl->perMl;
}

} // namespace

// Worked apart from this code: 302.0 ml of 63 % and 399.35 ml of 40 % make 700 ml of 50 %.
TEST_CASE("Two spirits blend to a strength and a volume", "[physics][blending]") {
    const auto blend =
        blendToStrength(liquid(63), liquid(40), Strength::fromPercentVol(50), Volume::fromMl(700));
    REQUIRE(blend);
    CHECK(blend->first.ml() == Approx(302.0).margin(0.02));
    CHECK(blend->second.ml() == Approx(399.35).margin(0.02));
    CHECK(volumeAt20(blend->mixture).ml() == Approx(700).epsilon(1e-12));
    CHECK(strengthAt20(blend->mixture)->percentVol() == Approx(50).margin(1e-9));
    // Any amounts of the two stand for the liquids.
    Composition cask;
    cask.addScaled(liquid(63), 20'000);
    const auto same = blendToStrength(cask, liquid(40), Strength::fromPercentVol(50), Volume::fromMl(700));
    CHECK(same->first.ml() == Approx(blend->first.ml()));
    CHECK_FALSE(blendToStrength(liquid(63), liquid(40), Strength::fromPercentVol(70), Volume::fromMl(700)));
    CHECK_FALSE(blendToStrength(liquid(63), liquid(40), Strength::fromPercentVol(30), Volume::fromMl(700)));
    CHECK_FALSE(blendToStrength(liquid(40), liquid(40), Strength::fromPercentVol(41), Volume::fromMl(700)));
    CHECK_FALSE(
        blendToStrength(Composition{}, liquid(40), Strength::fromPercentVol(20), Volume::fromMl(700)));
    CHECK_FALSE(blendToStrength(liquid(63), liquid(40), Strength::fromPercentVol(50), Volume::fromMl(0)));
}

TEST_CASE("Sugar and water bring a syrup to its Brix", "[physics][blending]") {
    Composition water;
    water[Substance::Water] = 500;
    const auto sugar = sugarToReach(water, MassFraction::fromPercent(50));
    REQUIRE(sugar);
    CHECK(sugar->grams() == Approx(500));
    Composition syrup = water;
    syrup[Substance::Sucrose] = 1000;
    const auto thin = waterToReachBrix(syrup, MassFraction::fromPercent(50));
    REQUIRE(thin);
    CHECK(thin->grams() == Approx(500));
    CHECK_FALSE(sugarToReach(syrup, MassFraction::fromPercent(50)));
    CHECK_FALSE(waterToReachBrix(syrup, MassFraction::fromPercent(70)));
    CHECK_FALSE(sugarToReach(water, MassFraction::fromPercent(100)));
    CHECK_FALSE(sugarToReach(Composition{}, MassFraction::fromPercent(10)));
    CHECK_FALSE(waterToReachBrix(syrup, MassFraction::fromPercent(0)));
}

TEST_CASE("Strength and density tell the sugar of a liqueur", "[physics][blending]") {
    for (double percent = 0; percent <= 55; percent += 5) {
        for (double sugar = 10; sugar <= 400; sugar += 30) {
            LiquidFacts facts;
            facts.strength = Strength::fromPercentVol(percent);
            facts.gramsPerLitre[Substance::Sucrose] = sugar;
            const auto model = massesPerMl(facts);
            REQUIRE(model);
            const auto found = sugarGPerLFrom(facts.strength, model->modelDensity);
            REQUIRE(found);
            CHECK(*found == Approx(sugar).margin(1e-5));
        }
    }
    const auto forty = Strength::fromPercentVol(40);
    const double plain = massesPerMl({forty, {}, std::nullopt})->modelDensity.kgPerM3();
    CHECK(*sugarGPerLFrom(forty, Density::fromKgPerM3(plain + 1)) == Approx(2.6).margin(0.15));
    CHECK_FALSE(sugarGPerLFrom(forty, Density::fromKgPerM3(plain - 5)));
    CHECK_FALSE(sugarGPerLFrom(forty, Density::fromKgPerM3(1700)));
    CHECK_FALSE(sugarGPerLFrom(forty, Density::fromKgPerM3(std::numeric_limits<double>::quiet_NaN())));
    CHECK_FALSE(sugarGPerLFrom(Strength::fromPercentVol(101), Density::fromKgPerM3(1000)));
}

TEST_CASE("A blend at the strength of one of its liquids is that liquid", "[physics][blending]") {
    const auto all = Volume::fromMl(1000);
    int tried = 0;
    for (double a = 0; a <= 100; a += 2.5)
        for (double b = 0; b <= 100; b += 5) {
            if (a == b) continue;
            for (const double sugar : {0.0, 150.0, 300.0}) {
                if (sugar > 0 && a > 60) continue;
                const auto blend =
                    blendToStrength(liquid(a, sugar), liquid(b), Strength::fromPercentVol(a), all);
                INFO(a << " with " << sugar << " g/l and " << b);
                REQUIRE(blend);
                CHECK(blend->first.ml() == Approx(1000).margin(1e-6));
                CHECK(blend->second.ml() == Approx(0).margin(1e-6));
                REQUIRE(blendToStrength(liquid(b), liquid(a, sugar), Strength::fromPercentVol(a), all));
                ++tried;
            }
        }
    CHECK(tried > 1500);
}

TEST_CASE("A liquid at its own strength takes no water", "[physics][blending]") {
    for (double abv = 0.1; abv <= 100.05; abv += 0.1)
        for (const double sugar : {0.0, 100.0, 300.0}) {
            if (sugar > 0 && abv > 60) continue;
            const double percent = std::min(abv, 100.0);
            const auto water = waterToReach(liquid(percent, sugar), Strength::fromPercentVol(percent));
            INFO(percent << " " << sugar);
            REQUIRE(water);
            CHECK(water->grams() == Approx(0).margin(1e-9));
            CHECK_FALSE(waterToReach(liquid(percent, sugar), Strength::fromPercentVol(percent + 0.01)));
        }
}

TEST_CASE("A syrup at its own Brix takes neither sugar nor water", "[physics][blending]") {
    for (double percent = 0.1; percent < 85; percent += 0.1) {
        Composition syrup;
        syrup[Substance::Sucrose] = 800 * percent / 100;
        syrup[Substance::Water] = 800 - syrup[Substance::Sucrose];
        const auto sugar = sugarToReach(syrup, MassFraction::fromPercent(percent));
        REQUIRE(sugar);
        CHECK(sugar->grams() == Approx(0).margin(1e-8));
        const auto water = waterToReachBrix(syrup, MassFraction::fromPercent(percent));
        REQUIRE(water);
        CHECK(water->grams() == Approx(0).margin(1e-8));
    }
}

TEST_CASE("An unsweetened spirit is known by its density as written", "[physics][blending]") {
    for (double abv = 0; abv < 100; abv += 1.7) {
        const auto strength = Strength::fromPercentVol(abv);
        const double exact = massesPerMl({strength, {}, std::nullopt})->modelDensity.kgPerM3();
        const auto sugar = sugarGPerLFrom(strength, Density::fromKgPerM3(std::round(exact * 100) / 100));
        INFO(abv);
        REQUIRE(sugar);
        CHECK(*sugar == Approx(0).margin(0.03));
    }
    // As much as fits beside the alcohol, and no more.
    LiquidFacts facts;
    facts.strength = Strength::fromPercentVol(40);
    facts.gramsPerLitre[Substance::Sucrose] = mostSugarGPerL(facts.strength);
    CHECK(massesPerMl(facts));
    facts.gramsPerLitre[Substance::Sucrose] += 0.001;
    CHECK_FALSE(massesPerMl(facts));
}
