#include "core/spec/calibration.h"
#include "core/spec/heat_parts.h"
#include "core/spec/more_readings.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom;
using namespace stillroom::test;
using quantity::Measure;
using spec::GapCode;
using spec::Quantity;
using spec::Stage;
using spec::Technique;

namespace {

larder::FactState liqueur(double abv, double sugar, double density,
                          larder::SourceKind kind = larder::SourceKind::Label) {
    larder::FactState facts = factsOf({abv, sugar, 0});
    facts.densityKgPerM3 = larder::Fact::single(density, kind, "bottle");
    return facts;
}

Shelf bar() {
    Shelf shelf;
    shelf.put("gin", {{45}, {0}, {0}}).put("lime juice", {{0}, {17}, {60}}).put("tonic", {{0}, {80}, {3}});
    larder::Ingredient tonic = *shelf.larder.find(base::IngredientId::derivedFrom("tonic"));
    tonic.facts.carbonated = true;
    tonic.facts.co2GPerL = fact(7);
    shelf.larder.put(tonic);
    return shelf;
}

spec::DilutionSource sourceOf(const Shelf& s, const spec::Spec& d) {
    return spec::dilutionSource(d, spec::Bindings(d, s.larder, s.rules()));
}

} // namespace

// ternary.json, model_comparison_computed: 40 % vol with 100 g/l of sugar is 985.6 kg/m³ by the recommended
// model.
TEST_CASE("a density that strength and sugar cannot make is told by how much", "[spec][contradiction]") {
    const double model = spec::prepare(factsOf({40, 100, 0})).densityGPerMl * 1000;
    CHECK_FALSE(spec::contradictionIn(liqueur(40, 100, model)));
    CHECK_FALSE(spec::contradictionIn(liqueur(40, 100, model + 2))); // as well as the model is known
    const auto heavy = spec::contradictionIn(liqueur(40, 100, model + 20));
    REQUIRE(heavy);
    CHECK(heavy->computedKgPerM3 == Approx(model).margin(1e-6));
    CHECK(heavy->offKgPerM3() == Approx(20).margin(1e-6));
    CHECK(heavy->asSugarGPerL == Approx(52).margin(3)); // about 2.6 g/l a kg/m³
    // And with that sugar the three agree.
    CHECK_FALSE(spec::contradictionIn(liqueur(40, 100 + heavy->asSugarGPerL, model + 20)));
    const auto light = spec::contradictionIn(liqueur(40, 100, model - 20));
    REQUIRE(light);
    CHECK(light->asSugarGPerL == Approx(-52).margin(3));
    CHECK_FALSE(spec::contradictionIn(liqueur(40, 100 + light->asSugarGPerL, model - 20)));
    // Lighter than the spirit without any sugar: no sugar explains it, the slope does.
    CHECK(spec::contradictionIn(liqueur(40, 10, 900))->asSugarGPerL < -100);
    // What does not fit in a litre, with or without a density.
    CHECK(spec::contradictionIn(factsOf({80, 900, 0}))->offKgPerM3() == 0);
    // Two figures of three, a handbook's typical density, a dry good: nothing to contradict.
    auto two = liqueur(40, 100, model + 20);
    two.sugarGPerL.reset();
    CHECK_FALSE(spec::contradictionIn(two));
    CHECK_FALSE(spec::contradictionIn(liqueur(40, 100, model + 20, larder::SourceKind::Handbook)));
    CHECK_FALSE(spec::contradictionIn(factsOf({40, 100, 0})));
}

TEST_CASE("a contradiction stands among the gaps of a drink", "[spec][contradiction]") {
    Shelf s = bar();
    larder::Ingredient bottle = s.ingredient("orange liqueur");
    bottle.facts = liqueur(40, 100, 1010);
    s.larder.put(bottle);
    const auto gaps = s.gaps(drink({line("gin", 40), line("orange liqueur", 20)}));
    const auto found = std::find_if(
        gaps.begin(), gaps.end(), [](const spec::Gap& gap) { return gap.code == GapCode::FactsContradict; });
    REQUIRE(found != gaps.end());
    CHECK(found->line == 1);
    CHECK(found->ingredient == "orange liqueur");
    CHECK(found->densityOffKgPerM3 > 15);
    CHECK(found->asSugarGPerL > 40);
    CHECK(spec::gapCodeId(found->code) == "facts_contradict");
}

