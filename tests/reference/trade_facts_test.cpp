#include "core/physics/dilution.h"
#include "core/physics/facts_to_masses.h"
#include "core/physics/freezing.h"
#include "core/physics/mixture.h"
#include "core/physics/titratable_acid.h"
#include "core/quantity/house_measures.h"
#include "core/quantity/money.h"
#include "tests/support/catch.h"

// Figures that people of the trade quote, worked again: where theirs is rounded or leaves contraction out,
// the test says which is right and by how much.

using namespace stillroom;
using namespace stillroom::physics;
using quantity::Mass;
using quantity::Measure;
using quantity::Strength;
using quantity::Temperature;
using quantity::Volume;

namespace {

Composition liquid(double ml, double percentVol, double sugarGPerL = 0, double acidGPerL = 0) {
    LiquidFacts facts;
    facts.strength = Strength::fromPercentVol(percentVol);
    facts.gramsPerLitre[Substance::Sucrose] = sugarGPerL;
    facts.gramsPerLitre[Substance::Citric] = acidGPerL;
    const auto perMl = massesPerMl(facts);
    REQUIRE(perMl);
    Composition c;
    c.addScaled(perMl->perMl, ml);
    return c;
}

Composition grams(const Composition& of, double g) {
    Composition c;
    c.addScaled(of, g / of.totalGrams());
    return c;
}

Composition syrup(double sugarParts, double waterParts) {
    Composition c;
    c[Substance::Sucrose] = sugarParts;
    c[Substance::Water] = waterParts;
    return c;
}

double sugarInMl(const Composition& c, double ml) {
    return c.sugarGrams() * ml / volumeAt20(c).ml();
}

double percent(const Composition& c) {
    return strengthAt20(c)->percentVol();
}

} // namespace

TEST_CASE("Rich syrup is 1.44 times as sweet as plain and not twice", "[reference][trade]") {
    CHECK(sugarInMl(syrup(1, 1), 30) == Approx(18.4).margin(0.05));
    CHECK(sugarInMl(syrup(2, 1), 30) == Approx(26.5).margin(0.05));
    CHECK(sugarInMl(syrup(2, 1), 30) / sugarInMl(syrup(1, 1), 30) == Approx(1.44).margin(0.005));
}

TEST_CASE("A liqueur of spirit and syrup holds less than its parts and is stronger for it",
          "[reference][trade]") {
    const Composition spirit = grams(liquid(1000, 96), 500);
    Composition all = spirit;
    all += syrup(500, 500);
    CHECK(ethanolVolumeAt20(all).ml() == Approx(594).margin(0.5));
    // Adding volumes gives 1.432 l and 41.5 %; contraction leaves 1.398 l and 42.5 %.
    const double apart = volumeAt20(spirit).ml() + volumeAt20(syrup(500, 500)).ml();
    CHECK(apart == Approx(1432).margin(1));
    CHECK(100 * ethanolVolumeAt20(all).ml() / apart == Approx(41.5).margin(0.05));
    CHECK(volumeAt20(all).ml() == Approx(1398).margin(1));
    CHECK(percent(all) == Approx(42.5).margin(0.05));
}

TEST_CASE("Spirit brought to 30 percent takes more water than the volumes say", "[reference][trade]") {
    Composition c = liquid(1750, 50);
    const auto water = waterToReach(c, Strength::fromPercentVol(30));
    REQUIRE(water);
    CHECK(water->grams() / 0.9982 == Approx(1181).margin(0.6)); // not 2,917 - 1,750 = 1,167
    c[Substance::Water] += water->grams();
    CHECK(volumeAt20(c).ml() == Approx(2917).margin(0.5));
}

