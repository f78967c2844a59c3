#include "core/physics/dilution.h"
#include "core/physics/food_energy.h"
#include "core/physics/titratable_acid.h"
#include "tests/support/catch.h"

using namespace stillroom::physics;
using namespace stillroom::quantity;

TEST_CASE("Dilution outside the curve's range is its end value and marked", "[physics][dilution]") {
    const auto shaken = [](double percent) {
        return dilutionRatio(IceMethod::Shaken, Strength::fromPercentVol(percent));
    };
    CHECK_FALSE(shaken(15).estimate);
    CHECK_FALSE(shaken(45).estimate);
    CHECK(shaken(14.9).estimate);
    CHECK(shaken(45.1).estimate);
    CHECK(shaken(5).value == shaken(15).value);
    CHECK(shaken(60).value == shaken(45).value);
    CHECK_FALSE(dilutionRatio(IceMethod::Built, Strength::fromPercentVol(5)).estimate);
}

TEST_CASE("A dilution ratio is water over the volume before it", "[physics][dilution]") {
    const Volume before = Volume::fromMl(90);
    CHECK(waterFromDilution(0.2, before).grams() == Approx(18 * 0.9982));
    CHECK(dilutionFromWater(Mass::fromGrams(18 * 0.9982), before) == Approx(0.2));
    CHECK(shareOfFinished(0.25) == Approx(0.2)); // 25 % of the start is 20 % of the finish
}

TEST_CASE("Each acid counts by its equivalents and other substances do not", "[physics][acid]") {
    Composition c;
    c[Substance::Citric] = 1;
    c[Substance::Malic] = 1.0469;
    c[Substance::Phosphoric] = 0.7651;
    c[Substance::Sucrose] = 50;
    c[Substance::CarbonDioxide] = 4;
    CHECK(titratableAcidAsCitric(c).grams() == Approx(3));
    CHECK(gramsPerGramCitric(Substance::Water) == 0);
}

TEST_CASE("Kilojoules and kilocalories are sums of their own", "[physics][energy]") {
    Composition c;
    c[Substance::Ethanol] = 10;
    c[Substance::Glucose] = 5;
    c[Substance::OtherCarbohydrate] = 5;
    c[Substance::Malic] = 2;
    c[Substance::Protein] = 3;
    c[Substance::Fat] = 4;
    c[Substance::Water] = 100;
    c[Substance::Phosphoric] = 1; // no food energy
    const FoodEnergy energy = foodEnergy(c);
    CHECK(energy.kj == Approx(290 + 170 + 26 + 51 + 148));
    CHECK(energy.kcal == Approx(70 + 40 + 6 + 12 + 36));
}
