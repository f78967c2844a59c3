#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using quantity::Measure;
using quantity::Rational;
using spec::Bound;
using spec::Quantity;
using spec::Stage;
using spec::Technique;

namespace {

Shelf sourShelf() {
    Shelf shelf;
    shelf.putPriced("gin", {{40}, {0}, {0}}, 2100, 700)
        .putPriced("lemon juice", {{0}, {16}, {60}}, 400, 1000)
        .putPriced("syrup", {{0}, {615}, {0}}, 150, 1000)
        .put("water", {{0}, {0}, {0}})
        .put("soda", {{0}, {0}, {0}})
        .put("mystery", {});
    return shelf;
}

double value(const spec::Readings& r, Stage stage, Quantity q) {
    CHECK(r[stage][q].bound == Bound::Exact);
    return r[stage][q].value;
}

} // namespace

TEST_CASE("a sour reads as its sums worked by hand", "[spec][evaluate]") {
    const Shelf shelf = sourShelf();
    const auto r =
        shelf.read(drink({line("gin", 60), line("lemon juice", 30), line("syrup", 20)}, Technique::Shake));

    // Poured: 60 + 30 + 20. Ethanol: 60 × 0.40 × 0.78924 = 18.942 g.
    CHECK(value(r, Stage::Measured, Quantity::PouredVolume) == Approx(110));
    CHECK(value(r, Stage::Measured, Quantity::Ethanol) == Approx(18.9418).epsilon(1e-4));
    // Sugar: 30 × 0.016 + 20 × 0.615 = 12.78 g; acid: 30 × 0.060 = 1.8 g; ratio 7.1.
    CHECK(value(r, Stage::Measured, Quantity::SugarAcidRatio) == Approx(7.1));
    // Mixing contracts a little: the volume is under 110 ml and over 109.
    const double volume = value(r, Stage::Measured, Quantity::Volume);
    CHECK(volume < 110);
    CHECK(volume > 109);
    CHECK(value(r, Stage::Measured, Quantity::Sugar) == Approx(1278 / volume));
    CHECK(value(r, Stage::Measured, Quantity::Acid) == Approx(180 / volume));
    const double strength = value(r, Stage::Measured, Quantity::Strength);
    CHECK(strength == Approx(2400 / volume));
    CHECK(r[Stage::Measured][Quantity::Dilution].bound == Bound::NotApplicable);

    // Shaken: -1.567 a² + 1.742 a + 0.203 (thermal, dilution_regressions; from memory of its source).
    const double a = strength / 100;
    const double ratio = -1.567 * a * a + 1.742 * a + 0.203;
    CHECK(value(r, Stage::Mixed, Quantity::Dilution) == Approx(ratio));
    const double water = ratio * volume * 0.9982;
    CHECK(value(r, Stage::Mixed, Quantity::Mass) ==
          Approx(value(r, Stage::Measured, Quantity::Mass) + water));
    CHECK(value(r, Stage::Mixed, Quantity::Ethanol) == value(r, Stage::Measured, Quantity::Ethanol));
    CHECK(value(r, Stage::Mixed, Quantity::Strength) < strength / (1 + ratio) + 0.1);
    CHECK(value(r, Stage::Mixed, Quantity::Strength) > strength / (1 + ratio) - 0.1);
    CHECK(r[Stage::Served] == r[Stage::Mixed]);

    // 60/700 × 21.00 = 1.80; 30/1000 × 4.00 = 0.12; 20/1000 × 1.50 = 0.03.
    CHECK(value(r, Stage::Served, Quantity::Cost) == Approx(1.95));
    // 18.942 g over the 10 g of the default house.
    CHECK(value(r, Stage::Served, Quantity::StandardDrinks) == Approx(1.89418).epsilon(1e-4));
    // EU factors: 18.9418 × 29 + 12.78 × 17 + 1.8 × 13 = 789.97 kJ; × 7, 4, 3: 189.11 kcal.
    CHECK(value(r, Stage::Served, Quantity::EnergyKj) == Approx(789.97).epsilon(1e-3));
    CHECK(value(r, Stage::Served, Quantity::EnergyKcal) == Approx(189.11).epsilon(1e-3));
    CHECK(r[Stage::Served][Quantity::Temperature].estimate);
}

