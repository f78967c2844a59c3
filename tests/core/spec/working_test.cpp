#include "core/spec/calibration.h"
#include "core/spec/working.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <random>

using namespace stillroom;
using namespace stillroom::test;
using quantity::Measure;
using quantity::Rational;
using spec::Bound;
using spec::Quantity;
using spec::Stage;
using spec::Technique;
using spec::WorkingStep;

namespace {

Shelf shelf() {
    Shelf s;
    s.putPriced("gin", {{43}, {0}, {0}}, 2199, 700)
        .putPriced("liqueur", {{24}, {320}, {0}}, 1899, 700)
        .putPriced("wine", {{16}, {150}, {4.5}}, 949, 750)
        .putPriced("lemon juice", {{0}, {16}, {60}}, 650, 1000)
        .putPriced("syrup", {{0}, {615}, {0}}, 120, 810)
        .putPriced("water", {{0}, {0}, {0}}, 1, 1000)
        .putDry("sugar", 1000, 0, 0.85)
        .put("no strength", {{}, {0}, {0}})
        .put("no acid", {{0}, {100}, {}});
    return s;
}

const char* const kNames[] = {"gin",   "liqueur", "wine",        "lemon juice",
                              "syrup", "water",   "no strength", "no acid"};

spec::Spec randomDrink(std::mt19937& random) {
    const auto below = [&random](unsigned n) { return static_cast<int>(random() % n); };
    spec::Spec d;
    const int n = 1 + below(5);
    for (int i = 0; i < n; ++i) {
        constexpr spec::Role kRoles[] = {spec::Role::Mixed, spec::Role::Mixed, spec::Role::Mixed,
                                         spec::Role::Topped, spec::Role::Rinse};
        // The open ones seldom.
        const auto name = kNames[below(below(4) == 0 ? 8 : 6)];
        d.lines.push_back(line(name, *Rational::make(1 + below(300), 4), Measure::Ml, kRoles[below(5)]));
        if (below(12) == 0) d.lines.back() = ranged("syrup", 5, 9);
        if (below(12) == 0) d.lines.back() = unstated("water");
        if (below(6) == 0) d.lines.back().temperatureC = below(80);
    }
    if (below(5) == 0) d.lines.push_back(line("sugar", 8, Measure::G));
    d.method.technique = static_cast<Technique>(below(11));
    if (below(3) == 0) d.method.dilutionModel = spec::DilutionModel::Balance;
    if (below(5) == 0)
        d.method.dilution = spec::DilutionEntry{0.3, spec::DilutionOrigin::Measured, "weighed"};
    if (below(4) == 0) d.glassGrams = 200;
    if (below(4) == 0) d.method.vessel = "steel_tins";
    d.serves = 1 + below(3);
    return d;
}

// Sums, ratios and products are what they say of the numbers shown.
void checkStep(const WorkingStep& step) {
    INFO(step.label);
    double value = 0;
    switch (step.op) {
    case WorkingStep::Op::Sum:
        for (const auto& input : step.inputs)
            value += input.value;
        value *= step.factor;
        break;
    case WorkingStep::Op::Ratio:
        REQUIRE(step.inputs.size() == 2);
        value = step.factor * step.inputs[0].value / step.inputs[1].value;
        break;
    case WorkingStep::Op::Product:
        value = step.factor;
        for (const auto& input : step.inputs)
            value *= input.value;
        break;
    default:
        return;
    }
    CHECK(step.result == Approx(value).epsilon(1e-9).margin(1e-9));
}

} // namespace

TEST_CASE("every working ends in its reading and its sums add up", "[spec][working]") {
    const Shelf s = shelf();
    std::mt19937 random(11);
    spec::HouseRules rules = s.rules();
    int valued = 0;
    for (int round = 0; round < 120; ++round) {
        const auto d = randomDrink(random);
        if (round == 60)
            rules.bench = spec::benchCalibration(std::vector<spec::DilutionObservation>{
                {Technique::Shake, 0.5, 0.55}, {Technique::Stir, 0.4, 0.38}, {Technique::Build, 0.24, 0.3}});
        const spec::Bindings bindings(d, s.larder, rules);
        const auto readings = spec::evaluateWithTemperatures(d, bindings);
        for (std::size_t st = 0; st < spec::kStageCount; ++st)
            for (std::size_t q = 0; q < spec::kQuantityCount; ++q) {
                const auto stage = static_cast<Stage>(st);
                const auto quantity = static_cast<Quantity>(q);
                INFO(round << " " << spec::stageId(stage) << " " << spec::quantityId(quantity));
                const auto w = spec::working(d, bindings, quantity, stage);
                CHECK(w.reading == readings[stage][quantity]);
                const bool open =
                    w.reading.bound == Bound::Unknown || w.reading.bound == Bound::NotApplicable;
                CHECK(w.steps.empty() == open);
                if (open) continue;
                CHECK(w.steps.back().result == w.reading.value);
                for (const auto& step : w.steps)
                    checkStep(step);
                ++valued;
            }
    }
    CHECK(valued > 3000);
}

TEST_CASE("a working names its formulas and the source of its facts", "[spec][working]") {
    const Shelf s = shelf();
    const auto d = drink({line("gin", 60), line("lemon juice", 30), line("syrup", 20)}, Technique::Shake);
    const spec::Bindings bindings(d, s.larder, s.rules());
    const auto text = spec::workingText(spec::working(d, bindings, Quantity::Strength, Stage::Mixed));
    for (const char* word : {"OIML R 22", "ICUMSA SPS-4", "from memory", "label", "gin", "0.9982", "% vol"}) {
        INFO(word);
        CHECK(text.find(word) != std::string::npos);
    }
    const auto energy = spec::workingText(spec::working(d, bindings, Quantity::EnergyKj, Stage::Served));
    CHECK(energy.find("1169/2011") != std::string::npos);
}

