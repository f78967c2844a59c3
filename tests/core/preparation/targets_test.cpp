#include "core/preparation/targets.h"

#include "core/physics/facts_to_masses.h"
#include "core/physics/mixture.h"
#include "core/physics/titratable_acid.h"
#include "tests/support/catch.h"

#include <cmath>

using namespace stillroom;
using physics::Composition;
using physics::Substance;
using quantity::Mass;
using quantity::MassFraction;
using quantity::Strength;
using quantity::Volume;

namespace {

// A litre with so much citric and malic acid, sugar and alcohol.
Composition litre(double citric, double malic, double sugar = 0, double abv = 0) {
    physics::LiquidFacts facts;
    facts.strength = Strength::fromPercentVol(abv);
    facts.gramsPerLitre[Substance::Citric] = citric;
    facts.gramsPerLitre[Substance::Malic] = malic;
    facts.gramsPerLitre[Substance::Sucrose] = sugar;
    Composition c;
    c.addScaled(physics::massesPerMl(facts).value().perMl, 1000);
    return c;
}

double gramsOf(const std::vector<preparation::Dose>& doses, Substance acid) {
    for (const auto& [substance, mass] : doses)
        if (substance == acid) return mass.grams();
    return 0;
}

} // namespace

TEST_CASE("juices are brought to the acid of others as the trade counts and as it really is",
          "[preparation][targets]") {
    // Needs, 14, g per litre: the trade takes lime as 40 g citric and 20 g malic, lemon as 60 g citric,
    // orange as 8 g and pineapple as 8 g citric, grapefruit as 13 g citric and 7 g malic, and subtracts.
    struct Row {
        Composition from, to;
        double sugar, citric, malic;
    };
    const std::vector<Row> rows{{litre(8, 0, 88), litre(40, 20), 88, 32, 20},
                                {litre(13, 7, 95), litre(40, 20), 95, 27, 13},
                                {litre(8, 0, 106), litre(40, 20), 106, 32, 20},
                                {litre(8, 0, 88), litre(60, 0), 88, 52, 0}};
    for (const Row& row : rows) {
        const auto way = preparation::acidToMatch(row.from, row.to);
        REQUIRE(way);
        CHECK(gramsOf(way->byDifference, Substance::Citric) == Approx(row.citric).margin(0.5));
        CHECK(gramsOf(way->byDifference, Substance::Malic) == Approx(row.malic).margin(0.5));
        // What is added fills 0.6 ml per g and thins the juice: up to 3 % more of the finished acid is needed
        // than the difference says, 1 to 2.5 g a litre. That is the whole of what the figures differ by.
        const double more = gramsOf(way->add, Substance::Citric) + gramsOf(way->add, Substance::Malic) -
                            row.citric - row.malic;
        CHECK(more > 1);
        CHECK(more < 2.5);
        const double room = (way->finished.ml() - 1000) / 1000;
        CHECK(more ==
              Approx(room * (physics::titratableAcidAsCitric(row.to).grams() > 59 ? 60 : 59)).margin(0.15));
        Composition made = row.from;
        for (const auto& [acid, mass] : way->add)
            made[acid] += mass.grams();
        const double ml = physics::volumeAt20(made).ml();
        CHECK(made[Substance::Citric] / ml * 1000 == Approx(row.to[Substance::Citric]).margin(1e-6));
    }
    const auto back = preparation::acidToMatch(litre(40, 20), litre(8, 0));
    REQUIRE(back);
    CHECK(back->add.empty());
    CHECK(back->over.size() == 2);
    CHECK_FALSE(preparation::acidToMatch({}, litre(8, 0)));
}

TEST_CASE("a syrup is brought to a Brix with sugar or water or by boiling", "[preparation][targets]") {
    Composition syrup;
    syrup[Substance::Sucrose] = 500;
    syrup[Substance::Water] = 500;
    const auto up = preparation::toBrix(syrup, MassFraction::fromPercent(66.6667));
    REQUIRE(up);
    CHECK(up->addSugar->grams() == Approx(500).margin(0.01));
    CHECK(up->boilOff->grams() == Approx(250).margin(0.01));
    CHECK_FALSE(up->addWater);
    const auto down = preparation::toBrix(syrup, MassFraction::fromPercent(40));
    CHECK(down->addWater->grams() == Approx(250));
    CHECK_FALSE(down->addSugar);
    const auto there = preparation::toBrix(syrup, MassFraction::fromPercent(50));
    CHECK_FALSE(there->addSugar);
    CHECK_FALSE(there->addWater);
    CHECK_FALSE(preparation::toBrix(syrup, MassFraction::fromPercent(100)));
    CHECK_FALSE(preparation::toBrix({}, MassFraction::fromPercent(50)));
}

