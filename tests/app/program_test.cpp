#include "tests/app/run_program.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

#include <filesystem>
#include <set>

using namespace stillroom::tests;
using nlohmann::json;

namespace {

constexpr const char* kSour = "Tern Sour\n\n50 ml London dry gin\n25 ml lemon juice\n20 ml simple syrup\n"
                              "1 dash orange bitters\n\nShake with ice, strain.\nGlass: coupe\n"
                              "Garnish: strip of lemon peel\n";

const std::set<std::string> kQuantities{"poured_volume", "volume",    "strength",    "ethanol",
                                        "sugar",         "brix",      "acid",        "sugar_acid_ratio",
                                        "mass",          "density",   "dilution",    "temperature",
                                        "cost",          "energy_kj", "energy_kcal", "standard_drinks"};

std::set<std::string> keysOf(const json& object) {
    std::set<std::string> keys;
    for (const auto& [key, value] : object.items())
        keys.insert(key);
    return keys;
}

// Anything a terminal would obey instead of showing: C0 and C1 controls but line feed, text direction.
bool obeyed(const std::string& text) {
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        if (byte < 0x20 && byte != '\n') return true;
        if (byte == 0x7F) return true;
        if (byte == 0xC2 && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xA0)
            return true;
        if (text.compare(i, 3, "\u202E") == 0 || text.compare(i, 3, "\u2066") == 0) return true;
    }
    return false;
}

std::string sampleIn(const TemporaryFolder& folder) {
    const std::string path = folder.path("sample.stillroom");
    const ProgramRun made = runProgram({"new", path, "--sample"});
    INFO(made.err);
    REQUIRE(made.exitCode == 0);
    return path;
}

} // namespace

TEST_CASE("wrong usage ends with 2 and says what is wrong on standard error", "[app]") {
    const std::vector<std::pair<std::vector<std::string>, std::string>> cases{
        {{"read", "--colour"}, "there is no option --colour"},
        {{"read", "a", "b"}, "\"b\" is one word too many"},
        {{"read", "--larder"}, "--larder needs a value"},
        {{"read", "--json", "--json"}, "--json is given twice"},
        {{"read", "--json=yes"}, "--json takes no value"},
        {{"new"}, "something is missing"},
        {{"show"}, "something is missing"},
        {{"check", "a", "b"}, "one word too many"},
        {{"--colour"}, "there is no option --colour"},
        {{"raed"}, "neither a command nor a workbook"},
        {{"--sample", "/"}, "not both"},
    };
    for (const auto& [arguments, says] : cases) {
        const ProgramRun run = runProgram(arguments);
        INFO(arguments.front() << ": " << run.err);
        CHECK(run.exitCode == 2);
        CHECK(run.out.empty());
        CHECK(run.err.find(says) != std::string::npos);
    }
}

TEST_CASE("every command answers help with its usage and ends with 0", "[app]") {
    const ProgramRun all = runProgram({"--help"});
    CHECK(all.exitCode == 0);
    for (const char* command : {"read", "new", "show", "check"}) {
        CHECK(all.out.find(std::string("stillroom ") + command) != std::string::npos);
        const ProgramRun one = runProgram({command, "--help"});
        CHECK(one.exitCode == 0);
        CHECK(one.out.rfind(std::string("stillroom ") + command, 0) == 0);
        CHECK(one.out.find("Exit code:") != std::string::npos);
        CHECK(one.err.empty());
    }
}

TEST_CASE("without a display the window is refused in words and nothing aborts", "[app]") {
    const ProgramRun none =
        runProgram({}, "", {{"DISPLAY", ""}, {"WAYLAND_DISPLAY", ""}, {"QT_QPA_PLATFORM", ""}});
    CHECK(none.signal == 0);
    CHECK(none.exitCode == 2);
    CHECK(none.out.empty());
    CHECK(none.err.find("window") != std::string::npos);
    const ProgramRun dead =
        runProgram({"--sample"}, "", {{"DISPLAY", ":997"}, {"WAYLAND_DISPLAY", ""}, {"QT_QPA_PLATFORM", ""}});
    CHECK(dead.signal == 0);
    CHECK(dead.exitCode == 2);
    CHECK(dead.err.find("window") != std::string::npos);
}

