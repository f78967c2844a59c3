#include "core/preparation/measured_facts.h"

#include "core/physics/facts_to_masses.h"
#include "core/physics/hydrometer.h"
#include "core/physics/mixture.h"
#include "core/physics/sucrose_water.h"
#include "tests/support/catch.h"

#include <cmath>

using namespace stillroom;
using physics::Composition;
using physics::Substance;
using quantity::Mass;
using quantity::MassFraction;
using quantity::Strength;
using quantity::Temperature;
using quantity::Volume;

namespace {

const std::string kDay = "2026-11-06";

Composition litre(double abv, double sugar) {
    physics::LiquidFacts facts;
    facts.strength = Strength::fromPercentVol(abv);
    facts.gramsPerLitre[Substance::Sucrose] = sugar;
    Composition c;
    c.addScaled(physics::massesPerMl(facts).value().perMl, 1000);
    return c;
}

// What a balance shows for 100 ml of it at this temperature.
preparation::WeighedLiqueur weighed(double abv, double sugar, double celsius) {
    const Composition c = litre(abv, sugar);
    const auto t = Temperature::fromCelsius(celsius);
    const auto rho = Mass::fromGrams(c.totalGrams()) / physics::volumeAt(c, t)->value;
    preparation::WeighedLiqueur m;
    m.volume = Volume::fromMl(100);
    m.net = m.volume * physics::apparentDensityInAir(rho);
    m.t = t;
    m.label = Strength::fromPercentVol(abv);
    return m;
}

} // namespace

TEST_CASE("what a refractometer shows is read back as the sugar that was in it", "[preparation][measured]") {
    CHECK(preparation::refractometerShows(litre(0, 0)).value() == Approx(0).margin(0.03));
    // CRC Handbook, 102nd ed., 20 °C: 20 g of ethanol in 100 g have nD 1.3469; of sucrose, 9 g have 1.3463
    // and 10 g 1.3478, so it shows 9.4 °Bx.
    Composition spirit;
    spirit[Substance::Ethanol] = 20;
    spirit[Substance::Water] = 80;
    CHECK(preparation::refractometerShows(spirit).value() == Approx(9.4).margin(0.1));
    for (const double abv : {0.0, 15.0, 28.0})
        for (const double sugar : {50.0, 150.0, 300.0}) {
            preparation::Refracted read;
            read.brix = preparation::refractometerShows(litre(abv, sugar)).value();
            read.label = Strength::fromPercentVol(abv);
            INFO(abv << " % vol, " << sugar << " g/l shows " << read.brix);
            CHECK(preparation::sugarFromRefractometer(read, kDay)->typical == Approx(sugar).margin(0.1));
        }
    CHECK_FALSE(preparation::refractometerShows({}));
    Composition neat;
    neat[Substance::Ethanol] = 90;
    neat[Substance::Water] = 10;
    CHECK_FALSE(preparation::refractometerShows(neat));
}

TEST_CASE("weighing a liqueur finds its sugar again", "[preparation][measured]") {
    for (const double celsius : {5.0, 20.0, 27.0})
        for (double abv = 15; abv <= 40; abv += 5)
            for (double sugar = 100; sugar <= 400; sugar += 50) {
                const auto fact = preparation::sugarFromWeighing(weighed(abv, sugar, celsius), kDay);
                INFO(abv << " % vol " << sugar << " g/l at " << celsius);
                REQUIRE(fact);
                CHECK(fact->typical == Approx(sugar).margin(2));
                CHECK(fact->low < sugar);
                CHECK(fact->high > sugar);
                CHECK(fact->sourceKind == larder::SourceKind::Measured);
                CHECK(fact->on == kDay);
            }
}

TEST_CASE("the band of a weighed sugar counts every error and the model's own", "[preparation][measured]") {
    auto m = weighed(25, 250, 20);
    m.volumeError = Volume::fromMl(0);
    m.scaleError = Mass::fromGrams(0);
    m.labelError = Strength::fromPercentVol(0);
    const auto model = preparation::sugarFromWeighing(m, kDay);
    // 1 kg/m³ is 2.6 to 2.9 g/l.
    CHECK(model->high - model->typical == Approx(2.75).margin(0.16));
    m.scaleError = Mass::fromGrams(0.5); // 5 kg/m³
    const auto scale = preparation::sugarFromWeighing(m, kDay);
    const double one = model->high - model->typical;
    CHECK(scale->high - scale->typical == Approx(one * std::sqrt(26.0)).epsilon(0.01));
    m.labelError = Strength::fromPercentVol(0.3);
    m.volumeError = Volume::fromMl(0.5);
    CHECK(preparation::sugarFromWeighing(m, kDay)->high > scale->high);
    CHECK(model->source.find("100 ml weighed") == 0);
    CHECK(model->source.find("25 % vol") != std::string::npos);
}

