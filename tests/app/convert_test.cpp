#include "tests/app/run_program.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

#include <set>

using namespace stillroom::tests;
using nlohmann::json;

namespace {

json parsed(const ProgramRun& run) {
    INFO(run.err);
    const auto value = json::parse(run.out, nullptr, false);
    REQUIRE_FALSE(value.is_discarded());
    return value;
}

std::set<std::string> keysOf(const json& object) {
    std::set<std::string> keys;
    for (const auto& [key, value] : object.items())
        keys.insert(key);
    return keys;
}

} // namespace

TEST_CASE("the list names each conversion with inputs units and source", "[app][convert]") {
    const auto run = runProgram({"convert", "--list"});
    CHECK(run.exitCode == 0);
    CHECK(run.err.empty());
    const auto all = parsed(runProgram({"convert", "--list", "--json"}));
    REQUIRE(all["conversions"].size() >= 20);
    for (const json& conversion : all["conversions"]) {
        const std::string name = conversion["name"];
        INFO(name);
        CHECK(keysOf(conversion) == std::set<std::string>{"name", "title", "one_of_count", "inputs",
                                                          "outputs", "source", "limits"});
        CHECK(("\n\n" + run.out).find("\n\n" + name + "\n") != std::string::npos);
        for (const json& input : conversion["inputs"]) {
            INFO(input["key"]);
            auto expected = std::set<std::string>{"key", "label", "unit", "need", "default"};
            if (input.contains("choices"))
                expected.insert("choices");
            else
                expected.insert({"low", "high", "above_low"});
            CHECK(keysOf(input) == expected);
            CHECK(run.out.find("    " + input["key"].get<std::string>() + ": ") != std::string::npos);
        }
        for (const json& output : conversion["outputs"])
            CHECK(keysOf(output) == std::set<std::string>{"key", "label", "unit", "decimals"});
    }
}

TEST_CASE("a conversion prints figures with units and source", "[app][convert]") {
    const auto run = runProgram({"convert", "dilute", "volume=1750", "abv=50", "target=30"});
    CHECK(run.exitCode == 0);
    CHECK(run.err.empty());
    CHECK(run.out.find("1180.8 ml") != std::string::npos);
    CHECK(run.out.find("Source: OIML R 22") != std::string::npos);
}

TEST_CASE("a conversion as JSON holds what it took and what it gives", "[app][convert]") {
    const auto run = runProgram({"convert", "strength", "us_proof=100", "--json"});
    CHECK(run.exitCode == 0);
    const auto result = parsed(run);
    CHECK(keysOf(result) == std::set<std::string>{"name", "inputs", "values", "remarks", "source", "limits"});
    CHECK(result["name"] == "strength");
    CHECK(result["inputs"] == json({{"us_proof", 100.0}, {"t", 20.0}}));
    CHECK(keysOf(result["values"]["abv"]) == std::set<std::string>{"value", "unit", "bound", "estimate"});
    // 27 CFR 30.11: 50 % vol at 60 °F is 50.061 % vol at 20 °C.
    CHECK(result["values"]["abv"]["value"].get<double>() == Approx(50.061).margin(0.001));
    CHECK(result["values"]["abv"]["unit"] == "% vol");
    CHECK(result["values"]["abv"]["bound"] == "exact");
    CHECK(result["values"]["abv"]["estimate"] == false);
}

TEST_CASE("people's numbers and units are taken", "[app][convert]") {
    const auto value = [](const std::vector<std::string>& arguments, const char* key) {
        auto all = arguments;
        all.insert(all.begin(), "convert");
        all.push_back("--json");
        const auto run = runProgram(all);
        INFO(run.err);
        REQUIRE(run.exitCode == 0);
        return parsed(run)["values"][key]["value"].get<double>();
    };
    CHECK(value({"dilute", "volume=45 ml", "abv=40", "target=22,5"}, "total") == Approx(80).margin(0.01));
    CHECK(value({"dilute", "volume=1/2 l", "abv=40 %", "target=20"}, "total") == Approx(1000).margin(0.01));
    CHECK(value({"temperature", "celsius=-40"}, "fahrenheit") == Approx(-40));
    CHECK(value({"hydrometer", "reading_proof=80", "t=40 F"}, "us_proof") == Approx(88.8).margin(0.11));
    CHECK(value({"measures", "amount=1½ floz", "to=ml"}, "result") == Approx(44.36).margin(0.01));
    CHECK(value({"syrup", "brix=2:1"}, "density") == Approx(1326.75).margin(0.01));
}