TEST_CASE("read prints lines, stages, cautions and the word about licensed practice", "[app]") {
    const ProgramRun run = runProgram({"read", "-"}, kSour);
    INFO(run.out << run.err);
    CHECK(run.exitCode == 0);
    CHECK(run.err.empty());
    for (const char* part : {"Tern Sour", "50 ml London dry gin", "measured", "mixed", "served", "Strength",
                             "% vol", "Shake with ice, strain.", "coupe"})
        CHECK(run.out.find(part) != std::string::npos);
    CHECK_FALSE(obeyed(run.out));
}

TEST_CASE("read as JSON has every documented key", "[app]") {
    const ProgramRun run = runProgram({"read", "--json"}, kSour);
    INFO(run.out << run.err);
    REQUIRE(run.exitCode == 0);
    const json drink = json::parse(run.out);
    for (const char* key :
         {"problem", "drinks",     "name",  "yield",    "serves",      "technique", "glass",
          "garnish", "method",     "notes", "lines",    "sub_recipes", "stages",    "more",
          "held",    "glass_fill", "gaps",  "cautions", "allergens",   "deference", "doubts"})
        CHECK(drink.contains(key));
    CHECK(drink["name"] == "Tern Sour");
    CHECK(drink["technique"] == "shake");
    CHECK(drink["serves"] == 1);

    REQUIRE(drink["lines"].size() == 4);
    for (const json& line : drink["lines"])
        for (const char* key : {"raw", "kind", "amount", "amount_exact", "unit", "ingredient", "note",
                                "parts", "role", "unsure", "matched", "doubts"})
            CHECK(line.contains(key));
    CHECK(drink["lines"][0]["amount"] == 50.0);
    CHECK(drink["lines"][0]["amount_exact"] == "50");
    CHECK(drink["lines"][0]["unit"] == "ml");
    CHECK(drink["lines"][0]["matched"]["name"] == "London dry gin");

    CHECK(keysOf(drink["stages"]) == std::set<std::string>{"measured", "mixed", "served"});
    for (const auto& [name, stage] : drink["stages"].items()) {
        INFO(name);
        CHECK(keysOf(stage) == kQuantities);
        for (const auto& [quantity, reading] : stage.items()) {
            INFO(quantity);
            for (const char* key : {"value", "upper", "unit", "bound", "gaps"})
                CHECK(reading.contains(key));
            const std::string bound = reading["bound"];
            const bool stated = bound != "unknown" && bound != "not_applicable";
            CHECK(reading["value"].is_null() != stated);
            CHECK(reading["upper"].is_null() == (bound != "between"));
        }
        CHECK(stage["cost"].contains("currency"));
        CHECK(stage["standard_drinks"]["grams_each"].is_number());
    }
    CHECK(drink["stages"]["measured"]["poured_volume"]["value"].get<double>() ==
          Approx(95.92).margin(0.01)); // 50 + 25 + 20 + a dash of 0.92 ml
    CHECK(drink["stages"]["measured"]["dilution"]["bound"] == "not_applicable");
    CHECK_FALSE(obeyed(run.out));
}

TEST_CASE("read says what stands in the glass with every documented key", "[app]") {
    const ProgramRun run = runProgram({"read", "--json"}, kSour);
    REQUIRE(run.exitCode == 0);
    const json fill = json::parse(run.out)["glass_fill"];
    CHECK(keysOf(fill) == std::set<std::string>{"glass", "brim", "liquid", "at_least", "share", "height",
                                                "top", "over", "wash_line", "layers", "heads", "ice",
                                                "doubts"});
    CHECK(fill["glass"] == "coupe");
    REQUIRE(fill["layers"].size() == 1);
    CHECK(keysOf(fill["layers"][0]) == std::set<std::string>{"kind", "volume", "stands", "temperature",
                                                             "density", "density_range", "at_least",
                                                             "lines"});
    CHECK(fill["layers"][0]["kind"] == "drink");
    CHECK(fill["layers"][0]["lines"].size() == 4);
    // The one layer is all that is served.
    CHECK(fill["layers"][0]["volume"].get<double>() ==
          Approx(json::parse(run.out)["stages"]["served"]["volume"]["value"].get<double>()).margin(0.01));
    CHECK(fill["share"].get<double>() ==
          Approx(fill["liquid"].get<double>() / fill["brim"].get<double>()).margin(0.001));

    const ProgramRun text = runProgram({"read", "-"}, kSour);
    CHECK(text.out.find("In the glass") != std::string::npos);
    CHECK(text.out.find("% of the brim") != std::string::npos);
}

