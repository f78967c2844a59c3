#include "core/physics/ethanol_water.h"
#include "core/physics/mixture.h"
#include "core/physics/proof.h"
#include "core/spec/prepared_facts.h"
#include "tests/support/catch.h"

#include <cmath>
#include <random>

// How exact the conversions are among themselves, by dense sweeps, and the laws that mixing must keep.

using namespace stillroom::physics;
using namespace stillroom::quantity;
namespace spec = stillroom::spec;

namespace {

Composition mixture(std::mt19937_64& random) {
    std::uniform_real_distribution<double> grams(0, 100);
    Composition c;
    for (std::size_t i = 0; i < kSubstanceCount; ++i)
        if (i < 3 || random() % 2 == 0) c.grams[i] = grams(random);
    return c;
}

double relative(double a, double b) {
    return a == b ? 0 : std::abs(a - b) / std::max(std::abs(a), std::abs(b));
}

} // namespace

TEST_CASE("Strength to mass fraction and back is exact to 1e-9 percent over the whole scale",
          "[physics][ethanol][exact]") {
    constexpr int kSteps = 200'000;
    constexpr double kMost = 99.9998; // the formula itself stops at 99.99989 % vol
    double worst = 0;
    double last = -1;
    for (int i = 0; i <= kSteps; ++i) {
        const double percent = kMost * i / kSteps;
        const auto p = massFractionOf(Strength::fromPercentVol(percent));
        REQUIRE(p);
        const auto back = strengthOf(*p);
        REQUIRE(back);
        worst = std::max(worst, std::abs(back->percentVol() - percent));
        if (!(p->fraction() > last)) FAIL_CHECK("does not rise at " << percent);
        last = p->fraction();
    }
    CHECK(worst <= 1e-9);
    CHECK(massFractionOf(Strength::fromPercentVol(100))->fraction() == 1);
    CHECK(strengthOf(MassFraction::fromFraction(1))->percentVol() == 100);
    CHECK(massFractionOf(Strength())->fraction() == 0);
}

TEST_CASE("Mass fraction to strength and back is exact to 1e-12", "[physics][ethanol][exact]") {
    constexpr int kSteps = 200'000;
    double worst = 0;
    double last = -1;
    for (int i = 0; i < kSteps; ++i) {
        const auto p = MassFraction::fromFraction(static_cast<double>(i) / kSteps);
        const auto strength = strengthOf(p);
        REQUIRE(strength);
        if (!(strength->fraction() > last)) FAIL_CHECK("does not rise at " << p.fraction());
        last = strength->fraction();
        worst = std::max(worst, std::abs(massFractionOf(*strength)->fraction() - p.fraction()));
    }
    CHECK(worst <= 1e-12);
}

// What an evaluation adds up (Totals, 20 °C formula) against the exact strength of its mass fraction.
TEST_CASE("The fast path of an evaluation stays within 1e-6 percent of the exact solver",
          "[physics][ethanol][exact]") {
    constexpr int kSteps = 200'000;
    double worst = 0;
    for (int i = 0; i <= kSteps; ++i) {
        const double percent = 99.9998 * i / kSteps;
        const double p = massFractionOf(Strength::fromPercentVol(percent))->fraction();
        Composition c;
        c[Substance::Ethanol] = 100 * p;
        c[Substance::Water] = 100 * (1 - p);
        const spec::Totals totals = spec::totalsOf(c);
        const double fast = 100 * totals.ethanolG * 1000 / kEthanolKgPerM3At20 / spec::volumeMl(totals);
        worst = std::max(worst, std::abs(fast - percent));
    }
    CHECK(worst <= 1e-6);
}

