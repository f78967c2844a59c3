#include "core/physics/carbonation.h"
#include "core/spec/caution.h"
#include "core/spec/more_readings.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>

using namespace stillroom;
using namespace stillroom::test;
using quantity::Temperature;
using spec::Bound;
using spec::More;
using spec::Quantity;
using spec::Stage;
using spec::Technique;

namespace {

quantity::Rational thousandths(double value) {
    return *quantity::Rational::make(std::llround(value * 1000), 1000);
}

spec::MoreReadings more(const Shelf& s, const spec::Spec& d) {
    return spec::moreReadings(d, spec::Bindings(d, s.larder, s.rules()));
}

Shelf shelf() {
    Shelf s;
    s.put("gin", {{44}, {0}, {0}})
        .put("dry wine", {{18}, {30}, {5.5}})
        .put("lime juice", {{0}, {17}, {60}})
        .put("syrup", {{0}, {614.83}, {0}})
        .put("water", {{0}, {0}, {0}})
        .put("mystery", {});
    larder::Ingredient soda = s.ingredient("soda");
    soda.facts = factsOf({{0}, {0}, {0}});
    soda.facts.co2GPerL = fact(7);
    s.larder.put(soda);
    larder::Ingredient coffee = s.ingredient("coffee");
    coffee.facts = factsOf({{0}, {0}, {0}});
    coffee.facts.caffeineMgPerL = fact(2000);
    s.larder.put(coffee);
    return s;
}

} // namespace

// worked-drinks.json, computed for this project by separate code: freezing_C 0.05 is its own tolerance.
TEST_CASE("worked drinks freeze where they were worked to", "[spec][more][reference]") {
    std::ifstream file(STILLROOM_SOURCE_DIR "/tests/reference/data/worked-drinks.json");
    const auto document = nlohmann::json::parse(file);
    const double margin = document.at("tolerance").at("freezing_C");
    const std::map<std::string, Technique> chosen{{"W01", Technique::Shake},
                                                  {"W02", Technique::Stir},
                                                  {"W05", Technique::Build},
                                                  {"W06", Technique::Shake}};
    std::size_t seen = 0;
    for (const auto& example : document.at("examples")) {
        const auto technique = chosen.find(example.at("id").get<std::string>());
        if (technique == chosen.end()) continue;
        INFO(technique->first);
        Shelf s;
        spec::Spec d;
        d.method.technique = technique->second;
        const auto add = [&](const nlohmann::json& input, spec::Role role) {
            const auto& given = input.at("given");
            const std::string name = input.at("name");
            s.put(name,
                  {given.value("abv", 0.0), 10 * given.value("sugar", 0.0), 10 * given.value("acid", 0.0)});
            d.lines.push_back(line(name, thousandths(given.at("ml")), quantity::Measure::Ml, role));
        };
        for (const auto& input : example.at("inputs"))
            add(input, spec::Role::Mixed);
        if (example.contains("topped"))
            for (const auto& input : example.at("topped"))
                add(input, spec::Role::Topped);
        const auto r = more(s, d);
        for (const auto stage : {Stage::Measured, Stage::Mixed, Stage::Served}) {
            const std::string id(spec::stageId(stage));
            if (!example.contains(id)) continue;
            CHECK(r[stage][More::FreezingOnset].value ==
                  Approx(example.at(id).at("freezing").at("t_freeze_C").get<double>()).margin(margin));
            ++seen;
        }
        CHECK(r[Stage::Measured][More::Contraction].value ==
              Approx(example.at("measured").at("contraction_mL").get<double>()).margin(0.02));
    }
    CHECK(seen == 9);
}

// worked-drinks.json W10a, W10b: gin and dry wine with 30 g/l sugar, watered to strength, -18 °C.
TEST_CASE("a batch of 22 % is a third ice in the freezer and one of 36 % liquid", "[spec][more][reference]") {
    const Shelf s = shelf();
    const auto inFreezer = [&](double gin, double wine, double water) {
        auto d = drink({line("gin", thousandths(gin)), line("dry wine", thousandths(wine)),
                        line("water", thousandths(water))});
        const spec::Bindings bindings(d, s.larder, s.rules());
        return *spec::inFreezer(d, bindings, Stage::Mixed, Temperature::fromCelsius(-18));
    };
    const auto slush = inFreezer(500, 250, 456.335); // 22.0 % vol with 6.2 g/l sugar
    CHECK(slush.state == physics::ColdState::Slush);
    CHECK(100 * slush.iceShare == Approx(34.38).margin(0.5));
    CHECK(slush.liquidStrength.percentVol() == Approx(33.12).margin(0.2));
    const auto liquid = inFreezer(600, 60, 80); // 37 % vol with 2.4 g/l sugar
    CHECK(liquid.state == physics::ColdState::Liquid);
    CHECK(liquid.marginK > 0);
}