TEST_CASE("read says that a heavy float sinks and draws no glass it does not know", "[app]") {
    const ProgramRun run =
        runProgram({"read", "--json"}, "Low Tide\n\n50 ml London dry gin\n25 ml lemon juice\n"
                                       "15 ml simple syrup\n15 ml coffee liqueur, floated\n\nShake.\n");
    INFO(run.out << run.err);
    REQUIRE(run.exitCode == 0);
    const json fill = json::parse(run.out)["glass_fill"];
    CHECK(fill["share"].is_null());
    CHECK(fill["glass"].is_null());
    REQUIRE(fill["layers"].size() == 1);
    std::set<std::string> codes;
    for (const json& doubt : fill["doubts"]) {
        codes.insert(doubt["code"].get<std::string>());
        CHECK_FALSE(doubt["says"].get<std::string>().empty());
        if (doubt["code"] == "float_sinks") CHECK(doubt["line"] == 3);
    }
    CHECK(codes == std::set<std::string>{"float_sinks", "glass_unknown"});
}

TEST_CASE("a larder file replaces the handbook and what it leaves out is a gap", "[app]") {
    const TemporaryFolder folder;
    writeFile(
        folder.path("larder.json"),
        R"({"ingredients": [{"name": "London dry gin", "abv_percent": 50, "sugar_g_per_l": 0, "acid_g_per_l": 0,
                  "price": {"amount": "20.00", "currency": "USD", "for_ml": 1000}},
                  {"name": "simple syrup", "abv_percent": 0, "acid_g_per_l": 0}]})");
    const ProgramRun run = runProgram({"read", "--json", "--larder", folder.path("larder.json")},
                                      "Pair\n\n50 ml London dry gin\n"
                                      "20 ml simple syrup\n");
    INFO(run.out << run.err);
    REQUIRE(run.exitCode == 0);
    const json measured = json::parse(run.out)["stages"]["measured"];
    CHECK(measured["sugar"]["bound"] != "exact");
    CHECK(measured["sugar"]["gaps"] == json::array({"simple syrup"}));
    CHECK(measured["cost"]["currency"] == "USD");
    CHECK(measured["cost"]["bound"] == "at_least"); // the syrup has no price
    CHECK(measured["cost"]["value"].get<double>() == Approx(1.0));
    CHECK(measured["ethanol"]["value"].get<double>() == Approx(50 * 0.50 * 0.78924).epsilon(0.0005));

    writeFile(folder.path("bad.json"), R"({"ingredients": [{"name": "gin", "abv": 50}]})");
    const ProgramRun bad = runProgram({"read", "--larder", folder.path("bad.json")}, kSour);
    CHECK(bad.exitCode == 1);
    CHECK(bad.out.empty());
    CHECK(bad.err.find("unknown key \"abv\"") != std::string::npos);
}

TEST_CASE("read with --lines takes every line alone and reports what it refused", "[app]") {
    const ProgramRun good =
        runProgram({"read", "--lines", "--json"}, "3/4 oz lime juice\n\n2-3 dashes bitters\n");
    INFO(good.out << good.err);
    REQUIRE(good.exitCode == 0);
    const json lines = json::parse(good.out)["lines"];
    REQUIRE(lines.size() == 2);
    CHECK(lines[0]["amount"] == 0.75);
    CHECK(lines[0]["amount_exact"] == "3/4");
    CHECK(lines[0]["unit"] == "floz_us");
    CHECK(lines[1]["amount"] == json::array({2.0, 3.0}));
    CHECK(lines[1]["unit"] == "dash");

    const ProgramRun bad = runProgram({"read", "--lines"}, "45 ml gin\n-30 ml lemon juice\n");
    CHECK(bad.exitCode == 1);
    CHECK(bad.err.find("line 2:") != std::string::npos);
    CHECK(bad.out.find("45 ml gin") != std::string::npos);
}

