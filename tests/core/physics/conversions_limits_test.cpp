#include "core/exchange/conversion_entry.h"
#include "core/physics/conversions/conversions.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <cmath>

// Where a conversion ends, what it marks there, and what it refuses with which words.

using namespace stillroom;
using namespace stillroom::physics;

namespace {

Converted done(const char* id, const ConversionValues& values) {
    const auto result = convert(*conversion(id), values);
    INFO(id << ": " << (result ? "" : problemText(*conversion(id), result.error())));
    REQUIRE(result);
    return *result;
}

const ConvertedValue* valueOf(const Converted& result, std::string_view key) {
    const auto found = std::find_if(result.values.begin(), result.values.end(),
                                    [&](const ConvertedValue& v) { return v.key == key; });
    return found == result.values.end() ? nullptr : &*found;
}

double value(const Converted& result, std::string_view key) {
    const auto* found = valueOf(result, key);
    INFO(key);
    REQUIRE(found);
    return found->value;
}

ConversionProblem refused(const char* id, const ConversionValues& values) {
    const auto result = convert(*conversion(id), values);
    INFO(id);
    REQUIRE_FALSE(result);
    return result.error();
}

std::string says(const char* id, const ConversionValues& values) {
    return problemText(*conversion(id), refused(id, values));
}

std::string remarks(const Converted& result) {
    std::string all;
    for (const auto& remark : result.remarks)
        all += remark + " ";
    return all;
}

bool has(const std::string& text, std::string_view part) {
    INFO(text << " | " << part);
    return text.find(part) != std::string::npos;
}

std::string word(const char* text) {
    return text;
}

double asWritten(double number, int decimals) {
    const double scale = std::pow(10.0, decimals);
    return std::round(number * scale) / scale;
}

} // namespace

TEST_CASE("a liquid already at the strength wanted is answered", "[conversions]") {
    for (const auto& [abv, sugar] : {std::pair{43.0, 0.0}, {100.0, 0.0}, {22.3, 300.0}}) {
        const auto r = done("dilute", {{"volume", 1000.0}, {"abv", abv}, {"target", abv}, {"sugar", sugar}});
        CHECK(value(r, "water_ml") == Approx(0).margin(1e-9));
        CHECK(value(r, "total") == Approx(1000));
    }
    for (const auto& [one, two, target] :
         {std::tuple{40.0, 96.0, 96.0}, {40.0, 0.0, 40.0}, {40.0, 20.0, 40.0}, {43.0, 20.0, 20.0}}) {
        const auto r = done("blend", {{"abv_1", one}, {"abv_2", two}, {"target", target}});
        CHECK(value(r, "volume_1") == Approx(target == one ? 1000 : 0).margin(1e-6));
        CHECK(value(r, "volume_2") == Approx(target == one ? 0 : 1000).margin(1e-6));
    }
    const auto sweet =
        done("blend", {{"abv_1", 24.0}, {"abv_2", 40.0}, {"target", 24.0}, {"sugar_1", 300.0}});
    CHECK(value(sweet, "sugar") == Approx(300).margin(0.001));
    CHECK(has(says("blend", {{"abv_1", 40.0}, {"abv_2", 40.0}, {"target", 40.0}}), "any share"));
    CHECK(has(says("blend", {{"abv_1", 40.0}, {"abv_2", 40.0}, {"target", 41.0}}), "Both liquids have 40"));
}

