#include "core/preparation/measuring.h"

#include "core/exchange/conversion_entry.h"
#include "core/physics/facts_to_masses.h"
#include "core/physics/hydrometer.h"
#include "core/physics/mixture.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <cmath>
#include <limits>

using namespace stillroom;
using namespace stillroom::test;
using physics::ConversionFault;
using physics::ConversionValues;
using preparation::Finds;
using preparation::Measuring;

namespace {

const Measuring& way(std::string_view id) {
    for (const auto& each : preparation::measurings())
        if (each.form.id == id) return each;
    throw std::runtime_error("no such measuring");
}

double valueOf(const physics::Converted& converted, std::string_view key) {
    for (const auto& value : converted.values)
        if (value.key == key) return value.value;
    return std::nan("");
}

// What 50 ml of a liqueur weigh in air at 20 °C.
double weightOf50(double abv, double sugar) {
    physics::LiquidFacts facts;
    facts.strength = quantity::Strength::fromPercentVol(abv);
    facts.gramsPerLitre[physics::Substance::Sucrose] = sugar;
    physics::Composition c;
    c.addScaled(physics::massesPerMl(facts).value().perMl, 50);
    const auto rho = quantity::Mass::fromGrams(c.totalGrams()) / quantity::Volume::fromMl(50);
    return 50 * physics::apparentDensityInAir(rho).gPerMl();
}

} // namespace

TEST_CASE("A weighing names its sugar and what its band is made of", "[measuring]") {
    const auto& weighing = way("weighed");
    const ConversionValues values{{"volume", 50.0}, {"net", weightOf50(24, 310)}, {"abv", 24.0}};
    const auto found = physics::convert(weighing.form, values);
    REQUIRE(found);
    CHECK(valueOf(*found, "sugar") == Approx(310).margin(2)); // the bound
    double squares = 0;
    for (const auto* part : {"by_scale", "by_volume", "by_label", "by_model"}) {
        CHECK(valueOf(*found, part) > 0);
        squares += std::pow(valueOf(*found, part), 2);
    }
    CHECK(valueOf(*found, "band") == Approx(std::sqrt(squares)).epsilon(1e-9));
    // 1 kg/m³ is 2.6 to 2.9 g/l; 0.05 g in 50 ml is 1 kg/m³ too; 0.1 ml of 50 is 0.2 %, 2.1 kg/m³.
    CHECK(valueOf(*found, "by_model") == Approx(2.75).margin(0.16));
    CHECK(valueOf(*found, "by_scale") == Approx(valueOf(*found, "by_model")).epsilon(0.01));
    CHECK(valueOf(*found, "by_volume") == Approx(2.1 * 2.75).margin(0.4));
    const auto fact = preparation::factMeasured(weighing, values, "2026-11-25");
    REQUIRE(fact);
    CHECK(fact->typical == valueOf(*found, "sugar"));
    CHECK(fact->source.find("50 ml weighed") == 0);
    CHECK(fact->on == "2026-11-25");
}

TEST_CASE("Every measuring answers with its value and band within its ranges and says what is wrong",
          "[measuring]") {
    for (const auto& measuring : preparation::measurings()) {
        INFO(measuring.form.id);
        CHECK(measuring.form.outputs.size() >= 2);
        const auto none = physics::convert(measuring.form, {});
        REQUIRE_FALSE(none);
        CHECK(none.error().fault == ConversionFault::Missing);
        for (const auto& input : measuring.form.inputs) {
            for (const double bad : {-1e3, 1e9, std::nan(""), std::numeric_limits<double>::infinity()}) {
                ConversionValues values;
                for (const auto& other : measuring.form.inputs)
                    if (other.need == physics::InputNeed::Required)
                        values[std::string(other.key)] = 0.5 * (other.low + std::min(other.high, 80.0));
                values[std::string(input.key)] = bad;
                const auto refused = physics::convert(measuring.form, values);
                REQUIRE_FALSE(refused);
                CHECK(refused.error().key == input.key);
                CHECK_FALSE(preparation::factMeasured(measuring, values, "2026-11-25"));
            }
        }
    }
}