// Densities at any temperature of R 22 lead back to the strength: the path of hydrometers and densimeters.
// Only where the mixture is a liquid.
TEST_CASE("Density at any temperature leads back to strength within 1e-6 percent",
          "[physics][ethanol][exact]") {
    double worst = 0;
    std::size_t points = 0;
    for (double t = -20; t <= 40; t += 2.5)
        for (int i = 1; i < 1000; ++i) {
            const auto p = MassFraction::fromFraction(i / 1000.0);
            const auto at = Temperature::fromCelsius(t);
            const auto rho = ethanolWaterDensity(p, at);
            REQUIRE(rho);
            if (rho->estimate) continue; // partly ice
            const auto back = massFractionFromDensity(rho->value, at);
            REQUIRE(back);
            worst = std::max(worst,
                             std::abs(strengthOf(back->value)->percentVol() - strengthOf(p)->percentVol()));
            ++points;
        }
    CHECK(points > 20'000);
    CHECK(worst <= 1e-6);
}

TEST_CASE("Density falls with strength and with warmth wherever R 22 holds", "[physics][ethanol][exact]") {
    for (double t = -20; t <= 40; t += 1) {
        double last = 1e9;
        for (int i = 0; i <= 2000; ++i) {
            const auto rho =
                ethanolWaterDensity(MassFraction::fromFraction(i / 2000.0), Temperature::fromCelsius(t));
            REQUIRE(rho);
            if (rho->estimate) continue;
            if (!(rho->value.kgPerM3() < last))
                FAIL_CHECK("rises at " << i / 2000.0 << " and " << t << " °C");
            last = rho->value.kgPerM3();
        }
    }
    // Water is densest at 4 °C, weak spirits nearer their freezing point: from 15 % mass on there is no turn.
    for (int i = 30; i <= 200; ++i) {
        const auto p = MassFraction::fromFraction(i / 200.0);
        double last = 1e9;
        for (double t = -20; t <= 40; t += 0.5) {
            const auto rho = ethanolWaterDensity(p, Temperature::fromCelsius(t));
            if (rho->estimate) continue;
            if (!(rho->value.kgPerM3() < last))
                FAIL_CHECK("rises at " << p.fraction() << " and " << t << " °C");
            last = rho->value.kgPerM3();
        }
    }
}

TEST_CASE("Proof to strength and back is exact to 1e-9 degrees and rises", "[physics][ethanol][exact]") {
    double worst = 0;
    double last = -1;
    for (int i = 0; i <= 20'000; ++i) {
        const double degrees = 200.0 * i / 20'000;
        const auto p = massFractionOf(UsProof::fromDegrees(degrees));
        REQUIRE(p);
        if (!(p->fraction() > last)) FAIL_CHECK("does not rise at " << degrees);
        last = p->fraction();
        worst = std::max(worst, std::abs(usProofOf(*p)->degrees() - degrees));
    }
    CHECK(worst <= 1e-9);
}

TEST_CASE("Mixing conserves every mass and is associative to 1e-12 relative", "[physics][mixture][exact]") {
    std::mt19937_64 random(2026);
    double worst = 0;
    for (int i = 0; i < 20'000; ++i) {
        const Composition a = mixture(random);
        const Composition b = mixture(random);
        const Composition c = mixture(random);
        Composition left = a;
        left += b;
        left += c;
        Composition right = b;
        right += c;
        right += a;
        for (std::size_t s = 0; s < kSubstanceCount; ++s) {
            worst = std::max(worst, relative(left.grams[s], right.grams[s]));
            worst = std::max(worst, relative(left.grams[s], a.grams[s] + b.grams[s] + c.grams[s]));
        }
        worst = std::max(worst, relative(volumeAt20(left).ml(), volumeAt20(right).ml()));
        worst = std::max(worst, relative(strengthAt20(left)->fraction(), strengthAt20(right)->fraction()));
        worst = std::max(worst, relative(densityAt20(left)->kgPerM3(), densityAt20(right)->kgPerM3()));
        // And by the sums that an evaluation adds.
        spec::Totals sums = spec::totalsOf(a);
        sums.addScaled(spec::totalsOf(b), 1);
        sums.addScaled(spec::totalsOf(c), 1);
        worst = std::max(worst, relative(spec::volumeMl(sums), volumeAt20(left).ml()));
        worst = std::max(worst, relative(sums.massG, left.totalGrams()));
    }
    CHECK(worst <= 1e-12);
}
