#include "core/physics/mixture.h"

#include "core/physics/ethanol_water.h"
#include "core/physics/sucrose_water.h"
#include "tests/support/catch.h"

#include <limits>
#include <random>

using namespace stillroom::physics;
using namespace stillroom::quantity;

namespace {

Composition of(std::initializer_list<std::pair<Substance, double>> parts) {
    Composition c;
    for (const auto& [substance, grams] : parts)
        c[substance] = grams;
    return c;
}

Composition anything(std::mt19937_64& random) {
    std::uniform_real_distribution<double> grams(0, 100);
    Composition c = of({{Substance::Ethanol, grams(random)}, {Substance::Water, grams(random) + 1}});
    for (std::size_t i = 2; i < kSubstanceCount; ++i)
        c.grams[i] = random() % 3 == 0 ? grams(random) / 10 : 0;
    return c;
}

} // namespace

TEST_CASE("A mixture without sugar has exactly the volume of R 22", "[physics][mixture]") {
    for (double p = 0; p <= 1; p += 0.05) {
        const Composition c = of({{Substance::Ethanol, 100 * p}, {Substance::Water, 100 * (1 - p)}});
        const auto share = MassFraction::fromFraction(p);
        CHECK(densityAt20(c)->kgPerM3() == Approx(ethanolWaterDensityAt20(share).kgPerM3()).epsilon(1e-13));
        for (const double t : {-20.0, -5.0, 0.0, 20.0, 40.0}) {
            const auto volume = volumeAt(c, Temperature::fromCelsius(t));
            REQUIRE(volume);
            const auto rho = ethanolWaterDensity(share, Temperature::fromCelsius(t));
            CHECK((Mass::fromGrams(100) / volume->value).kgPerM3() ==
                  Approx(rho->value.kgPerM3()).epsilon(1e-13));
        }
    }
}

TEST_CASE("A mixture without ethanol has the volume of SPS-4", "[physics][mixture]") {
    for (double w = 0; w <= 0.85; w += 0.05) {
        const Composition c = of({{Substance::Sucrose, 100 * w}, {Substance::Water, 100 * (1 - w)}});
        // 0.0027 kg/m3 is how far the water of the two formulas lies apart at 20 °C.
        CHECK(densityAt20(c)->kgPerM3() ==
              Approx(sucroseWaterDensityAt20(MassFraction::fromFraction(w)).kgPerM3()).margin(0.005));
    }
}

TEST_CASE("The volume at 20 C is the volume at any temperature taken at 20 C", "[physics][mixture]") {
    std::mt19937_64 random(3);
    for (int i = 0; i < 500; ++i) {
        const Composition c = anything(random);
        const auto general = volumeAt(c, Temperature::fromCelsius(20));
        REQUIRE(general);
        CHECK_FALSE(general->estimate);
        CHECK(volumeAt20(c).ml() == Approx(general->value.ml()).epsilon(1e-12));
    }
}

TEST_CASE("Mixing keeps the mass of every substance and does not care for the order", "[physics][mixture]") {
    std::mt19937_64 random(11);
    for (int i = 0; i < 500; ++i) {
        const Composition a = anything(random);
        const Composition b = anything(random);
        const Composition c = anything(random);
        Composition left = a;
        left += b;
        left += c;
        Composition right = c;
        right += b;
        right += a;
        CHECK(left.totalGrams() == Approx(a.totalGrams() + b.totalGrams() + c.totalGrams()).epsilon(1e-12));
        CHECK(volumeAt20(left).ml() == Approx(volumeAt20(right).ml()).epsilon(1e-12));
        CHECK(strengthAt20(left)->fraction() == Approx(strengthAt20(right)->fraction()).epsilon(1e-12));
        CHECK(
            ethanolVolumeAt20(left).ml() ==
            Approx((ethanolVolumeAt20(a) + ethanolVolumeAt20(b) + ethanolVolumeAt20(c)).ml()).epsilon(1e-12));
    }
}

TEST_CASE("A multiple of a mixture has a multiple of its volume", "[physics][mixture]") {
    std::mt19937_64 random(12);
    for (int i = 0; i < 200; ++i) {
        const Composition c = anything(random);
        Composition tenfold;
        tenfold.addScaled(c, 10);
        CHECK(volumeAt20(tenfold).ml() == Approx(10 * volumeAt20(c).ml()).epsilon(1e-12));
    }
}