TEST_CASE("a wrong value is told by its key with its range and ends with 1", "[app][convert]") {
    const std::vector<std::pair<std::vector<std::string>, std::string>> cases{
        {{"convert", "strength", "abv=140"}, "abv must be 0 to 100 % vol."},
        {{"convert", "strength", "abv=much"}, "abv: \"much\" is no number. Write 0 to 100 % vol."},
        {{"convert", "strength", "abv=45 ml"}, "abv: the unit of \"45 ml\" does not fit."},
        {{"convert", "strength"}, "Give one of abv, us_proof, uk_proof, mass_percent or density"},
        {{"convert", "strength", "abv=40", "us_proof=80"}, "us_proof is one too many"},
        {{"convert", "dilute", "volume=100", "abv=40"}, "target is missing: Strength wanted"},
        {{"convert", "dilute", "volume=100", "abv=40", "target=50"}, "Water never makes a liquid stronger"},
        {{"convert", "dilute", "colour=2"}, "There is no colour here; there is volume, total, abv"},
        {{"convert", "measures", "amount=1", "from=thimble"}, "from: \"thimble\" is none of ml, cl"},
        {{"convert", "measures", "amount=1", "from=lb"}, "density: A weight and a volume"},
    };
    for (const auto& [arguments, says] : cases) {
        const auto run = runProgram(arguments);
        INFO(run.err);
        CHECK(run.exitCode == 1);
        CHECK(run.out.empty());
        CHECK(run.err.find(says) != std::string::npos);
    }
    const auto asJson = runProgram({"convert", "strength", "abv=140", "--json"});
    CHECK(asJson.exitCode == 1);
    const auto problem = parsed(asJson)["problem"];
    CHECK(keysOf(problem) == std::set<std::string>{"code", "key", "low", "high", "says"});
    CHECK(problem["code"] == "out_of_range");
    CHECK(problem["key"] == "abv");
    CHECK(problem["high"] == 100.0);
}

TEST_CASE("convert used wrongly ends with 2", "[app][convert]") {
    for (const auto& arguments :
         std::vector<std::vector<std::string>>{{"convert"},
                                               {"convert", "nothing"},
                                               {"convert", "--list", "strength"},
                                               {"convert", "strength", "abv"},
                                               {"convert", "strength", "=40"},
                                               {"convert", "strength", "abv=1", "abv=2"},
                                               {"convert", "strength", "--colour"}}) {
        const auto run = runProgram(arguments);
        CHECK(run.exitCode == 2);
        CHECK(run.out.empty());
        CHECK_FALSE(run.err.empty());
    }
    const auto hostile = runProgram({"convert", "strength", "abv=\x1B[31m\u202E"});
    CHECK(hostile.exitCode == 1);
    CHECK(hostile.err.find('\x1B') == std::string::npos);
    CHECK(hostile.err.find("\u202E") == std::string::npos);
}

TEST_CASE("names and keys are taken whatever their case and near ones are suggested", "[app][convert]") {
    const auto upper = runProgram({"convert", "Strength", "ABV=40"});
    CHECK(upper.exitCode == 0);
    CHECK(upper.out == runProgram({"convert", "strength", "abv=40"}).out);
    CHECK(runProgram({"convert", "strength", "ABV=40", "abv=41"}).err.find("given twice") !=
          std::string::npos);
    const auto name = runProgram({"convert", "strenght", "abv=40"});
    CHECK(name.exitCode == 2);
    CHECK(name.err.find("did you mean strength?") != std::string::npos);
    const auto key = runProgram({"convert", "strength", "abw=40"});
    CHECK(key.exitCode == 1);
    CHECK(key.err.find("did you mean abv?") != std::string::npos);
}

TEST_CASE("what was assumed of an ounce is printed and small figures keep their digits", "[app][convert]") {
    const auto run = runProgram({"convert", "measures", "amount=1", "from=oz"});
    CHECK(run.exitCode == 0);
    CHECK(run.out.find("US fluid ounce") != std::string::npos);
    CHECK(run.out.find("29.574 ml") != std::string::npos);
    CHECK(run.out.find("in millilitres") == std::string::npos);
    CHECK(runProgram({"convert", "--list"}).out.find("oz alone is taken as floz_us") != std::string::npos);
    const auto drop = runProgram({"convert", "measures", "amount=1", "from=drop", "to=floz_us"});
    CHECK(drop.out.find("0.001691") != std::string::npos); // 0.05 ml over 29.5735 ml
    CHECK(runProgram({"convert", "measures", "amount=1e9", "from=ml", "to=l"}).out.find("1000000.000") !=
          std::string::npos);
}
