#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

#include <cmath>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>

using namespace stillroom;
using namespace stillroom::test;
using quantity::Measure;
using quantity::Rational;
using spec::Quantity;
using spec::Stage;
using spec::Technique;

namespace {

Rational thousandths(double value) {
    return *Rational::make(std::llround(value * 1000), 1000);
}

// A drink of tests/reference/data/worked-drinks.json: lines given as ml with % vol, sugar and acid in
// g/100 ml. Names are the file's; nothing of it is a published recipe.
struct Worked {
    Shelf shelf;
    spec::Spec drink;

    void add(const nlohmann::json& input, spec::Role role) {
        const auto& given = input.at("given");
        const auto name = input.at("name").get<std::string>();
        shelf.put(name,
                  {given.value("abv", 0.0), 10 * given.value("sugar", 0.0), 10 * given.value("acid", 0.0)});
        drink.lines.push_back(line(name, thousandths(given.at("ml").get<double>()), Measure::Ml, role));
    }
};

// Tolerances: the file's own, worked-drinks.json "tolerance".
void check(const spec::StageReadings& r, const nlohmann::json& expected) {
    CHECK(r[Quantity::Volume].value == Approx(expected.at("volume_mL").get<double>()).margin(0.02));
    CHECK(r[Quantity::Mass].value == Approx(expected.at("mass_g").get<double>()).margin(0.01));
    CHECK(r[Quantity::Density].value == Approx(expected.at("density_kg_m3").get<double>()).margin(0.05));
    CHECK(r[Quantity::Strength].value == Approx(expected.at("abv_percent").get<double>()).margin(0.005));
    CHECK(r[Quantity::Sugar].value == Approx(expected.at("sugar_g_100mL").get<double>()).margin(0.005));
    CHECK(r[Quantity::Acid].value == Approx(expected.at("acid_g_100mL").get<double>()).margin(0.005));
    CHECK(r[Quantity::Brix].value == Approx(expected.at("brix_true_g_100g").get<double>()).margin(0.005));
}

} // namespace

// worked-drinks.json, computed for this project by separate code from the published tables.
TEST_CASE("the worked drinks read as worked", "[spec][reference]") {
    std::ifstream file(STILLROOM_SOURCE_DIR "/tests/reference/data/worked-drinks.json");
    const auto examples = nlohmann::json::parse(file).at("examples");
    const std::map<std::string, Technique> chosen{{"W01", Technique::Shake},
                                                  {"W02", Technique::Stir},
                                                  {"W05", Technique::Build},
                                                  {"W06", Technique::Shake}};
    std::size_t seen = 0;
    for (const auto& example : examples) {
        const auto found = chosen.find(example.at("id").get<std::string>());
        if (found == chosen.end()) continue;
        ++seen;
        INFO(found->first);
        Worked worked;
        for (const auto& input : example.at("inputs"))
            worked.add(input, spec::Role::Mixed);
        if (example.contains("topped"))
            for (const auto& input : example.at("topped"))
                worked.add(input, spec::Role::Topped);
        worked.drink.method.technique = found->second;
        const auto r = worked.shelf.read(worked.drink);
        check(r[Stage::Measured], example.at("measured"));
        check(r[Stage::Mixed], example.at("mixed"));
        if (example.contains("served")) check(r[Stage::Served], example.at("served"));
        CHECK(r[Stage::Mixed][Quantity::Dilution].value ==
              Approx(example.at("dilution").at("dilution_ratio").get<double>()).margin(0.0005));
        const auto& serve = example.at("per_serve");
        const auto& served = r[Stage::Served];
        CHECK(served[Quantity::Ethanol].value == Approx(serve.at("ethanol_g").get<double>()).margin(0.01));
        CHECK(served[Quantity::EnergyKj].value == Approx(serve.at("energy_kJ").get<double>()).margin(0.5));
        CHECK(served[Quantity::EnergyKcal].value ==
              Approx(serve.at("energy_kcal").get<double>()).margin(0.2));
        // The default house counts drinks of 10 g, as Australia does.
        CHECK(served[Quantity::StandardDrinks].value ==
              Approx(serve.at("au_standard_drinks").get<double>()).margin(0.003));
    }
    CHECK(seen == chosen.size());
}