TEST_CASE("Twenty percent of the start is not twenty percent of the finish", "[reference][trade]") {
    const Composition before = liquid(90, 30);
    const auto after = [&before](double waterMl) {
        Composition c = before;
        c[Substance::Water] += waterMl * 0.9982;
        return percent(c);
    };
    // The trade is right here: from 30 % down, water and spirit mix almost without contraction.
    CHECK(after(18) == Approx(25.0).margin(0.01));
    CHECK(after(22.5) == Approx(24.0).margin(0.01));
    CHECK(shareOfFinished(0.25) == Approx(0.2));
}

TEST_CASE("A stirred drink of two to one ends near 22.5 percent", "[reference][trade]") {
    const double floz = *quantity::HouseMeasures::defaults().ml(Measure::FlozUs);
    Composition c = liquid(2 * floz, 40);
    c += liquid(floz, 16);
    c += liquid(2 * *quantity::HouseMeasures::defaults().ml(Measure::Dash), 44.7);
    CHECK(percent(c) == Approx(32).margin(0.5)); // 32.3 with the two dashes
    const auto ratio = dilutionRatio(IceMethod::Stirred, *strengthAt20(c));
    CHECK(ratio.value == Approx(0.42).margin(0.005));
    c[Substance::Water] += waterFromDilution(ratio.value, volumeAt20(c)).grams();
    CHECK(percent(c) == Approx(22.5).margin(0.4));
}

TEST_CASE("A fruit infusion loses strength to the water of the fruit", "[reference][trade]") {
    Composition c = liquid(750, 53);
    c += liquid(100, 0);
    // 46.8 by volumes, as the trade reckons; contraction leaves a little less volume: 47.0.
    CHECK(100 * 0.53 * 750 / 850 == Approx(46.8).margin(0.05));
    CHECK(percent(c) == Approx(46.95).margin(0.1));
}

TEST_CASE("Sixteen ounces on the scale are not sixteen fluid ounces of syrup", "[reference][trade]") {
    const double g = 16 * *quantity::HouseMeasures::defaults().grams(Measure::OzMass);
    const double ml = volumeAt20(grams(syrup(2, 1), g)).ml();
    CHECK(ml == Approx(341).margin(1)); // 341.9 at 1.3267 g/ml
    CHECK(1 - ml / (16 * 29.5735295625) == Approx(0.28).margin(0.005));
}

TEST_CASE("Pour cost is cost over price both ways", "[reference][trade]") {
    const auto usd = quantity::Currency::fromCode("USD");
    const auto cost = quantity::Money::fromText("2.20", *usd);
    CHECK(roundedToMoney(*costOf(*cost, 100, 20), *usd).text() == "11.00");
    CHECK(100 * 1.99 / 9.50 == Approx(20.9).margin(0.05));
}

TEST_CASE("Liquid at minus 18 C needs 33 to 34 percent", "[reference][trade]") {
    const auto needed = strengthToStayLiquid(liquid(100, 30), Temperature::fromCelsius(-18));
    REQUIRE(needed);
    CHECK(needed->percentVol() > 33);
    CHECK(needed->percentVol() < 34);
    // The often-quoted 20 to 25 % is slush.
    CHECK(atTemperature(liquid(100, 22), Temperature::fromCelsius(-18))->state == ColdState::Slush);
}

TEST_CASE("A copied peel syrup is half as sour again as the juice it replaces", "[reference][trade]") {
    // 66 g citric, 33 g malic, 1 l water, 165 ml juice of 6 g/100 ml. By the rule of thumb, acid over water
    // (peel weight to 16.66 times that of water makes 6 %) 9.35 %; in the finished volume 8.8 g/100 ml.
    Composition c = liquid(165, 0, 0, 60);
    c[Substance::Water] += 998.2;
    c[Substance::Citric] += 66;
    c[Substance::Malic] += 33;
    const double g = titratableAcidAsCitric(c).grams();
    CHECK(100 * (99 + 9.9) / 1165 == Approx(9.35).margin(0.005));
    CHECK(100 * g / volumeAt20(c).ml() == Approx(8.8).margin(0.05));
}