TEST_CASE("a working says what is open and what is left out", "[spec][working]") {
    const Shelf s = shelf();
    auto d = drink({line("gin", 60), line("no strength", 30), line("syrup", 10)});
    d.lines[2].optional = true;
    const spec::Bindings bindings(d, s.larder, s.rules());
    const auto w = spec::working(d, bindings, Quantity::Strength, Stage::Measured);
    CHECK(w.reading.bound == Bound::AtLeast);
    REQUIRE_FALSE(w.steps.empty());
    CHECK(w.steps.back().op == WorkingStep::Op::Bound);
    REQUIRE(w.steps.back().inputs.size() == 1);
    CHECK(w.steps.back().inputs[0].line == 1);
    const auto text = spec::workingText(w);
    CHECK(text.find("At least") != std::string::npos);
    CHECK(text.find("syrup (optional)") != std::string::npos);
}

TEST_CASE("every further reading has a working that ends in it and sums that add up",
          "[spec][working][more]") {
    Shelf s = shelf();
    larder::Ingredient soda = s.ingredient("soda");
    soda.facts = factsOf({{0}, {0}, {0}});
    soda.facts.co2GPerL = fact(7);
    s.larder.put(soda);
    larder::Ingredient coffee = s.ingredient("coffee");
    coffee.facts = factsOf({{0}, {0}, {0}});
    coffee.facts.caffeineMgPerL = fact(2000);
    s.larder.put(coffee);
    std::mt19937 random(12);
    std::array<int, spec::kMoreCount> valued{};
    for (int round = 0; round < 60; ++round) {
        auto d = randomDrink(random);
        if (round % 3 == 0) d.lines.push_back(line("soda", 60, Measure::Ml, spec::Role::Topped));
        if (round % 4 == 0) d.lines.push_back(line("coffee", 30));
        if (round % 5 == 0) d = drink({line("lemon juice", 20), line("syrup", 20), line("water", 40)});
        if (round == 1) {
            d = drink({line("gin", 60), line("water", 40)}, Technique::Carbonate);
            d.method.text = "carbonate at 2.4 bar and 4 °C";
        }
        const spec::Bindings bindings(d, s.larder, s.rules());
        const auto readings = spec::moreReadings(d, bindings);
        for (std::size_t st = 0; st < spec::kStageCount; ++st)
            for (std::size_t m = 0; m < spec::kMoreCount; ++m) {
                const auto stage = static_cast<Stage>(st);
                const auto more = static_cast<spec::More>(m);
                INFO(round << " " << spec::stageId(stage) << " " << spec::moreId(more));
                const auto w = spec::working(d, bindings, more, stage);
                CHECK(w.reading == readings[stage][more]);
                const bool open =
                    w.reading.bound == Bound::Unknown || w.reading.bound == Bound::NotApplicable;
                CHECK(w.steps.empty() == open);
                if (open) continue;
                CHECK(w.steps.back().result == w.reading.value);
                CHECK(spec::workingText(w).find(std::string(spec::moreId(more))) == 0);
                for (const auto& step : w.steps)
                    checkStep(step);
                ++valued[m];
            }
    }
    for (std::size_t m = 0; m < spec::kMoreCount; ++m) {
        INFO(spec::moreId(static_cast<spec::More>(m)));
        CHECK(valued[m] > 5);
    }
}

TEST_CASE("strength by heat or flame says that lost alcohol is not modelled", "[spec][working]") {
    const Shelf s = shelf();
    const auto says = [&s](const spec::Spec& d, Quantity quantity, Stage stage) {
        const spec::Bindings bindings(d, s.larder, s.rules());
        return spec::workingText(spec::working(d, bindings, quantity, stage))
                   .find("evaporates is not modelled") != std::string::npos;
    };
    const auto hot = drink({line("gin", 50), line("water", 100)}, Technique::Hot);
    CHECK(says(hot, Quantity::Strength, Stage::Mixed));
    CHECK(says(hot, Quantity::StandardDrinks, Stage::Served));
    CHECK_FALSE(says(hot, Quantity::Strength, Stage::Measured));
    CHECK_FALSE(says(hot, Quantity::Sugar, Stage::Served));
    auto lit = drink({line("gin", 50), line("water", 100)}, Technique::Build);
    CHECK_FALSE(says(lit, Quantity::Strength, Stage::Served));
    lit.method.text = "Set alight, then put it out with a lid.";
    CHECK(says(lit, Quantity::Strength, Stage::Served));
}

TEST_CASE("the temperature of a hot drink stands beside the published band and the scald figures",
          "[spec][working]") {
    Shelf s = shelf();
    auto d = drink({line("gin", 30), line("water", 150)}, Technique::Hot);
    d.lines[1].temperatureC = 90;
    const spec::Bindings bindings(d, s.larder, s.rules());
    const auto w = spec::working(d, bindings, Quantity::Temperature, Stage::Served);
    REQUIRE(w.reading.value > 65);
    const auto text = spec::workingText(w);
    // resources/handbook/safety.json: Abraham and Diller 2019, Brown and Diller 2008; Moritz and Henriques
    // 1947
    CHECK(text.find("54-71 °C") != std::string::npos);
    CHECK(text.find("60 °C 5 s") != std::string::npos);
    CHECK(text.find("Moritz and Henriques") != std::string::npos);
    d.lines[1].temperatureC = 5;
    const spec::Bindings cold(d, s.larder, s.rules());
    const auto cool = spec::workingText(spec::working(d, cold, Quantity::Temperature, Stage::Served));
    CHECK(cool.find("Moritz") == std::string::npos);
}