TEST_CASE("heavy syrups are marked past the table and refused past saturation", "[conversions]") {
    // The CRC Handbook's sucrose ends at 42 g/100 g, which is 500 g/l.
    CHECK_FALSE(valueOf(done("freezing", {{"sugar", 490.0}}), "onset")->estimate);
    CHECK(valueOf(done("freezing", {{"sugar", 510.0}}), "onset")->estimate);
    const auto heavy = done("freezing", {{"sugar", 850.0}}); // 65 g/100 g
    CHECK(valueOf(heavy, "onset")->estimate);
    CHECK(has(remarks(heavy), "At 0 °C that is more sugar than stays dissolved"));
    CHECK_FALSE(remarks(heavy).find("It stays liquid there") != std::string::npos);
    CHECK_FALSE(valueOf(heavy, "liquid_abv"));
    for (const double sugar : {900.0, 1000.0}) {
        const auto problem = refused("freezing", {{"sugar", sugar}});
        CHECK(problem.key == "sugar");
        CHECK(problem.fault == ConversionFault::OutOfRange);
        CHECK(*problem.high == Approx(891.9).margin(0.2)); // 67.09 g/100 g at 20 °C, Herzfeld 1892
        CHECK(has(says("freezing", {{"sugar", sugar}}), "More sugar than stays dissolved at 20 °C"));
    }
    CHECK(has(says("freezing", {{"sugar", 1300.0}}), "more than ever dissolves"));
    CHECK(has(remarks(done("freezing", {{"abv", 22.0}, {"sugar", 100.0}})), "along with the alcohol"));
    CHECK_FALSE(remarks(done("freezing", {{"abv", 22.0}})).find("along with") != std::string::npos);
}

TEST_CASE("what no water dissolves is refused and what crystallises is said", "[conversions]") {
    CHECK(refused("water_activity", {{"sucrose", 99.0}}).key == "sucrose");
    CHECK(refused("water_activity", {{"glucose", 99.0}}).key == "glucose");
    CHECK(refused("water_activity", {{"salt", 60.0}}).key == "salt");
    CHECK(has(says("water_activity", {{"salt", 60.0}}), "Salt Institute"));
    CHECK(valueOf(done("water_activity", {{"fructose", 50.0}}), "water_activity")->estimate);
    CHECK(valueOf(done("water_activity", {{"sucrose", 70.0}}), "water_activity")->estimate);
    CHECK(has(remarks(done("water_activity", {{"sucrose", 70.0}})), "Herzfeld 1892"));
    CHECK_FALSE(valueOf(done("water_activity", {{"sucrose", 40.0}}), "water_activity")->estimate);
    CHECK(refused("acid_stock", {{"water", 1000.0}, {"citric", 1e6}}).key == "citric");
    CHECK(refused("acid_stock", {{"water", 10.0}, {"citric", 66.0}}).key == "citric");
    CHECK(has(remarks(done("acid_stock", {{"water", 10.0}, {"citric", 20.0}})), "59.2 g is the most"));
    CHECK(has(
        remarks(done("mix", {{"volume_1", 10.0}, {"abv_1", 0.0}, {"volume_2", 1.0}, {"sugar_1", 1000.0}})),
        "More sugar than stays dissolved"));
    CHECK(refused("mix", {{"volume_1", 10.0}, {"abv_1", 0.0}, {"volume_2", 1.0}, {"sugar_1", 1290.0}}).key ==
          "sugar_1");
}

TEST_CASE("what a conversion shows it takes again", "[conversions]") {
    int tried = 0;
    for (const char* id : {"strength", "syrup", "hydrometer", "carbonation", "temperature"}) {
        const Conversion& c = *conversion(id);
        for (const ConversionInput& input : c.inputs) {
            if (input.need != InputNeed::OneOf) continue;
            for (int step = 0; step <= 20; ++step) {
                ConversionValues values{
                    {std::string(input.key), input.low + (input.high - input.low) * step / 20}};
                if (c.id == "hydrometer") values.emplace("t", 12.0);
                const auto first = convert(c, values);
                if (!first) continue; // such as more cups than this sugar makes
                for (const ConvertedValue& shown : first->values) {
                    const auto* other = c.input(shown.key);
                    if (!other || other->need != InputNeed::OneOf) continue;
                    const int decimals = c.output(shown.key)->decimals;
                    ConversionValues back{{std::string(shown.key), asWritten(shown.value, decimals)}};
                    if (c.id == "hydrometer") back.emplace("t", 12.0);
                    const auto again = convert(c, back);
                    INFO(id << " " << input.key << " " << values.begin()->first << " step " << step << ": "
                            << shown.key << " " << shown.value
                            << (again ? "" : problemText(c, again.error())));
                    CHECK(again);
                    if (again)
                        CHECK(value(*again, shown.key) ==
                              Approx(shown.value).margin(1.01 * std::pow(10.0, -decimals)));
                    ++tried;
                }
            }
        }
    }
    CHECK(tried > 1500);
    // A syrup of 85 °Bx in every scale, and pure ethanol in the British one.
    for (const auto& [key, shown] : {std::pair{"refractive_index", 1.504},
                                     {"sugar_g_per_l", 1229.0},
                                     {"parts_weight", 5.667},
                                     {"parts_cup", 6.694},
                                     {"density", 1445.94},
                                     {"relative_density", 1.4485},
                                     {"baume", 44.9}})
        CHECK(value(done("syrup", {{key, shown}}), "brix") == Approx(85).margin(0.03));
    CHECK(value(done("strength", {{"uk_proof", 174.99}}), "abv") == Approx(100).margin(0.01));
    CHECK(conversion("strength")->input("uk_proof")->high < 175.01);
}

