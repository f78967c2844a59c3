#include "core/physics/ethanol_water.h"

#include "core/physics/hydrometer.h"
#include "core/physics/proof.h"
#include "tests/support/catch.h"

#include <limits>

using namespace stillroom::physics;
using namespace stillroom::quantity;

TEST_CASE("Strength and mass fraction go into each other exactly", "[physics][ethanol]") {
    double worst = 0;
    double last = -1;
    for (int i = 0; i <= 999'998; i += 7) {
        const double percent = i * 1e-4;
        const auto p = massFractionOf(Strength::fromPercentVol(percent));
        REQUIRE(p);
        const auto back = strengthOf(*p);
        REQUIRE(back);
        worst = std::max(worst, std::abs(back->percentVol() - percent));
        REQUIRE(p->fraction() > last);
        last = p->fraction();
    }
    CHECK(worst < 1e-9);
    CHECK(massFractionOf(Strength::fromPercentVol(100))->fraction() == 1);
    CHECK(strengthOf(MassFraction::fromFraction(1))->percentVol() == 100);
    CHECK(massFractionOf(Strength::fromPercentVol(0))->fraction() == 0);
}

TEST_CASE("The density at 20 C alone is the general one taken at 20 C", "[physics][ethanol]") {
    for (int i = 0; i <= 10'000; ++i) {
        const auto p = MassFraction::fromFraction(i * 1e-4);
        const auto general = ethanolWaterDensity(p, Temperature::fromCelsius(20));
        REQUIRE(general);
        CHECK(ethanolWaterDensityAt20(p).kgPerM3() == Approx(general->value.kgPerM3()).epsilon(1e-14));
    }
}

TEST_CASE("Density gives back the mass fraction at every temperature", "[physics][ethanol]") {
    for (double t = -20; t <= 40; t += 2.5) {
        double last = 1e9;
        for (int i = 1; i < 200; ++i) {
            const auto p = MassFraction::fromFraction(i / 200.0);
            const auto temperature = Temperature::fromCelsius(t);
            const double rho = ethanolWaterDensity(p, temperature)->value.kgPerM3();
            if (t >= 5) CHECK(rho < last); // colder, weak mixtures are ice
            last = rho;
            const auto back = massFractionFromDensity(Density::fromKgPerM3(rho), temperature);
            if (!back) continue;
            const double there = ethanolWaterDensity(back->value, temperature)->value.kgPerM3();
            CHECK(there == Approx(rho).epsilon(1e-12));
            if (t >= 5) {
                // 0.01 % vol is what the tables are held to; this is far finer.
                CHECK(strengthOf(back->value)->percentVol() ==
                      Approx(strengthOf(p)->percentVol()).margin(1e-8));
            }
        }
    }
}

TEST_CASE("Spirit figures outside their domain are refused", "[physics][ethanol]") {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    for (const double bad : {-1e-9, 1 + 1e-9, nan}) {
        CHECK_FALSE(strengthOf(MassFraction::fromFraction(bad)));
        CHECK_FALSE(massFractionOf(Strength::fromFraction(bad)));
        CHECK_FALSE(ethanolWaterDensity(MassFraction::fromFraction(bad), Temperature::fromCelsius(20)));
        CHECK_FALSE(usProofOf(MassFraction::fromFraction(bad)));
        CHECK_FALSE(ukProofOf(Strength::fromFraction(bad)));
    }
    for (const double bad : {-60.1, 110.1, nan})
        CHECK_FALSE(ethanolWaterDensity(MassFraction::fromFraction(0.4), Temperature::fromCelsius(bad)));
    CHECK_FALSE(massFractionOf(UsProof::fromDegrees(-1)));
    CHECK_FALSE(massFractionOf(UsProof::fromDegrees(201)));
    CHECK_FALSE(massFractionFromDensity(Density::fromKgPerM3(1100), Temperature::fromCelsius(20)));
    CHECK_FALSE(massFractionFromDensity(Density::fromKgPerM3(700), Temperature::fromCelsius(20)));
}

TEST_CASE("Proofs go there and back", "[physics][ethanol]") {
    for (int percent = 0; percent <= 99; ++percent) {
        const auto strength = Strength::fromPercentVol(percent);
        CHECK(strengthOf(*usProofOf(strength))->percentVol() == Approx(percent).margin(1e-9));
        CHECK(strengthOf(*ukProofOf(strength))->percentVol() == Approx(percent).margin(1e-9));
    }
    // From memory: British proof spirit is 57.1 % vol, so that 40 % vol is "70 proof".
    CHECK(strengthOf(UkProof::fromDegrees(100))->percentVol() == Approx(57.1).margin(0.1));
    CHECK(ukProofOf(Strength::fromPercentVol(40))->degrees() == Approx(70).margin(0.1));
}

TEST_CASE("A hydrometer at its own temperature tells the truth", "[physics][hydrometer]") {
    for (int percent = 5; percent <= 95; percent += 5) {
        const auto read = trueStrength(Strength::fromPercentVol(percent), Temperature::fromCelsius(20));
        REQUIRE(read);
        CHECK(read->value.percentVol() == Approx(percent).margin(1e-8));
        const auto warm = trueStrength(Strength::fromPercentVol(percent), Temperature::fromCelsius(25));
        REQUIRE(warm);
        CHECK(warm->value.percentVol() < percent); // warm spirit floats it deeper: it shows too much
        CHECK_FALSE(warm->estimate);
    }
    CHECK(trueStrength(Strength::fromPercentVol(40), Temperature::fromCelsius(45))->estimate);
    CHECK_FALSE(trueStrength(Strength::fromPercentVol(0), Temperature::fromCelsius(25)));
    CHECK_FALSE(trueStrength(Strength::fromPercentVol(101), Temperature::fromCelsius(20)));
    const auto rho = Density::fromKgPerM3(934.2);
    CHECK(densityFromAir(apparentDensityInAir(rho)).kgPerM3() == Approx(934.2).epsilon(1e-14));
}