TEST_CASE("readings are per serve and concentrations do not care", "[spec][evaluate]") {
    const Shelf shelf = sourShelf();
    auto four = drink({line("gin", 240), line("lemon juice", 120), line("syrup", 80)}, Technique::Shake);
    four.serves = 4;
    const auto one =
        shelf.read(drink({line("gin", 60), line("lemon juice", 30), line("syrup", 20)}, Technique::Shake));
    const auto r = shelf.read(four);
    for (std::size_t s = 0; s < spec::kStageCount; ++s)
        for (std::size_t q = 0; q < spec::kQuantityCount; ++q)
            CHECK(r.stages[s].of[q].value == Approx(one.stages[s].of[q].value));
}

TEST_CASE("a topped line enters the glass and is not dilution", "[spec][evaluate]") {
    const Shelf shelf = sourShelf();
    const auto r = shelf.read(
        drink({line("gin", 40), line("soda", 100, Measure::Ml, spec::Role::Topped)}, Technique::Build));
    CHECK(value(r, Stage::Measured, Quantity::PouredVolume) == 40);
    CHECK(value(r, Stage::Served, Quantity::PouredVolume) == 140);
    CHECK(value(r, Stage::Mixed, Quantity::Dilution) == Approx(0.24));
    CHECK(value(r, Stage::Served, Quantity::Dilution) == Approx(0.24));
    // 16 ml of ethanol in about 40 + 9.6 + 100 ml.
    CHECK(value(r, Stage::Served, Quantity::Strength) == Approx(1600 / 149.6).margin(0.06));
}

TEST_CASE("a rinse costs what is poured and counts what stays", "[spec][evaluate]") {
    const Shelf shelf = sourShelf();
    auto rinse = line("gin", 10, Measure::Ml, spec::Role::Rinse);
    auto r = shelf.read(drink({line("water", 100), rinse}));
    CHECK(value(r, Stage::Served, Quantity::Cost) == Approx(0.30)); // 10/700 × 21.00
    // The house finds that 2 ml stay (measures, rinse_retained_ml): 2 × 0.4 × 0.78924 g.
    CHECK(value(r, Stage::Served, Quantity::Ethanol) == Approx(0.63139).epsilon(1e-4));
    CHECK(value(r, Stage::Mixed, Quantity::Ethanol) == 0);
    rinse.retained = spec::Measured{quantity::Amount::exact(1), Measure::Ml, 1};
    r = shelf.read(drink({line("water", 100), rinse}));
    CHECK(value(r, Stage::Served, Quantity::Ethanol) == Approx(0.31570).epsilon(1e-4));
    CHECK(value(r, Stage::Served, Quantity::Cost) == Approx(0.30));
}

TEST_CASE("a measured dilution wins over the prediction", "[spec][evaluate]") {
    const Shelf shelf = sourShelf();
    auto d = drink({line("gin", 60), line("water", 40)}, Technique::Stir);
    d.method.dilution = spec::DilutionEntry{0.5, spec::DilutionOrigin::Measured, "weighed"};
    const auto r = shelf.read(d);
    CHECK(value(r, Stage::Mixed, Quantity::Dilution) == 0.5);
    CHECK_FALSE(r[Stage::Mixed][Quantity::Dilution].estimate);
    d.method.dilution->origin = spec::DilutionOrigin::Predicted;
    CHECK(value(shelf.read(d), Stage::Mixed, Quantity::Dilution) < 0.45);
}

TEST_CASE("a curve is left at its end and says so", "[spec][evaluate]") {
    const Shelf shelf = sourShelf();
    const auto strong = shelf.read(drink({line("gin", 60)}, Technique::Stir));
    CHECK_FALSE(strong[Stage::Mixed][Quantity::Dilution].estimate); // 40 % is on the curve
    const auto weak = shelf.read(drink({line("gin", 10), line("water", 90)}, Technique::Stir));
    CHECK(weak[Stage::Mixed][Quantity::Dilution].estimate);
    CHECK(weak[Stage::Mixed][Quantity::Strength].estimate);
    CHECK_FALSE(weak[Stage::Mixed][Quantity::Ethanol].estimate);
    CHECK_FALSE(weak[Stage::Measured][Quantity::Strength].estimate);
}