TEST_CASE("adding volumes is not said to be too little where it is too much", "[conversions]") {
    const auto weak = done("dilute", {{"volume", 1000.0}, {"abv", 10.0}, {"target", 5.0}});
    CHECK(value(weak, "water_by_sum") == Approx(1000));
    CHECK(value(weak, "water_ml") == Approx(999.2).margin(0.1));
    CHECK_FALSE(conversion("dilute")->output("water_by_sum")->label.find("too little") !=
                std::string_view::npos);
}

TEST_CASE("a hydrometer outside the published table is an estimate", "[conversions]") {
    const auto at = [](double celsius) { return done("hydrometer", {{"reading", 40.0}, {"t", celsius}}); };
    CHECK_FALSE(valueOf(at(10), "abv")->estimate);
    CHECK_FALSE(valueOf(at(37.7), "abv")->estimate);
    for (const double t : {-5.0, 0.5, 38.0, 60.0}) {
        CHECK(valueOf(at(t), "abv")->estimate);
        CHECK(has(remarks(at(t)), "33 to 100 °F"));
    }
    CHECK(has(std::string(conversion("hydrometer")->limits), "up to 1 degree"));
}

TEST_CASE("three figures of a liqueur are held against each other", "[conversions]") {
    const auto sure = done("liqueur_sugar", {{"abv", 25.0}, {"sugar", 200.0}});
    auto all = done("liqueur_sugar", {{"abv", 25.0}, {"sugar", 200.0}, {"density", value(sure, "density")}});
    CHECK(value(all, "density_apart") == Approx(0).margin(1e-6));
    CHECK(has(remarks(all), "The three agree"));
    all = done("liqueur_sugar", {{"abv", 25.0}, {"sugar", 200.0}, {"density", value(sure, "density") + 15}});
    CHECK(value(all, "density_apart") == Approx(15).margin(1e-6));
    CHECK(value(all, "sugar_apart") == Approx(-15 * 2.65).margin(1));
    CHECK(value(all, "abv_apart") > 10);
    CHECK(has(remarks(all), "contradict each other: the density given is 15.00 kg/m³ more"));
    const auto heavy = refused("liqueur_sugar", {{"abv", 40.0}, {"density", 1500.0}});
    CHECK(heavy.low);
    CHECK(heavy.high);
    const auto light = refused("liqueur_sugar", {{"sugar", 300.0}, {"density", 800.0}});
    CHECK(light.low);
    CHECK(light.high);
    CHECK(has(says("strength", {{"density", 1050.0}}), "density must be 789.24 to 998.2 kg/m³"));
    CHECK(has(says("obscuration", {{"abv", 0.0}, {"sugar", 10.0}}), "Without alcohol"));
}

TEST_CASE("a strength that nobody stated gives none", "[conversions]") {
    const auto r = done("dilution_share", {{"volume", 90.0}, {"of_start", 20.0}});
    CHECK_FALSE(valueOf(r, "abv_after"));
    CHECK(valueOf(r, "total")->bound == ValueBound::AtMost);
    CHECK(value(r, "total") == Approx(108).margin(0.01));
    CHECK(valueOf(done("dilution_share", {{"volume", 90.0}, {"abv", 0.0}, {"of_start", 20.0}}), "abv_after"));
}