TEST_CASE("a weighing that cannot be gives no sugar and a dry spirit gives none", "[preparation][measured]") {
    const auto dry = preparation::sugarFromWeighing(weighed(40, 0, 20), kDay);
    REQUIRE(dry);
    CHECK(dry->typical == Approx(0).margin(0.01));
    CHECK(dry->low == 0);
    CHECK(dry->high > 2);
    auto light = weighed(40, 0, 20);
    light.net = Mass::fromGrams(60);
    CHECK_FALSE(preparation::sugarFromWeighing(light, kDay));
    auto heavy = weighed(20, 300, 20);
    heavy.net = Mass::fromGrams(300);
    CHECK_FALSE(preparation::sugarFromWeighing(heavy, kDay));
    auto none = weighed(20, 300, 20);
    none.volume = Volume::fromMl(0);
    CHECK_FALSE(preparation::sugarFromWeighing(none, kDay));
    none = weighed(20, 300, 20);
    none.net = Mass::fromGrams(std::nan(""));
    CHECK_FALSE(preparation::sugarFromWeighing(none, kDay));
}

TEST_CASE("a refractometer sees alcohol as sugar and is corrected", "[preparation][measured]") {
    // A syrup: no correction, and no error of the mixing.
    const auto syrup = preparation::sugarFromRefractometer({50, Strength()}, kDay);
    REQUIRE(syrup);
    CHECK(syrup->typical == Approx(614.8).margin(0.5));
    CHECK(syrup->high - syrup->typical < 4);
    // Ethanol in water, CRC Handbook: 20 g/100 g (24.6 % vol) bends to 1.3469, which reads as 9.4 Brix: no
    // sugar.
    const auto spirit = preparation::sugarFromRefractometer({9.4, Strength::fromPercentVol(24.6)}, kDay);
    REQUIRE(spirit);
    CHECK(spirit->typical == Approx(0).margin(3));
    CHECK(spirit->high > 5);
    const auto liqueur = preparation::sugarFromRefractometer({35, Strength::fromPercentVol(24.6)}, kDay);
    CHECK(liqueur->typical > 240);
    CHECK(liqueur->typical < 330);
    CHECK_FALSE(preparation::sugarFromRefractometer({2, Strength::fromPercentVol(40)}, kDay));
    CHECK_FALSE(preparation::sugarFromRefractometer({90, Strength()}, kDay));
}

TEST_CASE("a hydrometer in warm syrup reads low and is corrected", "[preparation][measured]") {
    const auto t = Temperature::fromCelsius(40);
    const auto at20 = preparation::brixFromHydrometer({50, Temperature::fromCelsius(20)}, kDay);
    REQUIRE(at20);
    CHECK(at20->brix.percent() == Approx(50).margin(1e-4));
    CHECK(at20->sugarGPerL.typical == Approx(614.8).margin(0.1));
    // The stem floats where density times its own volume is that of 20 °C.
    const double rho =
        physics::sucroseWaterDensity(MassFraction::fromPercent(50), t)->value.kgPerM3() * (1 + 25e-6 * 20);
    const double read =
        physics::brixFromDensity(quantity::Density::fromKgPerM3(rho), Temperature::fromCelsius(20))
            ->value.percent();
    CHECK(read < 49.2);
    CHECK(preparation::brixFromHydrometer({read, t}, kDay)->brix.percent() == Approx(50).margin(0.001));
    CHECK_FALSE(preparation::brixFromHydrometer({-1, t}, kDay));
}

TEST_CASE("titration and squeezing become facts with their inputs", "[preparation][measured]") {
    // 10 ml of a 6 g/100 ml juice hold 0.6 g of citric acid: 93.69 ml of 0.1 mol/l (64.041 g/mol).
    const auto acid = preparation::acidFromTitration({Volume::fromMl(10), Volume::fromMl(93.69)}, kDay);
    REQUIRE(acid);
    CHECK(acid->typical == Approx(60).margin(0.01));
    CHECK(acid->high - acid->typical == Approx(std::hypot(0.06404, 0.3)).margin(0.001));
    CHECK_FALSE(preparation::acidFromTitration({Volume::fromMl(0), Volume::fromMl(10)}, kDay));
    const auto bowl = preparation::yieldOfFruit(Volume::fromMl(330), 11, Volume::fromMl(5), kDay);
    CHECK(bowl->typical == Approx(30));
    CHECK(bowl->source == "11 squeezed to 330 ml");
    CHECK_FALSE(preparation::yieldOfFruit(Volume::fromMl(330), 0, Volume::fromMl(5), kDay));
    const auto each =
        preparation::yieldOfFruit({Volume::fromMl(15), Volume::fromMl(60), Volume::fromMl(30)}, kDay);
    CHECK(each->low == 15);
    CHECK(each->high == 60);
    CHECK(each->typical == Approx(35));
    CHECK_FALSE(preparation::yieldOfFruit(std::vector<Volume>{}, kDay));
}