// costing, batching rules: carbonated parts are added last, cold; common practice, no source.
TEST_CASE("a fizzy line is topped chilled unless somebody says otherwise", "[spec][temperature]") {
    const Shelf s = bar();
    auto d = drink({line("gin", 50), line("tonic", 150, Measure::Ml, spec::Role::Topped)});
    const auto chilled = s.read(d)[Stage::Served][Quantity::Temperature];
    CHECK(chilled.estimate); // assumed
    CHECK(chilled.value < 12);
    d.method.startC = 22; // the room: of the gin, not of what comes out of the cold
    CHECK(s.read(d)[Stage::Served][Quantity::Temperature].value < 13);
    d.lines[1].temperatureC = 20;
    CHECK(s.read(d)[Stage::Served][Quantity::Temperature].value > 19);
    d.lines[1].temperatureC.reset();
    d.lines[1].note = "warm";
    CHECK(s.read(d)[Stage::Served][Quantity::Temperature].value > 30);
    CHECK(spec::lineTemperature(d.lines[0], d.method, false).celsius == 22);
}

// techniques, blend: ice is an ingredient, all of it becomes water in the glass.
TEST_CASE("all the weighed ice of a blended drink is in the glass", "[spec][dilution]") {
    const Shelf s = bar();
    auto d = drink({line("gin", 60), line("lime juice", 30)}, Technique::Blend);
    CHECK(sourceOf(s, d).kind == spec::DilutionSource::Kind::FixedFigure);
    d.method.iceGrams = 150;
    const auto r = s.read(d);
    CHECK(r[Stage::Mixed][Quantity::Mass].value - r[Stage::Measured][Quantity::Mass].value ==
          Approx(150).margin(1e-6));
    CHECK_FALSE(r[Stage::Mixed][Quantity::Strength].estimate);
    CHECK(sourceOf(s, d).kind == spec::DilutionSource::Kind::AllIce);
    CHECK(r[Stage::Mixed][Quantity::Temperature].value < 0);
    CHECK(r[Stage::Mixed][Quantity::Temperature].value > -10);
    d.method.iceGrams.reset();
    d.method.ice = "150 g of crushed";
    CHECK(s.read(d)[Stage::Mixed][Quantity::Mass].value == r[Stage::Mixed][Quantity::Mass].value);
    // Two serves of one blend hold it together; a measured dilution wins.
    d.serves = 2;
    d.method.drinksPerShake = 2;
    CHECK(2 * (s.read(d)[Stage::Mixed][Quantity::Mass].value -
               s.read(d)[Stage::Measured][Quantity::Mass].value) ==
          Approx(150).margin(1e-6));
    d.method.dilution = spec::DilutionEntry{0.5, spec::DilutionOrigin::Measured, ""};
    CHECK(s.read(d)[Stage::Mixed][Quantity::Dilution].value == 0.5);
}

// techniques, swizzle: 0.3 to 0.6 in crushed ice, common practice, no source; built over cubes 0.24.
TEST_CASE("a drink built over crushed ice takes more water than over cubes", "[spec][dilution]") {
    const Shelf s = bar();
    auto d = drink({line("gin", 60), line("lime juice", 30)}, Technique::Build);
    CHECK(s.read(d)[Stage::Mixed][Quantity::Dilution].value == 0.24);
    for (const char* ice : {"crushed", "over crushed ice", "pebble ice"}) {
        d.method.ice = ice;
        const auto dilution = s.read(d)[Stage::Mixed][Quantity::Dilution];
        CHECK(dilution.value == 0.45);
        CHECK(dilution.estimate);
    }
    d.method.ice = "large cubes";
    CHECK(s.read(d)[Stage::Mixed][Quantity::Dilution].value == 0.24);
    d.method.ice.clear();
    d.glass = "tall glass with crushed ice";
    CHECK(s.read(d)[Stage::Mixed][Quantity::Dilution].value == 0.45);
}
