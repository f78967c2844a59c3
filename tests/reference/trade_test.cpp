#include "core/larder/servings.h"
#include "core/larder/unit_cost.h"
#include "core/physics/ethanol_water.h"
#include "core/physics/glass_profile.h"
#include "core/quantity/house_measures.h"
#include "core/spec/caution.h"
#include "core/spec/thermal_words.h"
#include "tests/core/spec/builder.h"
#include "tests/reference/published.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <fstream>
#include <map>

// The trade's own figures: measures, yields, glasses, standard drinks, dilution by technique, worked costs.
// Many are common practice without a source, and the report says so.

using namespace stillroom;
using namespace stillroom::test;
using quantity::HouseMeasures;
using quantity::Measure;
using reference::Comparison;
using reference::dataset;
using spec::Quantity;
using spec::Stage;
using spec::Technique;

namespace {

constexpr const char* kFile = "trade";

// Zero inside a published range, else how far outside.
double outside(double value, double low, double high) {
    return std::max({0.0, low - value, value - high});
}

} // namespace

TEST_CASE("Legal measures are the published ones", "[reference][measures]") {
    const std::map<std::string, const char*> ids{{"ml", "ml"},
                                                 {"cl", "cl"},
                                                 {"dl", "dl"},
                                                 {"l", "l"},
                                                 {"us_fl_oz", "floz_us"},
                                                 {"imp_fl_oz", "floz_imp"},
                                                 {"us_tsp", "tsp"},
                                                 {"us_tbsp", "tbsp"},
                                                 {"metric_tsp", "tsp_metric"},
                                                 {"metric_tbsp", "tbsp_metric"},
                                                 {"au_tbsp", "tbsp_au"},
                                                 {"us_cup", "cup"},
                                                 {"metric_cup", "cup_metric"},
                                                 {"us_gill", "gill"},
                                                 {"imp_gill", "gill_imp"},
                                                 {"us_pint", "pint"},
                                                 {"imp_pint", "pint_imp"},
                                                 {"us_quart", "quart"},
                                                 {"imp_quart", "quart_imp"},
                                                 {"us_gal", "gallon"},
                                                 {"imp_gal", "gallon_imp"}};
    Comparison size(kFile, "measures_units", "size of a legal measure, share off", 1e-12);
    std::size_t found = 0;
    for (const auto& row : dataset(kFile, "measures_units")["rows"]) {
        const auto id = ids.find(row[0].get<std::string>());
        if (id == ids.end()) continue; // label ounces, drams, rice cups: not read by the program
        ++found;
        const auto measure = quantity::measureFromId(id->second);
        REQUIRE(measure);
        size.add(*HouseMeasures::defaults().ml(*measure) / row[1].get<double>(), 1, row.dump());
    }
    size.check();
    CHECK(found == ids.size());
}

TEST_CASE("House measures and counts are the trade's with its ranges", "[reference][measures]") {
    const auto& house = HouseMeasures::defaults();
    const std::map<std::string, Measure> terms{{"jigger_us", Measure::Jigger},
                                               {"pony_us", Measure::Pony},
                                               {"bar_spoon", Measure::Barspoon},
                                               {"dash", Measure::Dash},
                                               {"drop", Measure::Drop},
                                               {"splash", Measure::Splash},
                                               {"dropper", Measure::Dropper},
                                               {"spray", Measure::Spray},
                                               {"shot", Measure::Shot},
                                               {"wineglass", Measure::Wineglass},
                                               {"dessertspoon", Measure::Dessertspoon}};
    Comparison typical(kFile, "measures_bar_terms", "size of a house measure, ml", 1e-6);
    Comparison range(kFile, "measures_bar_terms", "ends of its range, ml", 0.05);
    std::size_t found = 0;
    for (const auto& row : dataset(kFile, "measures_bar_terms")["rows"]) {
        if (row[0] == "rinse") typical.add(house.rinseRetainedMl.typical, row[1], row.dump());
        const auto term = terms.find(row[0].get<std::string>());
        if (term == terms.end()) continue;
        ++found;
        const auto& size = house.volumesMl.at(term->second);
        typical.add(size.typical, row[1], row.dump());
        range.add(size.low, row[2][0], row.dump());
        range.add(size.high, row[2][1], row.dump());
    }
    CHECK(found == terms.size());
    typical.check();
    range.check();

    const std::map<std::string, const char*> counted{{"sugar cube (US)", "sugar cube"},
                                                     {"demerara cube (rough cut)", "demerara sugar cube"},
                                                     {"egg white, large US egg", "egg white"},
                                                     {"egg yolk, large US egg", "egg yolk"},
                                                     {"whole egg, large US (edible part)", "whole egg"}};
    Comparison mass(kFile, "measures_masses", "mass of a counted thing, g", 1e-9);
    found = 0;
    for (const auto& row : dataset(kFile, "measures_masses")["rows"]) {
        const auto name = counted.find(row[0].get<std::string>());
        if (name == counted.end()) continue; // cups of food: the handbook's densities hold them
        ++found;
        mass.add(house.countG.at(name->second).typical, row[1], row.dump());
    }
    CHECK(found == counted.size());
    mass.check();

    // The typical is the trade's rule for limes and the USDA's mean for the others; either lies in the range.
    Comparison juice(kFile, "measures_citrus_yield", "juice of one fruit outside the published figures, ml",
                     0);
    for (const auto& row : dataset(kFile, "measures_citrus_yield")["rows"]) {
        const auto& size = house.countMl.at(row[0].get<std::string>() + " juice");
        const double low = std::min(row[1].get<double>(), row[2].get<double>());
        const double high = std::max(row[1].get<double>(), row[3].get<double>());
        juice.add(outside(size.typical, low, high), 0, row.dump());
        juice.add(outside(size.low, low, high), 0, row.dump());
        juice.add(outside(size.high, low, high), 0, row.dump());
    }
    juice.check();
}