// "Ten facts worth testing against" of the list of bartenders' needs, each with its number there.
TEST_CASE("fact 4 and 5: what water does to a strength", "[spec][reference]") {
    Shelf shelf;
    shelf.put("mix", {{30}, {0}, {0}}).put("strong", {{40}, {0}, {0}}).put("weak", {{16}, {0}, {0}});
    const auto thinned = [&](double ratio) {
        auto d = drink({line("mix", 90)}, Technique::Build);
        d.method.dilution = spec::DilutionEntry{ratio, spec::DilutionOrigin::Typed, ""};
        return shelf.read(d)[Stage::Mixed][Quantity::Strength].value;
    };
    // 90 ml at 30 % with 18 ml of water is 25.0 %, with 22.5 ml 24.0 %, by adding volumes; contraction adds
    // under 0.2.
    CHECK(thinned(0.20) == Approx(25.0).margin(0.2));
    CHECK(thinned(0.25) == Approx(24.0).margin(0.2));
    // 2 floz at 40 % and 1 floz at 16 %: 32 % before water; with 42 % of its volume in water 22.5 %.
    auto d = drink({line("strong", 2, Measure::FlozUs), line("weak", 1, Measure::FlozUs)}, Technique::Stir);
    const auto r = shelf.read(d);
    CHECK(r[Stage::Measured][Quantity::Strength].value == Approx(32.0).margin(0.2));
    CHECK(r[Stage::Mixed][Quantity::Dilution].value == Approx(0.42).margin(0.005));
    CHECK(r[Stage::Mixed][Quantity::Strength].value == Approx(22.5).margin(0.2));
}

TEST_CASE("fact 3 and 6: bringing a spirit down", "[spec][reference]") {
    Shelf shelf;
    shelf.put("spirit", {{50}, {0}, {0}}).put("water", {{0}, {0}, {0}}).put("infusion", {{53}, {0}, {0}});
    // 1.75 l at 50 % with 1,181 ml of water is 2,917 ml at 30 %.
    auto r = shelf.read(drink({line("spirit", 1750), line("water", 1181)}));
    CHECK(r[Stage::Measured][Quantity::Volume].value == Approx(2917).margin(1));
    CHECK(r[Stage::Measured][Quantity::Strength].value == Approx(30.0).margin(0.02));
    // 750 ml at 53 % with 100 ml without alcohol is 46.8 % by volumes, and a little more after contraction.
    r = shelf.read(drink({line("infusion", 750), line("water", 100)}));
    CHECK(r[Stage::Measured][Quantity::Strength].value == Approx(46.8).margin(0.4));
    CHECK(r[Stage::Measured][Quantity::Strength].value > 46.76);
}

TEST_CASE("needs no 34: the same grams are more drinks in one country than in another", "[spec][reference]") {
    Shelf shelf;
    shelf.put("spirit", {{40}, {0}, {0}}).put("wine", {{16}, {0}, {0}});
    const auto d = drink({line("spirit", 60), line("wine", 30)}, Technique::Stir);
    // 28.8 ml of ethanol is 22.7 g: 1.6 US drinks of 14 g, 2.3 of 10 g, 2.9 (2.84 by mass) UK units of 8 g.
    const auto drinksOf = [&](double grams) {
        spec::HouseRules rules;
        rules.standardDrinkGrams = grams;
        const auto r = spec::evaluate(d, shelf.larder, rules);
        CHECK(r.standardDrinkGrams == grams);
        return r[Stage::Served][Quantity::StandardDrinks].value;
    };
    CHECK(drinksOf(14) == Approx(1.62).margin(0.01));
    CHECK(drinksOf(10) == Approx(2.27).margin(0.01));
    CHECK(drinksOf(8) == Approx(2.84).margin(0.01));
}

TEST_CASE("worked costs come out to the cent they are worked to", "[spec][reference]") {
    // costing, worked_costs: 20.00 for 750 ml; a pour of 2 US floz costs 1.5773.
    Shelf shelf;
    shelf.putPriced("spirit", {{40}, {0}, {0}}, 2000, 750);
    const auto r = shelf.read(drink({line("spirit", 2, Measure::FlozUs)}));
    CHECK(r[Stage::Served][Quantity::Cost].value == Approx(1.577255).margin(1e-9));
    // needs no. 17: 750 ml at 30 is 1.18 a US floz.
    shelf.putPriced("other", {{40}, {0}, {0}}, 3000, 750);
    CHECK(shelf.read(drink({line("other", 1, Measure::FlozUs)}))[Stage::Served][Quantity::Cost].value ==
          Approx(1.18).margin(0.005));
}