TEST_CASE("an infusion is brought to a strength either way", "[preparation][targets]") {
    // Needs, 6: 1.75 l at 50 % to 30 % takes 1,181 ml of water and makes 2,917 ml.
    Composition infusion;
    infusion.addScaled(litre(0, 0, 0, 50), 1.75);
    const auto down = preparation::toStrength(infusion, Strength::fromPercentVol(30), {});
    REQUIRE(down);
    CHECK(down->addWater->grams() / 0.9982 == Approx(1181).margin(1));
    CHECK(down->finished.ml() == Approx(2917).margin(1));
    const auto up =
        preparation::toStrength(litre(0, 0, 0, 30), Strength::fromPercentVol(40), litre(0, 0, 0, 96));
    REQUIRE(up);
    CHECK(up->addSpirit->ml() < 178.6); // 100/56 of a litre, were there no contraction
    Composition both = litre(0, 0, 0, 30);
    both.addScaled(litre(0, 0, 0, 96), up->addSpirit->ml() / 1000);
    CHECK(physics::strengthAt20(both)->percentVol() == Approx(40).margin(1e-6));
    CHECK(up->finished.ml() == Approx(physics::volumeAt20(both).ml()));
    CHECK_FALSE(preparation::toStrength(infusion, Strength::fromPercentVol(97), litre(0, 0, 0, 96)));
    CHECK_FALSE(preparation::toStrength(infusion, Strength::fromPercentVol(0), {}));
}

TEST_CASE("a cordial gets its sugar and its acid at once", "[preparation][targets]") {
    const Composition base = litre(10, 0, 80, 0);
    const auto way = preparation::toSugarAndAcid(base, 400, 25, Substance::Malic);
    REQUIRE(way);
    Composition made = base;
    made[Substance::Sucrose] += way->sugar.grams();
    made[Substance::Malic] += way->acid.grams();
    const double litres = physics::volumeAt20(made).ml() / 1000;
    CHECK(way->finished.ml() == Approx(1000 * litres));
    CHECK(made.sugarGrams() / litres == Approx(400).margin(1e-4));
    CHECK(physics::titratableAcidAsCitric(made).grams() / litres == Approx(25).margin(1e-4));
    CHECK_FALSE(preparation::toSugarAndAcid(base, 40, 25, Substance::Malic));
    // 10 g of acid in the litre are too much for 9 g/l, until 400 g/l of sugar have made it 1.25 litres.
    const auto thinned = preparation::toSugarAndAcid(base, 400, 9, Substance::Malic);
    REQUIRE(thinned);
    CHECK(thinned->acid.grams() > 0);
    CHECK(thinned->acid.grams() * 0.9552 == Approx(9 * thinned->finished.litres() - 10).margin(1e-3));
    CHECK_FALSE(preparation::toSugarAndAcid(base, 400, 7, Substance::Malic));
    CHECK_FALSE(preparation::toSugarAndAcid(base, 400, 25, Substance::Sucrose));
    CHECK_FALSE(preparation::toSugarAndAcid({}, 400, 25, Substance::Malic));
}

TEST_CASE("the smallest batch is what the scale still weighs to two in a hundred", "[preparation][targets]") {
    // Half of 0.1 g is 2 % of 2.5 g: 20 g a litre is then 125 ml, and ten times as much on a 1 g scale.
    CHECK(preparation::smallestBatch({32, 20}, Mass::fromGrams(0.1))->ml() == Approx(125));
    CHECK(preparation::smallestBatch({32, 20}, Mass::fromGrams(1))->ml() == Approx(1250));
    CHECK_FALSE(preparation::smallestBatch({32, 0}, Mass::fromGrams(1)));
    CHECK_FALSE(preparation::smallestBatch({}, Mass::fromGrams(1)));
    CHECK_FALSE(preparation::smallestBatch({32}, Mass::fromGrams(0)));
}

TEST_CASE("the widely copied stretched juice is half as sour again as the rule means",
          "[preparation][targets]") {
    // Needs, 15: 100 g peel, 66 g citric, 33 g malic, 1000 ml water, 165 ml juice at 6 %: 9.35 % by the rule
    // of the peel, 8.8 g/100 ml as citric in the finished volume.
    const auto made = preparation::stretchedAcid(
        {Mass::fromGrams(66), Mass::fromGrams(33), Volume::fromMl(1000), Volume::fromMl(165)});
    REQUIRE(made);
    CHECK(made->byPeelRulePercent == Approx(9.35).margin(0.005));
    CHECK(made->asCitricGPer100Ml == Approx(8.8).margin(0.05));
    // By the rule itself, 16.66 ml of water per g of acid, it is 6 %.
    const auto rule = preparation::stretchedAcid(
        {Mass::fromGrams(100), Mass::fromGrams(0), Volume::fromMl(1666), Volume::fromMl(0)});
    CHECK(rule->byPeelRulePercent == Approx(6).margin(0.01));
    CHECK_FALSE(preparation::stretchedAcid({}));
}