TEST_CASE("Figures that each may be and together cannot are told apart", "[measuring]") {
    const auto problem = [](std::string_view id, const ConversionValues& values) {
        const auto found = physics::convert(way(id).form, values);
        REQUIRE_FALSE(found);
        return found.error();
    };
    CHECK(problem("weighed", {{"volume", 50.0}, {"net", 30.0}, {"abv", 24.0}}).advice.find("Lighter") == 0);
    CHECK(problem("weighed", {{"volume", 50.0}, {"net", 130.0}, {"abv", 24.0}}).advice.find("Heavier") == 0);
    CHECK(problem("refractometer", {{"brix", 2.0}, {"abv", 40.0}}).key == "brix");
    CHECK(problem("shake", {{"before", 120.0}, {"after", 110.0}}).key == "after");
    CHECK(problem("squeezed", {{"got", 300.0}, {"pieces", 2.5}}).key == "pieces");
    CHECK(problem("squeezed", {{"got", 300.0}, {"pieces", 10.0}, {"least", 31.0}}).key == "least");
    CHECK(problem("squeezed", {{"got", 300.0}, {"pieces", 10.0}, {"most", 29.0}}).key == "most");
    CHECK(problem("titration", {{"sample", 0.01}, {"base", 100.0}}).key == "base");
}

TEST_CASE("What a person types for a measuring is read as the conversions read it", "[measuring]") {
    const auto& hydrometer = way("hydrometer");
    const auto found = exchange::convertTyped(hydrometer.form, {{"brix", "50,0"}, {"t", "68 °F"}});
    REQUIRE(found);
    CHECK(valueOf(*found, "brix_true") == Approx(50).margin(1e-3));
    CHECK(valueOf(*found, "sugar") == Approx(614.8).margin(0.1)); // 1,229.6 kg/m³: ICUMSA SPS-4
    const auto wrong = exchange::convertTyped(hydrometer.form, {{"brix", "sweet"}, {"t", "20"}});
    REQUIRE_FALSE(wrong);
    CHECK(wrong.error().fault == ConversionFault::NotANumber);
    const auto fruit = exchange::convertTyped(
        way("squeezed").form, {{"got", "330"}, {"pieces", "11"}, {"least", "22"}, {"most", "41,5"}});
    REQUIRE(fruit);
    CHECK(valueOf(*fruit, "yield") == Approx(30));
    CHECK(valueOf(*fruit, "low") == 22);
    CHECK(valueOf(*fruit, "high") == 41.5);
}

TEST_CASE("An ingredient's own strength and the house's scale stand where they are asked", "[measuring]") {
    auto facts = factsOf({24, std::nullopt, std::nullopt});
    const auto own = preparation::measuringFor(way("weighed"), facts, quantity::Mass::fromGrams(1));
    CHECK(own.form.input("abv")->standing == 24.0);
    CHECK(own.form.input("scale")->standing == 1.0);
    CHECK(own.form.input("abv_off")->standing == 0.3);
    CHECK(physics::convert(own.form, {{"volume", 50.0}, {"net", weightOf50(24, 310)}}));
    facts.abvPercent->low = 22;
    facts.abvPercent->high = 26;
    CHECK(*preparation::measuringFor(way("weighed"), facts, {}).form.input("abv_off")->standing == 2.0);
    const auto nobody = preparation::measuringFor(way("weighed"), {}, {});
    CHECK(nobody.form.input("abv")->need == physics::InputNeed::Required);
    CHECK(nobody.form.input("scale")->standing == 0.1);
}

TEST_CASE("The water of a shake is set against the drink's own lines", "[measuring]") {
    Shelf shelf;
    shelf.put("spirit 40", {40, 0, 0}).put("lime juice", {0, 17, 60});
    spec::Spec drink;
    drink.lines = {line("spirit 40", 60), line("lime juice", 30)};
    const spec::Bindings bindings(drink, shelf.larder, shelf.rules());
    const auto composition = spec::compositionOf(drink, bindings, spec::Stage::Measured);
    const double grams = composition.totalGrams();
    const double ml = physics::volumeAt20(composition).ml();
    const ConversionValues values{{"before", grams}, {"after", grams + 36}};
    const auto found = preparation::shakeWeighed(way("shake"), values, drink, bindings);
    REQUIRE(found);
    CHECK(found->entry.ratio == Approx(36 / 0.9982 / ml).epsilon(1e-4));
    CHECK(found->entry.origin == spec::DilutionOrigin::Measured);
    CHECK(found->served.grams() == Approx(grams + 36));
    auto twice = drink;
    twice.serves = 2;
    CHECK(preparation::shakeWeighed(way("shake"), values, twice, bindings)->served.grams() ==
          Approx((grams + 36) / 2));
    // 0.05 g either time: 0.07 g of water and a little more, since the first weight divides it too.
    CHECK(found->band == Approx(std::hypot(1.0, 1 + 36 / grams) * 0.05 / 0.9982 / ml).epsilon(0.02));
    CHECK_FALSE(preparation::shakeWeighed(way("shake"), values, {}, spec::Bindings({}, shelf.larder, {})));
    CHECK_FALSE(preparation::factMeasured(way("shake"), values, "2026-11-25"));
}