TEST_CASE("what a measure was taken for is said", "[conversions]") {
    const auto typed = [](const char* id, const exchange::TypedEntries& entries) {
        const auto r = exchange::convertTyped(*conversion(id), entries);
        INFO((r ? "" : problemText(*conversion(id), r.error())));
        REQUIRE(r);
        return *r;
    };
    CHECK(has(remarks(typed("measures", {{"amount", "2 oz"}})), "US fluid ounce, 29.57 ml"));
    CHECK(has(remarks(typed("measures", {{"amount", "1"}, {"from", "pint"}})), "pint_imp, 568.26 ml"));
    CHECK(has(remarks(typed("dilute", {{"volume", "2 oz"}, {"abv", "40"}, {"target", "20"}})),
              "US fluid ounce"));
    CHECK(has(remarks(typed("sugar_to_brix", {{"mass", "2 oz"}, {"target", "20"}})), "by weight, 28.35 g"));
    CHECK(remarks(typed("measures", {{"amount", "2"}, {"from", "floz_us"}})).empty());
    CHECK(remarks(typed("measures", {{"amount", "2"}, {"from", "floz_imp"}})).empty());
    CHECK(remarks(typed("measures", {{"amount", "1 imperial pint"}})).empty());
    CHECK(remarks(typed("dilute", {{"volume", "2 cl"}, {"ABV", "40"}, {"target", "20"}})).empty());
    CHECK(has(std::string(conversion("measures")->limits), "oz alone is taken as floz_us"));
    CHECK(has(says("measures", {{"amount", 2.0}, {"from", word("floz_us")}, {"to", word("g")}}), "oz_mass"));
    // measures.json: a scoop of ice cream, 65 g, 45 to 80; common practice, no source.
    const auto scoop = typed("measures", {{"amount", "1"}, {"from", "scoop"}, {"to", "g"}});
    CHECK(value(scoop, "result") == 65);
    CHECK(value(scoop, "low") == 45);
    CHECK(value(scoop, "high") == 80);
}

TEST_CASE("measures say one density and every digit that counts", "[conversions]") {
    CHECK(refused("measures", {{"amount", 1.0}, {"from", word("lb")}, {"density", 1332.0}, {"brix", 66.7}})
              .key == "brix");
    CHECK(has(remarks(done("measures", {{"amount", 1.0}, {"from", word("cl")}, {"brix", 50.0}})),
              "no density counts"));
    const auto drop = done("measures", {{"amount", 1.0}, {"from", word("drop")}, {"to", word("floz_us")}});
    const auto& output = *conversion("measures")->output("result");
    CHECK(decimalsFor(output, value(drop, "result")) == 6); // 0.001691
    CHECK(decimalsFor(output, 44.36) == 3);
    CHECK(decimalsFor(output, 0) == 3);
    CHECK(decimalsFor(*conversion("dilute")->output("total"), 0.001) == 1);
    CHECK_FALSE(valueOf(done("measures", {{"amount", 1.0}, {"from", word("cl")}}), "ml"));
    CHECK(valueOf(drop, "ml"));
    const auto powers = exchange::convertTyped(*conversion("measures"), {{"amount", "1e3 ml"}, {"to", "l"}});
    REQUIRE(powers);
    CHECK(value(*powers, "result") == 1);
    CHECK(exchange::convertTyped(*conversion("measures"), {{"amount", "1e9"}, {"from", "ml"}}));
    CHECK_FALSE(exchange::convertTyped(*conversion("measures"), {{"amount", "1e999"}, {"from", "ml"}}));
}

TEST_CASE("a mistyped name is met with the one meant", "[conversions]") {
    CHECK(conversionTyped("Strength") == conversion("strength"));
    CHECK_FALSE(conversionTyped("strenght"));
    CHECK(conversionNear("strenght") == "strength");
    CHECK(conversionNear("zzzzzz").empty());
    CHECK(conversion("strength")->inputTyped("ABV") == conversion("strength")->input("abv"));
    CHECK(has(says("strength", {{"abw", 40.0}}), "did you mean abv?"));
    CHECK_FALSE(says("dilute", {{"colour", 1.0}}).find("did you mean") != std::string::npos);
}

TEST_CASE("a further reading past its table carries the mark", "[conversions]") {
    // 450 g of water with 900 g of sugar: 66.7 g/100 g.
    const auto a = done("water_activity", {{"sucrose", 200.0 / 3}});
    CHECK(value(a, "water_activity") == Approx(0.854).margin(0.001));
    CHECK(valueOf(a, "water_activity")->estimate);
}
