#include "core/physics/acid_ph.h"
#include "core/physics/carbonation.h"
#include "core/physics/refraction.h"
#include "core/physics/sucrose_water.h"
#include "core/physics/sweetness.h"
#include "core/physics/titratable_acid.h"
#include "core/physics/water_activity.h"
#include "tests/support/catch.h"

#include <limits>
#include <random>

// Every function answers over the whole of its stated domain and refuses outside it.

using namespace stillroom::physics;
using namespace stillroom::quantity;

namespace {

const double kNan = std::numeric_limits<double>::quiet_NaN();

Composition acidInWater(Substance acid, double grams) {
    Composition c;
    c[acid] = grams;
    c[Substance::Water] = 1000 - grams;
    return c;
}

} // namespace

TEST_CASE("More acid is sourer and alkali blunts it", "[physics][acid]") {
    for (const Substance acid :
         {Substance::Citric, Substance::Malic, Substance::Tartaric, Substance::Lactic, Substance::Acetic,
          Substance::Phosphoric, Substance::Ascorbic, Substance::Succinic}) {
        double last = 7.1;
        for (const double grams : {0.01, 0.1, 1.0, 10.0, 60.0}) {
            const auto ph = pH(acidInWater(acid, grams));
            REQUIRE(ph);
            CHECK(ph->value < last);
            last = ph->value;
            const auto blunted = pH(acidInWater(acid, grams), 0.01 * grams / 1000);
            REQUIRE(blunted);
            CHECK(blunted->value > ph->value);
            CHECK(blunted->estimate);
            CHECK(*alkaliForPh(acidInWater(acid, grams), blunted->value) ==
                  Approx(0.01 * grams / 1000).epsilon(1e-4));
        }
    }
    CHECK(pH(acidInWater(Substance::Citric, 0))->value == Approx(7).margin(1e-3));
    CHECK_FALSE(pH(acidInWater(Substance::Citric, 10))->estimate);
    CHECK(pH(acidInWater(Substance::Citric, 60))->estimate);
    Composition sour = acidInWater(Substance::Citric, 10);
    sour[Substance::Sucrose] = 100;
    CHECK(pH(sour)->estimate);
    CHECK_FALSE(pH(Composition{}));
    CHECK_FALSE(pH(acidInWater(Substance::Citric, 10), -0.1));
    CHECK_FALSE(pH(acidInWater(Substance::Citric, 10), kNan));
    CHECK_FALSE(pH(acidInWater(Substance::Citric, 10), 5));            // lye, not juice
    CHECK_FALSE(alkaliForPh(acidInWater(Substance::Citric, 10), 1.5)); // sourer than the acid alone
    CHECK_FALSE(alkaliForPh(acidInWater(Substance::Citric, 10), 9));
}

TEST_CASE("Fizz falls with warmth and rises with pressure", "[physics][fizz]") {
    for (double t = 0; t < 40; t += 2) {
        for (double bar = 0; bar <= 10; bar += 1) {
            const auto here = dissolvedAt(GaugePressure::fromBar(bar), Temperature::fromCelsius(t));
            const auto warmer = dissolvedAt(GaugePressure::fromBar(bar), Temperature::fromCelsius(t + 1));
            REQUIRE(here);
            REQUIRE(warmer);
            CHECK(warmer->value < here->value);
            const auto pressure = pressureFor(here->value, Temperature::fromCelsius(t));
            if (bar > 0 && bar < 10) CHECK(pressure->value.bar() == Approx(bar).margin(1e-9));
        }
    }
    const auto cold = Temperature::fromCelsius(4);
    CHECK(dissolvedAt(GaugePressure::fromBar(2), cold, Strength::fromPercentVol(15))->estimate);
    CHECK_FALSE(dissolvedAt(GaugePressure::fromBar(2), cold, Strength::fromPercentVol(31)));
    CHECK_FALSE(dissolvedAt(GaugePressure::fromBar(-0.1), cold));
    CHECK_FALSE(dissolvedAt(GaugePressure::fromBar(11), cold));
    CHECK_FALSE(dissolvedAt(GaugePressure::fromBar(kNan), cold));
    CHECK_FALSE(dissolvedAt(GaugePressure::fromBar(1), Temperature::fromCelsius(-1)));
    CHECK_FALSE(pressureFor(Fizz::fromVolumes(0.5), cold)); // less than the open air leaves under pure gas
    CHECK_FALSE(pressureFor(Fizz::fromVolumes(100), cold));
    CHECK(GaugePressure::fromPsi(30).bar() == Approx(2.0684).margin(1e-4));
    CHECK_FALSE(fizzAtMost(Composition{}));
    Composition soda = acidInWater(Substance::CarbonDioxide, 6);
    CHECK(fizzAtMost(soda)->gPerL() == Approx(6).margin(0.05));
    soda[Substance::Water] += 1000; // topped onto as much again
    CHECK(fizzAtMost(soda)->gPerL() == Approx(3).margin(0.05));
}