TEST_CASE("files that cannot be read end with 1 and are named", "[app]") {
    const TemporaryFolder folder;
    const std::vector<std::vector<std::string>> cases{
        {"read", folder.path("none.txt")},
        {"read", folder.path("")},
        {"read", "--larder", folder.path("none.json"), "-"},
        {"read", "--workbook", folder.path("none.stillroom"), "-"},
        {"show", folder.path("none.stillroom")},
        {"check", folder.path("none.stillroom")},
    };
    for (const auto& arguments : cases) {
        const ProgramRun run = runProgram(arguments, kSour);
        INFO(arguments[0] << " " << arguments[1] << ": " << run.err);
        CHECK(run.exitCode == 1);
        CHECK(run.out.empty());
        CHECK(run.err.find(folder.path("")) != std::string::npos);
    }
    const ProgramRun empty = runProgram({"read"}, "");
    CHECK(empty.exitCode == 1);
    CHECK(empty.err.find("nothing to read") != std::string::npos);
}

TEST_CASE("text in which nothing is poured ends with 1 and says so", "[app]") {
    for (const char* text : {"asdf qwer zxcv\n", "!!!! ????\n", "asdlkj\n\nqwe\n\nzzz\n"}) {
        for (const auto& arguments : {std::vector<std::string>{"read", "-"}, {"read", "--json", "-"}}) {
            const ProgramRun run = runProgram(arguments, text);
            INFO(text << run.out);
            CHECK(run.exitCode == 1);
            CHECK(run.err.find("no line was understood as something poured") != std::string::npos);
        }
    }
    // A name the larder knows is enough, and an amount of something it does not.
    CHECK(runProgram({"read", "-"}, "Low Tide\n\nlime juice\n").exitCode == 0);
    CHECK(runProgram({"read", "-"}, "Low Tide\n\n20 ml qwertz\n").exitCode == 0);
}

TEST_CASE("new never writes over what stands there", "[app]") {
    const TemporaryFolder folder;
    const std::string path = folder.path("book.stillroom");
    REQUIRE(runProgram({"new", path}).exitCode == 0);
    const std::string before = contentOf(path);
    const ProgramRun again = runProgram({"new", path, "--sample"});
    CHECK(again.exitCode == 1);
    CHECK(again.err.find("stands there already") != std::string::npos);
    CHECK(contentOf(path) == before);
    const ProgramRun shown = runProgram({"show", path});
    CHECK(shown.exitCode == 0);
    CHECK(shown.out.find("Nothing in it yet") != std::string::npos);
}

TEST_CASE("the sample is made, checked, listed and shown", "[app]") {
    const TemporaryFolder folder;
    const std::string path = sampleIn(folder);
    const ProgramRun checked = runProgram({"check", path});
    INFO(checked.out << checked.err);
    CHECK(checked.exitCode == 0);
    CHECK(checked.out.find("Sound.") != std::string::npos);

    const ProgramRun list = runProgram({"show", path});
    for (const char* name :
         {"Hallan Stack", "Quill Point", "Ox Skerry", "Maiden Ledge", "Grey Tolland", "Pellow Head",
          "Long Candle", "Ansel Reach", "Bittern Light", "Heather-honey syrup"})
        CHECK(list.out.find(name) != std::string::npos);

    const ProgramRun one = runProgram({"show", path, "--drink", "ox skerry"});
    CHECK(one.exitCode == 0);
    for (const char* part : {"45 ml London dry gin", "a spine under the smoke", "Now it has a middle", "r4",
                             "lemon juice", "sugar is not known"})
        CHECK(one.out.find(part) != std::string::npos);
    CHECK_FALSE(obeyed(one.out));

    const ProgramRun none = runProgram({"show", path, "--drink", "No Such Light"});
    CHECK(none.exitCode == 1);
    CHECK(none.err.find("no drink called") != std::string::npos);
}