TEST_CASE("More of anything makes more volume and more water makes a weaker drink", "[physics][mixture]") {
    std::mt19937_64 random(13);
    for (int i = 0; i < 500; ++i) {
        Composition c = anything(random);
        const double before = volumeAt20(c).ml();
        const double strength = strengthAt20(c)->fraction();
        Composition wetter = c;
        wetter[Substance::Water] += 1;
        CHECK(volumeAt20(wetter).ml() > before);
        CHECK(strengthAt20(wetter)->fraction() < strength);
        c.grams[static_cast<std::size_t>(random() % kSubstanceCount)] += 1;
        CHECK(volumeAt20(c).ml() > before);
    }
}

TEST_CASE("Nothing has no volume and no strength", "[physics][mixture]") {
    const Composition nothing;
    CHECK(volumeAt20(nothing).ml() == 0);
    CHECK_FALSE(strengthAt20(nothing));
    CHECK_FALSE(densityAt20(nothing));
    CHECK_FALSE(brix(nothing));
    CHECK(volumeAt20(of({{Substance::Sucrose, 4}})).ml() == Approx(4 * 0.638).epsilon(0.01)); // a dry cube
    CHECK(volumeAt20(of({{Substance::Ethanol, 78.924}})).ml() == Approx(100).epsilon(2e-6));
}

TEST_CASE("A volume outside the range of the formulas is marked or refused", "[physics][mixture]") {
    const Composition spirit = of({{Substance::Ethanol, 33}, {Substance::Water, 67}});
    const Composition water = of({{Substance::Water, 67}});
    const auto at = [](const Composition& c, double t) { return volumeAt(c, Temperature::fromCelsius(t)); };
    CHECK_FALSE(at(spirit, -20)->estimate);
    CHECK_FALSE(at(spirit, 40)->estimate);
    CHECK(at(spirit, -20.1)->estimate);
    const Composition wine = of({{Substance::Ethanol, 10}, {Substance::Water, 90}});
    CHECK_FALSE(at(wine, -4)->estimate);
    CHECK(at(wine, -6)->estimate); // partly ice
    CHECK(at(spirit, 40.1)->estimate);
    CHECK_FALSE(at(water, 85)->estimate);
    CHECK_FALSE(at(spirit, -61));
    CHECK_FALSE(at(spirit, 111));
    CHECK_FALSE(at(spirit, std::numeric_limits<double>::quiet_NaN()));
    // 150 ml of water measured at 85 °C is 145.29 g: water itself is known to 100 °C.
    CHECK(at(of({{Substance::Water, 145.29}}), 85)->value.ml() == Approx(150).margin(0.02));
    // Warm liquids are larger, without a step where the formula ends.
    for (double t = -59; t < 109; t += 0.5)
        if (t > 0) CHECK(at(spirit, t + 0.5)->value.ml() > at(spirit, t)->value.ml());
    CHECK(at(spirit, 40.0001)->value.ml() == Approx(at(spirit, 40)->value.ml()).epsilon(1e-6));
    CHECK(at(spirit, -20.0001)->value.ml() == Approx(at(spirit, -20)->value.ml()).epsilon(1e-6));
}

TEST_CASE("Water added to reach a strength reaches it", "[physics][mixture]") {
    // 1.75 l at 50 % vol to 30 % vol: 2,917 ml, and 1,181 ml of water rather than 1,167.
    const auto p = massFractionOf(Strength::fromPercentVol(50));
    const double mass = 1750 * ethanolWaterDensityAt20(*p).gPerMl();
    Composition spirit =
        of({{Substance::Ethanol, mass * p->fraction()}, {Substance::Water, mass * (1 - p->fraction())}});
    const auto water = waterToReach(spirit, Strength::fromPercentVol(30));
    REQUIRE(water);
    CHECK(water->grams() / 0.9982 == Approx(1181).margin(0.6));
    spirit[Substance::Water] += water->grams();
    CHECK(strengthAt20(spirit)->percentVol() == Approx(30).margin(1e-8));
    CHECK(volumeAt20(spirit).ml() == Approx(2917).margin(0.5));

    CHECK_FALSE(waterToReach(spirit, Strength::fromPercentVol(31)));
    CHECK_FALSE(waterToReach(spirit, Strength::fromPercentVol(0)));
    CHECK_FALSE(waterToReach(Composition{}, Strength::fromPercentVol(10)));
}