TEST_CASE("proof of a plain spirit is by its own scales", "[spec][more]") {
    const auto r = more(shelf(), drink({line("gin", 50)}));
    const auto stage = r[Stage::Measured];
    // 44 % vol at 20 °C is a little under 88 US proof, which counts at 60 °F.
    CHECK(stage[More::ProofUs].value == Approx(88).margin(0.2));
    CHECK(stage[More::ProofUk].value == Approx(44 * 1.75).margin(0.5));
    CHECK(stage[More::RefractiveIndex].bound == Bound::NotApplicable);
    CHECK(stage[More::Ph].bound == Bound::NotApplicable);
    CHECK(stage[More::Sweetness].bound == Bound::NotApplicable);
    CHECK(stage[More::Co2GPerL].bound == Bound::NotApplicable);
}

TEST_CASE("a syrup has its activity and index and density", "[spec][more]") {
    const auto r = more(shelf(), drink({line("syrup", 100)}));
    const auto stage = r[Stage::Measured];
    // worked-drinks.json W07a: 0.9341 at 25 °C, 1229.65 kg/m³; index 1.4201 at 50 g/100 g (ICUMSA).
    CHECK(stage[More::WaterActivity].value == Approx(0.9341).margin(0.001));
    CHECK(stage[More::WaterActivity].estimate); // past 42 g/100 g, where published freezing points end
    CHECK(stage[More::FreezingOnset].estimate);
    CHECK(stage[More::RelativeDensity].value == Approx(1229.65 / 998.2).margin(0.001));
    CHECK(stage[More::RefractiveIndex].value == Approx(1.4201).margin(0.0005));
    CHECK(stage[More::Sweetness].value == Approx(61.48).margin(0.05));
    CHECK(stage[More::Baume].value == Approx(145 - 145 / (1229.65 / 998.2)).margin(0.1));
}

TEST_CASE("an acid drink has a pH between its acids alone and well buffered", "[spec][more]") {
    const auto ph =
        more(shelf(), drink({line("lime juice", 30), line("syrup", 20)}))[Stage::Measured][More::Ph];
    CHECK(ph.bound == Bound::Between);
    CHECK(ph.estimate);
    CHECK(ph.value > 1.5);
    CHECK(ph.value < 2.5);
    CHECK(ph.upper > ph.value);
    CHECK(ph.upper < 4);
}

TEST_CASE("gas of what was topped is an upper bound", "[spec][more]") {
    const auto d = drink({line("gin", 50), line("soda", 150, quantity::Measure::Ml, spec::Role::Topped)});
    const auto r = more(shelf(), d);
    const auto gas = r[Stage::Served][More::Co2GPerL];
    CHECK(gas.bound == Bound::AtMost);
    CHECK(gas.value == Approx(7 * 150 / 200.0).epsilon(0.01));
    CHECK(r[Stage::Served][More::Co2Volumes].value == Approx(gas.value / 1.977).epsilon(1e-3));
    CHECK(r[Stage::Mixed][More::Co2GPerL].bound == Bound::NotApplicable);
}