TEST_CASE("without a method there is no water and with ice alone it is unknown", "[spec][evaluate]") {
    const Shelf shelf = sourShelf();
    auto d = drink({line("gin", 60), line("syrup", 10)});
    auto r = shelf.read(d);
    CHECK(r[Stage::Mixed][Quantity::Dilution].bound == Bound::NotApplicable);
    CHECK(r[Stage::Mixed][Quantity::Strength] == r[Stage::Measured][Quantity::Strength]);
    d.method.technique = Technique::WaterBath;
    CHECK(value(shelf.read(d), Stage::Mixed, Quantity::Dilution) == 0);
    d.method.technique = Technique::None;
    d.method.ice = "cubes";
    r = shelf.read(d);
    CHECK(r[Stage::Mixed][Quantity::Dilution].bound == Bound::Unknown);
    CHECK(r[Stage::Mixed][Quantity::Volume].bound == Bound::AtLeast);
    CHECK(r[Stage::Mixed][Quantity::Strength].bound == Bound::AtMost);
    CHECK(r[Stage::Mixed][Quantity::Strength].value == Approx(r[Stage::Measured][Quantity::Strength].value));
    CHECK(r[Stage::Mixed][Quantity::Ethanol].bound == Bound::Exact);
}

TEST_CASE("no acid means no ratio and nothing at all means nothing to read", "[spec][evaluate]") {
    const Shelf shelf = sourShelf();
    CHECK(shelf.read(drink({line("gin", 60), line("syrup", 10)}))[Stage::Measured][Quantity::SugarAcidRatio]
              .bound == Bound::NotApplicable);
    const auto empty = shelf.read(spec::Spec{});
    CHECK(value(empty, Stage::Served, Quantity::Volume) == 0);
    CHECK(empty[Stage::Served][Quantity::Strength].bound == Bound::NotApplicable);
    CHECK(empty[Stage::Served][Quantity::Density].bound == Bound::NotApplicable);
}

TEST_CASE("dry goods enter by mass and dissolve", "[spec][evaluate]") {
    Shelf shelf = sourShelf();
    shelf.putDry("sugar", 1000, 0, 0.852).putDry("citric acid", 0, 1000, 0.9);
    // 100 g of sugar in 500 ml of 40 % spirit and 50.09 ml of water is the worked example of the reference
    // (ternary, worked_example): 611.381 ml, 32.713 % vol, 163.56 g/l, 624.023 g.
    auto r = shelf.read(drink(
        {line("gin", 500), line("water", *Rational::make(50090, 1000)), line("sugar", 100, Measure::G)}));
    CHECK(value(r, Stage::Measured, Quantity::Volume) == Approx(611.381).margin(0.02));
    CHECK(value(r, Stage::Measured, Quantity::Strength) == Approx(32.713).margin(0.003));
    CHECK(value(r, Stage::Measured, Quantity::Sugar) == Approx(16.356).margin(0.002));
    CHECK(value(r, Stage::Measured, Quantity::Mass) == Approx(624.023).margin(0.02));
    // A teaspoon of granulated sugar holds 4.2 g (USDA SR26, NDB 19335): 4.92892 ml × 0.852 g/ml.
    r = shelf.read(drink({line("water", 100), line("sugar", 1, Measure::TspUs)}));
    CHECK(value(r, Stage::Measured, Quantity::Brix) == Approx(100 * 4.2 / (99.82 + 4.2)).epsilon(2e-3));
    r = shelf.read(drink({line("water", 1000), line("citric acid", 60, Measure::G)}));
    CHECK(value(r, Stage::Measured, Quantity::Acid) == Approx(100 * 60 / 1035.8).epsilon(2e-3));
}

TEST_CASE("counted things take the size the house gives them", "[spec][evaluate]") {
    Shelf shelf = sourShelf();
    shelf.put("egg white", {{0}, {7}, {0}}).putDry("sugar cube", 998, 0, 0.85).put("lime", {{0}, {16}, {60}});
    auto half = line("lime", *Rational::make(1, 2), std::nullopt);
    half.juiceOf = true;
    const auto r = shelf.read(drink({line("egg white", 1, std::nullopt), half}));
    // measures: egg white 32.1 ml (USDA SR26, NDB 01124); lime 30 ml a fruit (trade rule).
    CHECK(value(r, Stage::Measured, Quantity::PouredVolume) == Approx(32.1 + 15));
    // measures: US sugar cube 2.3 g (USDA SR26, NDB 19335), two of them in 100 ml of water.
    const auto cubes = shelf.read(drink({line("water", 100), line("sugar cube", 2, Measure::Piece)}));
    CHECK(value(cubes, Stage::Measured, Quantity::Brix) ==
          Approx(100 * 4.6 * 0.998 / (99.82 + 4.6)).epsilon(1e-3));
}

TEST_CASE("a weighed liquid is poured through its density", "[spec][evaluate]") {
    Shelf shelf;
    // Two to one by weight: 66.67 Brix, 885 g/l. 16 oz of it on a scale is 341 ml (ten facts, no. 7).
    shelf.put("rich syrup", {{0}, {885}, {0}});
    const auto r = shelf.read(drink({line("rich syrup", 16, Measure::OzMass)}));
    CHECK(value(r, Stage::Measured, Quantity::PouredVolume) == Approx(341).margin(1));
    CHECK(value(r, Stage::Measured, Quantity::Mass) == Approx(453.59).margin(0.05));
}