TEST_CASE("Syrup scales refuse what they do not know", "[physics][sucrose]") {
    CHECK_FALSE(brixFromRefractiveIndex(1.30));
    CHECK_FALSE(brixFromRefractiveIndex(1.60));
    CHECK_FALSE(brixFromRefractiveIndex(kNan));
    CHECK(brixFromRefractiveIndex(1.33299)->percent() == Approx(0).margin(0.05));
    CHECK_FALSE(refractiveIndex(MassFraction::fromPercent(-1)));
    CHECK_FALSE(refractiveIndex(MassFraction::fromPercent(86)));
    double last = 0;
    for (double percent = 0; percent <= 85; percent += 1) {
        const auto n = refractiveIndex(MassFraction::fromPercent(percent));
        REQUIRE(n);
        CHECK(*n > last);
        last = *n;
    }
    CHECK_FALSE(baume(Density::fromKgPerM3(950)));
    CHECK_FALSE(densityFromBaume(145));
    CHECK_FALSE(densityFromBaume(-1));
    CHECK_FALSE(densityFromBaume(kNan));
    CHECK_FALSE(sucroseSolubility(Temperature::fromCelsius(-1)));
    CHECK_FALSE(sucroseSolubility(Temperature::fromCelsius(101)));
    CHECK_FALSE(sucroseSolubility(Temperature::fromCelsius(kNan)));
    const auto room = Temperature::fromCelsius(20);
    for (double w = 0; w <= 0.85; w += 0.01) {
        const auto rho = sucroseWaterDensity(MassFraction::fromFraction(w), room);
        REQUIRE(rho);
        CHECK_FALSE(rho->estimate);
        CHECK(brixFromDensity(rho->value, room)->value.fraction() == Approx(w).margin(1e-9));
    }
    CHECK(sucroseWaterDensity(MassFraction::fromFraction(0.9), room)->estimate);
    CHECK(sucroseWaterDensity(MassFraction::fromFraction(0.5), Temperature::fromCelsius(-5))->estimate);
    CHECK_FALSE(sucroseWaterDensity(MassFraction::fromFraction(1.1), room));
    CHECK_FALSE(sucroseWaterDensity(MassFraction::fromFraction(0.5), Temperature::fromCelsius(120)));
    CHECK_FALSE(brixFromDensity(Density::fromKgPerM3(900), room));
    CHECK_FALSE(brixFromDensity(Density::fromKgPerM3(kNan), room));
}

TEST_CASE("The sugar volume has no step where its range ends", "[physics][sucrose]") {
    const Mass water = Mass::fromGrams(15);
    const auto at = [water](double grams) { return sugarVolumeAt20(Mass::fromGrams(grams), water).ml(); };
    CHECK(at(85.001) == Approx(at(84.999)).epsilon(1e-4));
    CHECK(sugarVolumeAt20(Mass::fromGrams(5), Mass()).ml() > 0);
    CHECK(sugarVolumeAt20(Mass(), water).ml() == 0);
    const auto cold = [water](double t) {
        return sugarVolume(Mass::fromGrams(10), water, Temperature::fromCelsius(t)).ml();
    };
    CHECK(cold(-15) == cold(0));
    CHECK(cold(0.001) == Approx(cold(0)).epsilon(1e-5));
}

TEST_CASE("Water activity lies between none and all", "[physics][activity]") {
    std::mt19937_64 random(8);
    std::uniform_real_distribution<double> grams(0, 60);
    for (int i = 0; i < 500; ++i) {
        Composition c;
        c[Substance::Water] = 20 + grams(random);
        c[Substance::Sucrose] = grams(random);
        c[Substance::Glucose] = grams(random);
        c[Substance::Ethanol] = grams(random) / 2;
        c[Substance::Citric] = grams(random) / 10;
        const auto aw = waterActivity(c, Temperature::fromCelsius(25));
        REQUIRE(aw);
        CHECK(aw->value > 0);
        CHECK(aw->value < 1);
    }
    CHECK_FALSE(waterActivity(Composition{}, Temperature::fromCelsius(25)));
    Composition water;
    water[Substance::Water] = 1;
    CHECK(waterActivity(water, Temperature::fromCelsius(25))->value == Approx(1).margin(1e-9));
    CHECK_FALSE(waterActivity(water, Temperature::fromCelsius(41)));
    CHECK_FALSE(waterActivity(water, Temperature::fromCelsius(kNan)));
}

TEST_CASE("Sucrose equivalents keep their order and count sugars only", "[physics][sweetness]") {
    Composition honey;
    honey[Substance::Glucose] = 36;
    honey[Substance::Fructose] = 41;
    honey[Substance::Water] = 17;
    const SucroseEquivalent e = sucroseEquivalent(honey);
    CHECK(e.low < e.typical);
    CHECK(e.typical < e.high);
    CHECK(e.typical.grams() == Approx(36 * 0.74 + 41 * 1.25));
    CHECK(relativeSweetness(Substance::Fat).typical == 0);
    for (const Substance sugar : {Substance::Sucrose, Substance::Glucose, Substance::Fructose,
                                  Substance::Lactose, Substance::OtherSugar})
        CHECK_FALSE(relativeSweetness(sugar).source.empty());
}
