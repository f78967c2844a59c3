#include "core/physics/blending.h"

#include "core/physics/facts_to_masses.h"
#include "core/physics/mixture.h"
#include "tests/support/catch.h"

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