TEST_CASE("parts fill the target and without one only shares are known", "[spec][evaluate]") {
    const Shelf shelf = sourShelf();
    auto d = drink({line("gin", 2, Measure::Part), line("lemon juice", 1, Measure::Part)});
    d.partTargetMl = 90;
    auto r = shelf.read(d);
    CHECK(value(r, Stage::Measured, Quantity::PouredVolume) == Approx(90));
    CHECK(value(r, Stage::Measured, Quantity::Ethanol) == Approx(60 * 0.4 * 0.78924));
    const double strength = value(r, Stage::Measured, Quantity::Strength);
    d.partTargetMl.reset();
    r = shelf.read(d);
    CHECK(value(r, Stage::Measured, Quantity::Strength) == Approx(strength));
    CHECK(r[Stage::Measured][Quantity::PouredVolume].bound == Bound::Unknown);
    CHECK(r[Stage::Measured][Quantity::Cost].bound == Bound::Unknown);
    CHECK_FALSE(r[Stage::Measured][Quantity::Strength].estimate);
    d.lines.push_back(line("syrup", 2, Measure::Dash));
    CHECK(shelf.read(d)[Stage::Measured][Quantity::Strength].estimate);
    d.serves = 6;
    d.partTargetMl = 90;
    CHECK(value(shelf.read(d), Stage::Measured, Quantity::PouredVolume) == Approx(90 + 2 * 0.92 / 6));
}

TEST_CASE("a drink built hot gains no water and one built over ice does", "[spec][evaluate]") {
    Shelf shelf = sourShelf();
    shelf.put("hot water", {{0}, {0}, {0}}).put("hot sauce", {{0}, {0}, {0}});
    const auto ratio = [&shelf](const spec::Spec& d) {
        return shelf.read(d)[Stage::Mixed][Quantity::Dilution].value;
    };
    auto d = drink({line("gin", 40), line("syrup", 10)}, Technique::Build);
    CHECK(ratio(d) == 0.24);
    d.method.text = "Build in a Warmed mug.";
    CHECK(ratio(d) == 0);
    d.method.text = "Build in the glass.";
    CHECK(ratio(d) == 0.24);
    CHECK(shelf.read(d)[Stage::Mixed][Quantity::Dilution].estimate);
    d.lines.push_back(line("hot sauce", 1));
    CHECK(ratio(d) == 0.24);
    d.lines.push_back(line("hot water", 100));
    CHECK(ratio(d) == 0);
    d.method.ice = "cubes";
    CHECK(ratio(d) == 0.24);
}

TEST_CASE("what is left of an analysed dry good is moisture", "[spec][evaluate]") {
    Shelf shelf;
    auto ice = shelf.ingredient("ice cream");
    ice.facts.dry = true;
    ice.facts.sugarGPerL = fact(212);
    ice.facts.fatGPerL = fact(110);
    ice.facts.proteinGPerL = fact(35);
    ice.facts.otherSolidsGPerL = fact(9);
    shelf.larder.put(ice);
    const auto r = shelf.read(drink({line("ice cream", 100, Measure::G)}));
    // 63.4 g of water (63.5 ml) + 21.2 g of sugar (13.1 ml) + 11 g fat × 1.087 + 3.5 g protein × 0.735 +
    // 0.9 g ash × 0.4 = 91.5 ml.
    CHECK(r[Stage::Measured][Quantity::Volume].value == Approx(91.5).margin(0.2));
    CHECK(r[Stage::Measured][Quantity::Mass].value == Approx(100));
    CHECK(r[Stage::Measured][Quantity::Brix].bound == Bound::Exact);
}

TEST_CASE("a stated density holds although a fact is missing", "[spec][bounds]") {
    Shelf shelf = sourShelf();
    auto liqueur = shelf.ingredient("liqueur");
    liqueur.facts = factsOf({{25}, {240}, {}});
    liqueur.facts.densityKgPerM3 = fact(1061);
    shelf.larder.put(liqueur);
    const auto r = shelf.read(drink({line("gin", 30), line("liqueur", 60)}));
    CHECK(r[Stage::Measured][Quantity::Mass].bound == Bound::Exact);
    CHECK(r[Stage::Measured][Quantity::Acid].bound == Bound::AtLeast);
}