TEST_CASE("Ice named by its edge weighs what the trade's table says", "[reference][measures]") {
    Comparison mass(kFile, "measures_ice", "g of one piece by its edge", 0.06);
    for (const auto& row : dataset(kFile, "measures_ice")["rows"]) {
        const bool sphere = row[0].get<std::string>().rfind("sphere", 0) == 0;
        const std::string words = "one " + row[1].dump() + (sphere ? " mm sphere" : " mm cube");
        const auto grams = spec::iceGramsOfWords(words);
        REQUIRE(grams);
        mass.add(*grams, row[2], row.dump());
    }
    mass.check();
}

TEST_CASE("Glasses hold what such glasses are made to hold", "[reference][measures]") {
    const std::map<std::string, const char*> shapes{{"coupe", "coupe"},
                                                    {"cocktail (V-shaped)", "v_glass"},
                                                    {"rocks / old-fashioned", "tumbler_low"},
                                                    {"double rocks", "tumbler_double"},
                                                    {"highball", "highball"},
                                                    {"collins", "collins"},
                                                    {"flute", "flute"},
                                                    {"wine, white", "wine_white"},
                                                    {"wine, red / balloon", "wine_red"},
                                                    {"hurricane", "hurricane"},
                                                    {"heatproof mug with handle", "mug_heatproof"},
                                                    {"julep cup", "julep_cup"},
                                                    {"punch cup", "punch_cup"},
                                                    {"shot", "shot"},
                                                    {"snifter", "snifter"},
                                                    {"pint (UK brim measure)", "pint_imp"},
                                                    {"pint (US)", "pint_us"}};
    Comparison brim(kFile, "measures_glasses", "brim outside the usual sizes, ml", 0.1);
    std::size_t found = 0;
    for (const auto& row : dataset(kFile, "measures_glasses")["rows"]) {
        const auto shape = shapes.find(row[0].get<std::string>());
        if (shape == shapes.end()) continue;
        ++found;
        const auto* glass = physics::glassProfile(shape->second);
        REQUIRE(glass != nullptr);
        brim.add(outside(glass->brim().ml(), row[1], row[2]), 0, row.dump());
    }
    CHECK(found == shapes.size());
    brim.check();
}

TEST_CASE("Standard drinks are the published ones of every country", "[reference][energy]") {
    Comparison grams(kFile, "servings_standard_drinks", "g of ethanol in a standard drink", 0.005);
    std::size_t without = 0;
    for (const auto& row : dataset(kFile, "servings_standard_drinks")["rows"]) {
        const std::string country = row[0];
        const auto& all = larder::standardDrinks();
        const auto found = std::find_if(all.begin(), all.end(), [&](const larder::StandardDrink& drink) {
            return country.rfind(drink.name, 0) == 0 || drink.name.rfind(country, 0) == 0 ||
                   (drink.code == "WHO" && country.rfind("WHO", 0) == 0);
        });
        INFO(country);
        REQUIRE(found != all.end());
        if (row[1].is_null()) {
            CHECK_FALSE(found->grams);
            ++without;
        } else {
            grams.add(*found->grams, row[1], row.dump());
        }
    }
    CHECK(without == 3);
    grams.check();
    Comparison ethanol(kFile, "servings_ethanol", "g/ml of ethanol at 20 C", 1e-9);
    ethanol.add(physics::kEthanolKgPerM3At20 / 1000, dataset(kFile, "servings_ethanol")["rows"][0][0]);
    ethanol.check();
}

// The figures in use against what the trade says of each technique: the curves at 32 and 24 % vol.
TEST_CASE("Predicted dilutions lie in the ranges of their techniques", "[reference][dilution]") {
    Shelf s;
    s.put("strong", {{32}, {0}, {0}}).put("weak", {{24}, {0}, {0}});
    const auto dilution = [&s](const char* name, Technique technique, const char* ice) {
        auto d = drink({line(name, 90)}, technique);
        d.method.ice = ice;
        return s.read(d)[Stage::Mixed][Quantity::Dilution].value;
    };
    const std::map<std::string, double> used{
        {"build", dilution("strong", Technique::Build, "cubes")},
        {"stir", dilution("strong", Technique::Stir, "cubes")},
        {"shake", dilution("weak", Technique::Shake, "cubes")},
        {"whip_shake", dilution("weak", Technique::Whip, "a little ice")},
        {"throw", dilution("strong", Technique::Throw, "cubes")},
        {"swizzle", dilution("weak", Technique::Build, "crushed ice")}};
    Comparison ratio(kFile, "techniques_dilution", "dilution outside its technique's range", 0);
    std::size_t found = 0;
    for (const auto& row : dataset(kFile, "techniques_dilution")["rows"]) {
        const auto mine = used.find(row[0].get<std::string>());
        if (mine == used.end()) continue; // rolling and dry shakes are no techniques of their own here
        ++found;
        ratio.add(outside(mine->second, row[1], row[2]), 0, row.dump());
    }
    CHECK(found == used.size());
    ratio.check();
}

