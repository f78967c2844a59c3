#include "core/physics/held.h"

#include "core/physics/facts_to_masses.h"
#include "core/physics/freezing.h"
#include "core/physics/measured_dilution.h"
#include "core/physics/mixture.h"
#include "tests/support/catch.h"

#include <limits>

using namespace stillroom::physics;
using namespace stillroom::quantity;

namespace {

HeldStart start(double percentVol, double t, double iceG) {
    LiquidFacts facts;
    facts.strength = Strength::fromPercentVol(percentVol);
    facts.gramsPerLitre[Substance::Sucrose] = 80;
    HeldStart s;
    s.liquid.addScaled(massesPerMl(facts)->perMl, 150);
    s.t = Temperature::fromCelsius(t);
    s.ice = Mass::fromGrams(iceG);
    s.glass = vessel(Mass::fromGrams(200), Material::SodaLimeGlass, s.t);
    return s;
}

} // namespace

TEST_CASE("Without ice a drink warms towards the room and keeps its strength", "[physics][held]") {
    const auto curve = heldCurve(start(18, -5, 0));
    REQUIRE(curve.size() == 31);
    for (std::size_t i = 1; i < curve.size(); ++i) {
        CHECK(curve[i].t > curve[i - 1].t);
        CHECK(curve[i].t.celsius() < 20);
        CHECK(curve[i].strength == curve[0].strength);
        CHECK(curve[i].meltedSoFar.grams() == 0);
        CHECK(curve[i].estimate);
    }
    const auto hot = heldCurve(start(10, 65, 0));
    for (std::size_t i = 1; i < hot.size(); ++i)
        CHECK(hot[i].t < hot[i - 1].t);
    // Newton's law of cooling, the capacity nearly constant.
    const double capacity =
        heatCapacityJPerK(start(10, 65, 0).liquid, Temperature::fromCelsius(40)).value + 168;
    CHECK(hot.back().t.celsius() == Approx(20 + 45 * std::exp(-0.3 * 1800 / capacity)).margin(0.3));
}

TEST_CASE("With ice a drink stays cold and grows weaker", "[physics][held]") {
    const HeldStart s = start(25, -4, 100);
    const auto curve = heldCurve(s);
    for (std::size_t i = 1; i < curve.size(); ++i) {
        CHECK(curve[i].ice <= curve[i - 1].ice);
        CHECK(curve[i].strength <= curve[i - 1].strength);
        CHECK(curve[i].ice.grams() + curve[i].meltedSoFar.grams() == Approx(100));
    }
    CHECK(curve.back().meltedSoFar.grams() > 10);
    CHECK(curve.back().t.celsius() < 5);
    // What the room gave is what melted the ice and warmed the drink, step by step.
    double fromRoom = 0;
    double taken = 0;
    const auto fine = heldCurve(s, 30, 0.25);
    Composition liquid = s.liquid;
    for (std::size_t i = 1; i < fine.size(); ++i) {
        const double mean = 0.5 * (fine[i].t.celsius() + fine[i - 1].t.celsius());
        const double melt = fine[i].meltedSoFar.grams() - fine[i - 1].meltedSoFar.grams();
        const double onset = freezingOnset(liquid).value.celsius();
        const double capacity = heatCapacityJPerK(liquid, fine[i].t).value + s.glass.joulesPerK;
        fromRoom += s.transfer.roomWPerK * 15 * (20 - mean);
        taken += melt * (kFusionJPerG - kIceCpJPerGK * onset + kWaterCpJPerGK * mean) +
                 capacity * fine[i].t.minus(fine[i - 1].t);
        liquid[Substance::Water] += melt;
    }
    CHECK(taken == Approx(fromRoom).epsilon(0.01));
}

TEST_CASE("The curve hardly depends on how often it is read", "[physics][held]") {
    const auto coarse = heldCurve(start(25, 15, 120), 20, 5);
    const auto fine = heldCurve(start(25, 15, 120), 20, 0.25);
    CHECK(coarse.back().minutes == 20);
    CHECK(coarse.back().t.celsius() == Approx(fine.back().t.celsius()).margin(0.05));
    CHECK(coarse.back().meltedSoFar.grams() == Approx(fine.back().meltedSoFar.grams()).margin(0.2));
}

TEST_CASE("A measured temperature sets the room right", "[physics][held]") {
    HeldStart s = start(20, -3, 0);
    HeldStart truth = s;
    truth.transfer.roomWPerK = 0.55;
    const auto measured = heldCurve(truth, 10, 10).back().t;
    const auto found = calibratedToRoom(s, 10, measured);
    REQUIRE(found);
    CHECK(found->roomWPerK == Approx(0.55).epsilon(0.01));
    CHECK_FALSE(found->assumed);
    CHECK(HeatTransfer{}.assumed);
    CHECK_FALSE(calibratedToRoom(s, 10, Temperature::fromCelsius(-10)));
    CHECK_FALSE(calibratedToRoom(s, 0, measured));
}

TEST_CASE("A held drink that makes no sense has no curve", "[physics][held]") {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK(heldCurve(HeldStart{}).empty());
    CHECK(heldCurve(start(20, 0, -1)).empty());
    CHECK(heldCurve(start(20, nan, 10)).empty());
    CHECK(heldCurve(start(20, 0, nan)).empty());
    CHECK(heldCurve(start(20, 0, 10), 0.5).empty());
    CHECK(heldCurve(start(20, 0, 10), 30, 0).empty());
    HeldStart s = start(20, 0, 10);
    s.transfer.roomWPerK = 0;
    CHECK(heldCurve(s).empty());
}

TEST_CASE("Measurements at the bench give back the water that was added", "[physics][dilution]") {
    const Composition mixed = start(30, 20, 0).liquid;
    Composition after = mixed;
    after[Substance::Water] += 42;
    CHECK(waterFromWeight(mixed, Mass::fromGrams(after.totalGrams()))->grams() == Approx(42));
    CHECK(waterFromVolume(mixed, volumeAt20(after))->grams() == Approx(42).epsilon(1e-6));
    CHECK(waterFromStrength(mixed, *strengthAt20(after))->grams() == Approx(42).epsilon(1e-6));
    CHECK(waterFromTemperature(mixed, freezingOnset(after).value)->grams() == Approx(42).epsilon(1e-4));
    CHECK_FALSE(waterFromWeight(mixed, Mass::fromGrams(10)));
    CHECK_FALSE(waterFromVolume(mixed, Volume::fromMl(10)));
    CHECK_FALSE(waterFromStrength(mixed, Strength::fromPercentVol(50)));
    CHECK_FALSE(waterFromTemperature(mixed, Temperature::fromCelsius(-40)));
    CHECK_FALSE(waterFromTemperature(mixed, Temperature::fromCelsius(5)));
}

TEST_CASE("Measured dilutions calibrate a prediction with their number and spread", "[physics][dilution]") {
    CHECK(calibrated({}).measurements == 0);
    CHECK(calibrated({}).factor == 1);
    const PredictedAndMeasured pairs[] = {{0.50, 0.55}, {0.50, 0.50}, {0.40, 0.36}, {0, 0.5}, {0.5, 0}};
    const Calibration c = calibrated(pairs);
    CHECK(c.measurements == 3);
    CHECK(c.factor == Approx(1.0));
    CHECK(c.low == Approx(0.9));
    CHECK(c.high == Approx(1.1));
    CHECK(c.standardDeviation == Approx(0.1));
}