// Weiss 1974 by way of physics::dissolvedAt, which its published tables hold.
TEST_CASE("a carbonated batch takes up what its pressure and temperature dissolve", "[spec][more]") {
    const Shelf s = shelf();
    auto d = drink({line("gin", 300), line("water", 700)}, Technique::Carbonate);
    CHECK(more(s, d)[Stage::Mixed][More::Co2GPerL].bound == Bound::Unknown); // gassed, but how?
    CHECK(more(s, d)[Stage::Measured][More::Co2GPerL].bound == Bound::NotApplicable);
    d.method.text = "Carbonate at 2.4 bar and 4 °C for two hours.";
    const auto expected =
        physics::dissolvedAt(physics::GaugePressure::fromBar(2.4), Temperature::fromCelsius(4),
                             quantity::Strength::fromPercentVol(13));
    const auto gas = more(s, d)[Stage::Mixed][More::Co2GPerL];
    CHECK(gas.bound == Bound::AtMost);
    CHECK(gas.estimate); // strength is an estimate
    CHECK(gas.value == Approx(expected->value.gPerL()).epsilon(1e-6));
    CHECK(more(s, d)[Stage::Mixed][More::Co2Volumes].value ==
          Approx(expected->value.volumes()).epsilon(1e-6));
    d.method.text = "Carbonate at 34.8 psi and 39.2 °F.";
    CHECK(more(s, d)[Stage::Mixed][More::Co2GPerL].value == Approx(gas.value).epsilon(0.001));
    // Topped with as much still water the glass holds half of it.
    d.method.text = "Carbonate at 2.4 bar and 4 °C.";
    d.lines.push_back(line("water", 1000, quantity::Measure::Ml, spec::Role::Topped));
    CHECK(more(s, d)[Stage::Served][More::Co2GPerL].value == Approx(gas.value / 2).epsilon(0.01));
    // Beyond 30 % vol no figure was found.
    auto strong = drink({line("gin", 100)}, Technique::Carbonate);
    strong.method.text = d.method.text;
    CHECK(more(s, strong)[Stage::Mixed][More::Co2GPerL].bound == Bound::Unknown);
}

TEST_CASE("caffeine is at least what is stated and per serve", "[spec][more]") {
    auto d = drink({line("gin", 100), line("coffee", 60)});
    d.serves = 2;
    const auto caffeine = more(shelf(), d)[Stage::Measured][More::Caffeine];
    CHECK(caffeine.bound == Bound::AtLeast);
    CHECK(caffeine.value == Approx(60));
}

TEST_CASE("an unknown line leaves what it could move open", "[spec][more]") {
    const auto r = more(shelf(), drink({line("gin", 50), line("mystery", 30)}));
    const auto onset = r[Stage::Measured][More::FreezingOnset];
    CHECK(onset.bound == Bound::AtMost);
    CHECK(onset.gapLines == 2);
    const auto open = more(shelf(), drink({line("gin", 50), unstated("water", spec::Role::Mixed)}));
    CHECK(open[Stage::Measured][More::FreezingOnset].bound == Bound::Unknown);
}

TEST_CASE("standard drinks are counted by every country with a figure", "[spec][more]") {
    const auto r = shelf().read(drink({line("gin", 50)}));
    const auto list = spec::standardDrinksByCountry(r);
    REQUIRE(list.size() > 5);
    for (const auto& one : list)
        CHECK(one.count.value * one.grams == Approx(r[Stage::Served][Quantity::Ethanol].value));
}

TEST_CASE("every further reading has an id and a source of its own", "[spec][more]") {
    std::vector<std::string_view> ids;
    for (std::size_t i = 0; i < spec::kMoreCount; ++i) {
        ids.push_back(spec::moreId(static_cast<More>(i)));
        CHECK_FALSE(spec::moreSource(static_cast<More>(i)).empty());
    }
    std::sort(ids.begin(), ids.end());
    CHECK(std::adjacent_find(ids.begin(), ids.end()) == ids.end());
}

TEST_CASE("cautions read the temperature and the keeping of a drink", "[spec][more][caution]") {
    const Shelf s = shelf();
    const auto fired = [&](const spec::Spec& d, const spec::CautionContext& context, std::string_view id) {
        const spec::Bindings bindings(d, s.larder, s.rules());
        const auto list = spec::cautions(d, bindings, spec::evaluateWithTemperatures(d, bindings), context);
        return std::any_of(list.begin(), list.end(), [id](const spec::Caution& c) { return c.id == id; });
    };
    auto hot = drink({line("gin", 40), line("water", 200)}, Technique::Hot);
    hot.lines[1].temperatureC = 95;
    CHECK(fired(hot, {}, "scald_65")); // at most so hot, in a mug nobody weighed: it could be
    hot.glassGrams = 2000;
    CHECK_FALSE(fired(hot, {}, "scald_65"));
    hot.glassGrams.reset();
    hot.lines[1].temperatureC = 55;
    CHECK_FALSE(fired(hot, {}, "scald_65"));
    spec::CautionContext kept;
    kept.stored = true;
    const auto thin = drink({line("syrup", 100), line("water", 300)});
    CHECK(fired(thin, kept, "low_acid"));
    CHECK_FALSE(fired(drink({line("lime juice", 300), line("syrup", 100)}), kept, "low_acid"));
    spec::CautionContext copper;
    copper.vessel = "bare_copper";
    CHECK(fired(drink({line("gin", 50), line("lime juice", 30)}), copper, "copper"));
}