TEST_CASE("show as JSON carries revisions with reasons and tastings", "[app]") {
    const TemporaryFolder folder;
    const ProgramRun run = runProgram({"show", sampleIn(folder), "--drink", "Ox Skerry", "--json"});
    REQUIRE(run.exitCode == 0);
    const json drink = json::parse(run.out);
    REQUIRE(drink["revisions"].size() == 5);
    std::set<std::string> parents;
    for (const json& revision : drink["revisions"]) {
        for (const char* key : {"id", "number", "parent", "house", "kept", "reason", "lines", "stages",
                                "glass_fill", "tastings"})
            CHECK(revision.contains(key));
        if (!revision["parent"].is_null()) parents.insert(revision["parent"].get<std::string>());
    }
    CHECK(parents.size() == 3); // five revisions in a line would have four parents: one of these is a branch
    CHECK(drink["revisions"][0]["kept"] == "2026-11-06T21:10:00+00:00");
    CHECK(drink["draft"]["lines"][2]["amount"] == 20.0);
    CHECK(drink["draft"]["stages"]["served"]["sugar"]["bound"] == "at_least");
    REQUIRE(drink["draft"]["glass_fill"]["layers"].size() == 2);
    CHECK(drink["draft"]["glass_fill"]["layers"][1]["kind"] == "float");
}

TEST_CASE("show says what a preparation comes to and how long it keeps", "[app]") {
    const TemporaryFolder folder;
    const std::string path = sampleIn(folder);
    const ProgramRun run = runProgram({"show", path, "--drink", "Heather-honey syrup", "--json"});
    REQUIRE(run.exitCode == 0);
    const json made = json::parse(run.out)["made"];
    CHECK(made["yield_g"].get<double>() == Approx(1000).margin(0.01));
    CHECK(made["measured"] == false);
    CHECK(made["cost"] == 9.4);
    CHECK(made["cost_per_ml"].get<double>() == Approx(9.4 / made["yield_ml"].get<double>()).margin(0.000001));
    for (const char* key : {"at_most", "lost_share", "strength", "sugar_g_per_l", "acid_g_per_l", "brix",
                            "density", "currency", "steps", "faults", "cautions"})
        CHECK(made.contains(key));
    // The house's own 10 days, within the published 7 to 14 (costing, shelf_life: honey syrup).
    CHECK(made["keeping"]["basis"] == "house");
    CHECK(made["keeping"]["storage"] == "refrigerate");
    const ProgramRun text = runProgram({"show", path, "--drink", "Heather-honey syrup"});
    CHECK(text.out.find("Keeps: ") != std::string::npos);
    const ProgramRun drink = runProgram({"show", path, "--drink", "Ox Skerry", "--json"});
    CHECK_FALSE(json::parse(drink.out).contains("made"));
}

TEST_CASE("show of a preparation has no glass and no serving in it", "[app]") {
    const TemporaryFolder folder;
    const std::string path = sampleIn(folder);
    for (const char* name : {"Heather-honey syrup", "Ember syrup", "Hearth cream"}) {
        const ProgramRun run = runProgram({"show", path, "--drink", name});
        INFO(run.out);
        REQUIRE(run.exitCode == 0);
        CHECK(run.out.find("\nMade\n") != std::string::npos);
        for (const char* ofADrink : {"served", "In the glass", "scald", "serving is large"})
            CHECK(run.out.find(ofADrink) == std::string::npos);
    }
    const ProgramRun drink = runProgram({"show", path, "--drink", "Ox Skerry"});
    CHECK(drink.out.find("served") != std::string::npos);
    CHECK(drink.out.find("In the glass") != std::string::npos);
}

TEST_CASE("a workbook's names and prices are used by read", "[app]") {
    const TemporaryFolder folder;
    const ProgramRun run = runProgram({"read", "--json", "--workbook", sampleIn(folder)},
                                      "Try\n\n45 ml London dry gin\n20 ml heather-honey syrup\n");
    INFO(run.out << run.err);
    REQUIRE(run.exitCode == 0);
    const json drink = json::parse(run.out);
    CHECK(drink["lines"][0]["matched"]["pours"] == "London dry gin, 47 %");
    CHECK(drink["lines"][1]["matched"]["name"] == "Heather-honey syrup");
    CHECK(drink["stages"]["measured"]["cost"]["currency"] == "EUR");
    CHECK(drink["stages"]["measured"]["sugar"]["value"].get<double>() > 5.0);
}