TEST_CASE("A measured fact goes where what is poured takes it from", "[measuring]") {
    larder::Larder larder;
    larder::Ingredient bottle;
    bottle.id = base::IngredientId::derivedFrom("orange liqueur of the house");
    bottle.sort = larder::IngredientSort::Bottle;
    bottle.name = "orange liqueur, 24 %";
    bottle.facts = factsOf({24, std::nullopt, std::nullopt});
    larder.put(bottle);
    larder::Ingredient kind = bottle;
    kind.id = base::IngredientId::derivedFrom("orange liqueur");
    kind.sort = larder::IngredientSort::Kind;
    kind.houseBottle = bottle.id;
    larder.put(kind);
    CHECK(preparation::measuredOn(Finds::Sugar, kind.id, larder) == bottle.id);
    const auto fact = larder::Fact{310, 304, 316, larder::SourceKind::Measured, "weighed", "2026-11-25"};
    const auto kept = preparation::keepMeasured(Finds::Sugar, fact, bottle.id, larder);
    REQUIRE(kept);
    CHECK(kept->before.facts.sugarGPerL == std::nullopt);
    CHECK(kept->after.facts.sugarGPerL == fact);
    CHECK_FALSE(kept->lotAfter);
    CHECK_FALSE(preparation::keepMeasured(Finds::Dilution, fact, bottle.id, larder));
    CHECK_FALSE(preparation::keepMeasured(Finds::Sugar, fact, base::IngredientId::random(), larder));

    // Made here: the lot takes it, the spec stays what it is.
    larder::Ingredient made = bottle;
    made.id = base::IngredientId::derivedFrom("heather cordial");
    made.sort = larder::IngredientSort::Preparation;
    made.madeBy = base::DrinkId::derivedFrom("heather cordial");
    larder.put(made);
    const auto lot = preparation::keepMeasured(Finds::Acid, fact, made.id, larder);
    REQUIRE(lot);
    REQUIRE(lot->lotAfter);
    CHECK_FALSE(lot->lotBefore);
    CHECK(lot->lotAfter->acidGPerL == fact);
    CHECK(lot->after.lotInUse == lot->lotAfter->id);
    CHECK(lot->after.facts == made.facts);
    larder.put(*lot->lotAfter);
    larder.put(lot->after);
    const auto again = preparation::keepMeasured(Finds::Sugar, fact, made.id, larder);
    CHECK(again->lotBefore == lot->lotAfter);
    CHECK(again->lotAfter->acidGPerL == fact);
    CHECK(again->lotAfter->sugarGPerL == fact);

    // Fruit: the juice got from it.
    larder::Ingredient fruit = bottle;
    fruit.id = base::IngredientId::derivedFrom("our limes");
    larder.put(fruit);
    larder::Ingredient juice = bottle;
    juice.id = base::IngredientId::derivedFrom("our lime juice");
    juice.gotFrom = larder::GotFrom{fruit.id, larder::PackUnit::Piece, larder::PackUnit::Ml, 25, 1};
    larder.put(juice);
    CHECK(preparation::measuredOn(Finds::Yield, fruit.id, larder) == juice.id);
    const auto squeezed =
        larder::Fact{31.25, 22, 41, larder::SourceKind::Measured, "8 squeezed to 250 ml", "2026-11-25"};
    const auto yield = preparation::keepMeasured(Finds::Yield, squeezed, juice.id, larder);
    REQUIRE(yield);
    CHECK(yield->after.gotFrom->perUnit == quantity::Rational::make(125, 4).value());
    REQUIRE(yield->lotAfter);
    CHECK(yield->lotAfter->note == "8 squeezed to 250 ml: 31.2 ml each (22.0 to 41.0)");
    CHECK(yield->after.lotInUse == std::nullopt);
}
