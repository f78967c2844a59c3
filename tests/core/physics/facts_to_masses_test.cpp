#include "core/physics/facts_to_masses.h"

#include "core/physics/mixture.h"
#include "tests/support/catch.h"

#include <limits>

using namespace stillroom::physics;
using namespace stillroom::quantity;

namespace {

LiquidFacts facts(double percentVol, double sugarGPerL, double acidGPerL = 0) {
    LiquidFacts f;
    f.strength = Strength::fromPercentVol(percentVol);
    f.gramsPerLitre[Substance::Sucrose] = sugarGPerL;
    f.gramsPerLitre[Substance::Citric] = acidGPerL;
    return f;
}

} // namespace

TEST_CASE("A label turned into masses gives the label back", "[physics][facts]") {
    for (double percent = 0; percent <= 50; percent += 5) {
        for (double sugar = 0; sugar <= 500; sugar += 50) {
            const auto masses = massesPerMl(facts(percent, sugar, 5));
            REQUIRE(masses);
            CHECK(volumeAt20(masses->perMl).ml() == Approx(1).epsilon(1e-12));
            CHECK(strengthAt20(masses->perMl)->percentVol() == Approx(percent).margin(1e-9));
            CHECK(masses->perMl[Substance::Sucrose] == Approx(sugar / 1000));
            CHECK(densityAt20(masses->perMl)->kgPerM3() == Approx(masses->modelDensity.kgPerM3()));
            CHECK_FALSE(masses->contradiction);
        }
    }
    CHECK(massesPerMl(facts(100, 0))->perMl[Substance::Water] == 0);
}

TEST_CASE("A measured density is used and its contradiction told", "[physics][facts]") {
    LiquidFacts liqueur = facts(25, 250);
    const double model = massesPerMl(liqueur)->modelDensity.kgPerM3();

    liqueur.measuredDensity = Density::fromKgPerM3(model + 8);
    const auto heavier = massesPerMl(liqueur);
    REQUIRE(heavier);
    CHECK(heavier->contradiction->kgPerM3() == Approx(8).epsilon(1e-9));
    CHECK(heavier->perMl.totalGrams() * 1000 == Approx(model + 8).epsilon(1e-12));
    CHECK(volumeAt20(heavier->perMl).ml() == Approx(1).epsilon(1e-12)); // solids nobody stated
    CHECK(heavier->perMl[Substance::OtherSolids] > 0);
    CHECK(strengthAt20(heavier->perMl)->percentVol() == Approx(25).epsilon(1e-9));

    liqueur.measuredDensity = Density::fromKgPerM3(model - 8);
    const auto lighter = massesPerMl(liqueur);
    REQUIRE(lighter);
    CHECK(lighter->contradiction->kgPerM3() == Approx(-8).epsilon(1e-9));
    CHECK(lighter->perMl.totalGrams() * 1000 == Approx(model - 8).epsilon(1e-12));
    CHECK(volumeAt20(lighter->perMl).ml() == Approx(0.992).margin(0.002));

    liqueur.measuredDensity = Density::fromKgPerM3(model);
    CHECK(std::abs(massesPerMl(liqueur)->contradiction->kgPerM3()) < 1e-9);
}

TEST_CASE("Facts that cannot be true together are refused", "[physics][facts]") {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK_FALSE(massesPerMl(facts(60, 900)));
    CHECK_FALSE(massesPerMl(facts(0, 2000)));
    CHECK_FALSE(massesPerMl(facts(-1, 0)));
    CHECK_FALSE(massesPerMl(facts(101, 0)));
    CHECK_FALSE(massesPerMl(facts(nan, 0)));
    CHECK_FALSE(massesPerMl(facts(40, -1)));
    CHECK_FALSE(massesPerMl(facts(40, nan)));
    LiquidFacts doubled = facts(40, 0);
    doubled.gramsPerLitre[Substance::Water] = 10;
    CHECK_FALSE(massesPerMl(doubled));
    LiquidFacts light = facts(40, 300);
    light.measuredDensity = Density::fromKgPerM3(400);
    CHECK_FALSE(massesPerMl(light));
    light.measuredDensity = Density::fromKgPerM3(nan);
    CHECK_FALSE(massesPerMl(light));
    light.measuredDensity = Density::fromKgPerM3(5000);
    CHECK_FALSE(massesPerMl(light));
}