TEST_CASE("Worked costs of the trade pages come out", "[reference][cost]") {
    const auto& rows = dataset(kFile, "costing_worked_costs")["rows"];
    REQUIRE(rows.size() == 3);
    const auto usd = *quantity::Currency::fromCode("USD");
    const auto pour = [usd](const char* price, double ml, double pouredMl) {
        larder::Pack pack;
        pack.price = *quantity::Money::fromText(price, usd);
        pack.forMl = ml;
        const auto cost = larder::costOfAmount(*larder::costRate(pack), *larder::exactOf(pouredMl));
        REQUIRE(cost);
        return cost->major();
    };
    constexpr double kFlozMl = 29.5735295625;
    Comparison cost(kFile, "costing_worked_costs", "cost of a pour and its price, in money", 0.00005);
    const double ounce = pour("22.00", 25 * kFlozMl, kFlozMl);
    cost.add(ounce, rows[0][1]["cost_per_oz"], "an ounce");
    cost.add(ounce * 100 / 20, rows[0][1]["price"], "at 20 %");
    const double bottle = pour("24.00", 24, 1); // a case of 24: by the piece
    cost.add(bottle, rows[1][1]["cost"], "a bottle");
    cost.add(bottle * 100 / 25, rows[1][1]["price"], "at 25 %");
    cost.add(pour("20.00", 750, 2 * kFlozMl), rows[2][1]["exact"], "two ounces");
    cost.check();
    CHECK(rows[2][1]["published_with_25_oz_bottle"].get<double>() - pour("20.00", 750, 2 * kFlozMl) >
          0.02); // the page's 1.60 counts 25 ounces to the bottle
}

TEST_CASE("Every published caution and allergen is carried", "[reference][safety]") {
    const auto& allergens = spec::euAllergens();
    const auto& fourteen = dataset(kFile, "safety_eu14")["rows"];
    Comparison count(kFile, "safety_eu14", "allergens of the EU list", 0);
    count.add(static_cast<double>(allergens.size()), static_cast<double>(fourteen.size()));
    count.check();
    for (std::size_t i = 0; i < std::min(allergens.size(), fourteen.size()); ++i) {
        const std::string published = fourteen[i][0];
        INFO(allergens[i].name << " against " << published);
        // The same thing in the same place: the first letters of the two names.
        CHECK(allergens[i].name.substr(0, 3) == published.substr(0, 3));
    }
    const auto handbook =
        nlohmann::json::parse(std::ifstream(STILLROOM_SOURCE_DIR "/resources/handbook/safety.json"));
    Comparison missing(kFile, "safety_cautions", "published cautions not carried, or milder", 0);
    std::size_t absent = 0;
    for (const auto& row : dataset(kFile, "safety_cautions")["rows"]) {
        const auto& all = handbook["cautions"];
        const auto found = std::find_if(all.begin(), all.end(), [&](const nlohmann::json& caution) {
            return caution["id"] == row[0] && caution["severity"] == row[1];
        });
        if (found == all.end()) {
            ++absent;
            CAPTURE(row.dump());
            CHECK(found != all.end());
        }
    }
    missing.add(static_cast<double>(absent), 0);
    missing.check();
}

// The caution's own threshold is the source's: 65 °C, Group 2A.
TEST_CASE("Hot drinks are cautioned where the sources draw the line", "[reference][safety]") {
    Shelf s;
    s.put("water", {{0}, {0}, {0}});
    const auto scalds = [&s](double celsius) {
        auto d = drink({line("water", 200)}, Technique::Hot);
        d.lines[0].temperatureC = celsius;
        const spec::Bindings bindings(d, s.larder, s.rules());
        const auto list = spec::cautions(d, bindings, spec::evaluateWithTemperatures(d, bindings));
        return std::any_of(list.begin(), list.end(),
                           [](const spec::Caution& c) { return c.id == "scald_65"; });
    };
    double line = 0;
    for (double celsius = 40; celsius <= 95 && line == 0; celsius += 0.25)
        if (scalds(celsius)) line = celsius;
    Comparison caution(kFile, "servings_temperature", "first temperature with a scald caution, C", 0.3);
    caution.add(line, 65, "IARC Monographs vol. 116");
    caution.check();
    bool named = false;
    for (const auto& row : dataset(kFile, "servings_temperature")["rows"])
        named = named || row[0].get<std::string>().find("above 65 C") != std::string::npos;
    CHECK(named);
}
