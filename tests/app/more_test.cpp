#include "tests/app/run_program.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

#include <set>

using namespace stillroom::tests;
using nlohmann::json;

// `more` and `held`, held to what DEVELOPERS.md says of them.
namespace {

constexpr const char* kSour = "Tern Sour\n\n50 ml London dry gin\n25 ml lime juice\n20 ml simple syrup\n\n"
                              "Shake with ice, strain.\nGlass: low tumbler, over ice\n";

const std::set<std::string> kMore{
    "freezing_onset", "ph",          "sweetness",        "sweetness_low",    "sweetness_high",
    "co2_g_per_l",    "co2_volumes", "water_activity",   "caffeine",         "proof_us",
    "proof_uk",       "contraction", "relative_density", "refractive_index", "baume"};

std::set<std::string> keysOf(const json& object) {
    std::set<std::string> keys;
    for (const auto& [key, value] : object.items())
        keys.insert(key);
    return keys;
}

bool holds(const std::string& text, const char* part) {
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("read as JSON has every further reading with its bound and its note", "[app][more]") {
    const ProgramRun run = runProgram({"read", "--json"}, kSour);
    REQUIRE(run.exitCode == 0);
    const json more = json::parse(run.out)["more"];
    CHECK(keysOf(more) == std::set<std::string>{"stages", "freezer", "standard_drinks"});
    for (const auto& [name, stage] : more["stages"].items()) {
        INFO(name);
        CHECK(keysOf(stage) == kMore);
        for (const auto& [id, reading] : stage.items())
            CHECK(keysOf(reading) ==
                  std::set<std::string>{"value", "upper", "unit", "bound", "estimate", "gaps", "note"});
    }
    const json& served = more["stages"]["served"];
    CHECK(served["ph"]["bound"] == "between");
    CHECK(served["ph"]["note"] == "juices_are_buffered");
    CHECK(served["ph"]["estimate"] == true);
    CHECK(served["water_activity"]["note"] == "estimate_only");
    CHECK(served["freezing_onset"]["value"].get<double>() < 0);
    CHECK(served["co2_volumes"]["bound"] == "not_applicable");
    // Ice melts in it, so it freezes later than before the shaking.
    CHECK(served["freezing_onset"]["value"] > more["stages"]["measured"]["freezing_onset"]["value"]);

    const json& cold = more["freezer"]["served"];
    CHECK(more["freezer"]["celsius"] == -18);
    CHECK(keysOf(cold) ==
          std::set<std::string>{"state", "ice_share", "liquid_strength", "stays_liquid_from", "at_most"});
    CHECK(cold["state"] == "slush");
    CHECK(cold["ice_share"].get<double>() > 0.1);
    CHECK(cold["liquid_strength"].get<double>() > 20);

    bool australia = false;
    for (const json& country : more["standard_drinks"]) {
        CHECK(keysOf(country) == std::set<std::string>{"code", "name", "grams_each", "count"});
        if (country["code"] != "AU") continue;
        australia = true;
        const json stages = json::parse(run.out)["stages"];
        CHECK(country["count"]["value"].get<double>() ==
              Approx(stages["served"]["ethanol"]["value"].get<double>() / 10));
    }
    CHECK(australia);
}

TEST_CASE("read as JSON follows the drink over half an hour", "[app][held]") {
    const ProgramRun run = runProgram({"read", "--json"}, kSour);
    const json drink = json::parse(run.out);
    const json& held = drink["held"];
    REQUIRE(held.is_object());
    CHECK(keysOf(held) == std::set<std::string>{"in", "room_celsius", "room_w_per_k", "transfer_assumed",
                                                "ice_assumed", "start_assumed", "strength_bound",
                                                "temperature_bound", "points"});
    CHECK(held["in"] == "with_ice");
    CHECK(held["transfer_assumed"] == true);
    CHECK(held["ice_assumed"] == true);
    REQUIRE(held["points"].size() == 6);
    const int minutes[] = {0, 5, 10, 15, 20, 30};
    for (std::size_t i = 0; i < 6; ++i) {
        const json& at = held["points"][i];
        CHECK(keysOf(at) ==
              std::set<std::string>{"minutes", "strength", "dilution", "temperature", "volume", "ice"});
        CHECK(at["minutes"].get<double>() == Approx(minutes[i]));
        if (i > 0) CHECK(at["strength"] <= held["points"][i - 1]["strength"]);
    }
    CHECK(held["points"][0]["strength"].get<double>() ==
          Approx(drink["stages"]["served"]["strength"]["value"].get<double>()).margin(0.01));
    const ProgramRun open = runProgram({"read", "--json"}, "Nobody's Cup\n\nlime juice\n");
    CHECK(json::parse(open.out)["held"].is_null());
}

TEST_CASE("read prints further readings and the held table when asked for them only", "[app][more][held]") {
    const ProgramRun bare = runProgram({"read"}, kSour);
    CHECK_FALSE(holds(bare.out, "More readings"));
    CHECK_FALSE(holds(bare.out, "Held"));
    const ProgramRun more = runProgram({"read", "--more"}, kSour);
    CHECK(more.exitCode == 0);
    for (const char* words : {"More readings", "Freezing begins", "juices are buffered, measure", "no source",
                              "never the ground of a safety decision", "At −18 °C", "slush",
                              "stays liquid from", "US proof", "Australia", "of 10 g"}) {
        INFO(words);
        CHECK(holds(more.out, words));
    }
    const ProgramRun held = runProgram({"read", "--held"}, kSour);
    for (const char* words : {"Held", "g ice", "Heat transfer is assumed", "no source", "g assumed"}) {
        INFO(words);
        CHECK(holds(held.out, words));
    }
}

TEST_CASE("show prints further readings of a kept drink and JSON has them of the draft", "[app][more]") {
    const TemporaryFolder folder;
    const std::string path = folder.path("sample.stillroom");
    REQUIRE(runProgram({"new", path, "--sample"}).exitCode == 0);
    const json book = json::parse(runProgram({"show", path, "--json"}).out);
    REQUIRE_FALSE(book["drinks"].empty());
    int drafts = 0;
    for (const json& drink : book["drinks"]) {
        if (!drink.contains("draft")) continue;
        ++drafts;
        CHECK(keysOf(drink["draft"]["more"]["stages"]["served"]) == kMore);
        CHECK(drink["draft"].contains("held"));
    }
    CHECK(drafts > 0);
    const std::string name = book["drinks"][0]["name"];
    const ProgramRun one = runProgram({"show", path, "--drink", name, "--more", "--held"});
    CHECK(one.exitCode == 0);
    CHECK(holds(one.out, "More readings"));
    CHECK(holds(one.out, "Held"));
    CHECK_FALSE(holds(runProgram({"show", path, "--drink", name}).out, "More readings"));
}
