#include "tests/app/run_program.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

// The shapes of drink that must work and stay working, each read by the built program from the way a person
// writes it. Names and amounts are this project's own. Expected figures are worked out beside each check
// from the amounts and from facts given with --larder, so that they do not hang on the handbook's typical
// values; where the handbook itself is meant, the tolerance says so.

using namespace stillroom::tests;
using nlohmann::json;

namespace {

json readDrink(const std::string& text, const std::string& larder = "") {
    const TemporaryFolder folder;
    std::vector<std::string> arguments{"read", "--json"};
    if (!larder.empty()) {
        writeFile(folder.path("larder.json"), "{\"ingredients\": [" + larder + "]}");
        arguments.insert(arguments.end(), {"--larder", folder.path("larder.json")});
    }
    const ProgramRun run = runProgram(arguments, text);
    INFO(text << "\n" << run.err);
    REQUIRE(run.exitCode == 0);
    return json::parse(run.out);
}

json lineNamed(const json& drink, const std::string& name) {
    for (const json& line : drink["lines"])
        if (line["ingredient"] == name) return line;
    FAIL("no line " << name << " in " << drink["lines"].dump());
    return {};
}

double value(const json& drink, const char* stage, const char* quantity) {
    const json& reading = drink["stages"][stage][quantity];
    INFO(stage << " " << quantity << ": " << reading.dump());
    REQUIRE(reading["value"].is_number());
    return reading["value"].get<double>();
}

std::string bound(const json& drink, const char* stage, const char* quantity) {
    return drink["stages"][stage][quantity]["bound"];
}

bool hasCaution(const json& drink, const std::string& id) {
    for (const json& caution : drink["cautions"])
        if (caution["id"].get<std::string>().find(id) != std::string::npos) return true;
    return false;
}

bool hasGap(const json& drink, const std::string& code) {
    for (const json& gap : drink["gaps"])
        if (gap["code"] == code) return true;
    return false;
}

constexpr double kEthanolGPerMl = 0.78924; // OIML R 22, pure ethanol at 20 °C

} // namespace

TEST_CASE("equal parts under whipped cream read by their ratios", "[shapes]") {
    const json drink =
        readDrink("Three Buoys\n\n1 part brandy\n1 part coffee liqueur\n1 part cream liqueur\n"
                  "Whipped cream, on top\n\nShake with ice and strain. Spoon the cream on top.\n",
                  R"({"name": "brandy", "abv_percent": 40, "sugar_g_per_l": 0, "acid_g_per_l": 0},
                                    {"name": "coffee liqueur", "abv_percent": 20, "sugar_g_per_l": 400, "acid_g_per_l": 0},
                                    {"name": "cream liqueur", "abv_percent": 17, "sugar_g_per_l": 200, "acid_g_per_l": 0})");
    CHECK(lineNamed(drink, "brandy")["unit"] == "part");
    CHECK(drink["technique"] == "shake");
    // (40 + 20 + 17) / 3 before contraction, which can only raise it.
    CHECK(value(drink, "measured", "strength") == Approx(25.67).epsilon(0.02));
    CHECK(hasGap(drink, "part_target_missing"));
}

TEST_CASE("five liquids stirred with a barspoon and a pinch of decoration", "[shapes]") {
    const json drink =
        readDrink("Gannet Row\n\n45 ml rye whiskey\n20 ml sweet vermouth\n10 ml amaro\n"
                  "1 barspoon maraschino liqueur\n2 dashes aromatic bitters\n"
                  "1 pinch edible glitter, for decoration\n\nStir 30 seconds over ice, strain.\n"
                  "Glass: coupe\n");
    CHECK(drink["technique"] == "stir");
    CHECK(drink["lines"].size() == 5);
    CHECK(drink["garnish"] == json::array({"edible glitter"}));
    CHECK(hasCaution(drink, "luster_dust"));
    CHECK(lineNamed(drink, "maraschino liqueur")["unit"] == "barspoon");
    CHECK(value(drink, "measured", "poured_volume") >= 45 + 20 + 10 + 5);
    // A stirred drink of this strength takes 40 to 45 % of its volume in water (published stirring curve).
    CHECK(value(drink, "mixed", "dilution") == Approx(0.43).margin(0.03));
    CHECK(value(drink, "served", "strength") < value(drink, "measured", "strength"));
}

TEST_CASE("spirit and raw sugar in near-boiling water take no ice", "[shapes]") {
    const json drink =
        readDrink("Kettle Lamp\n\n50 ml Irish whiskey\n8 g demerara sugar\n120 ml boiling water\n\n"
                  "Warm the glass. Stir the sugar into the hot water, add the whiskey.\n"
                  "Garnish: lemon twist\n",
                  R"({"name": "Irish whiskey", "abv_percent": 40, "sugar_g_per_l": 0, "acid_g_per_l": 0})");
    CHECK(drink["technique"] == "hot");
    CHECK(value(drink, "mixed", "dilution") == Approx(0));
    // 8 g of sugar in about 50 + 120 + 5 ml.
    CHECK(value(drink, "served", "sugar") == Approx(8.0 / 174.5 * 100).epsilon(0.03));
    CHECK(value(drink, "served", "ethanol") == Approx(50 * 0.40 * kEthanolGPerMl).epsilon(0.001));
    CHECK(hasCaution(drink, "served_hot"));
}

TEST_CASE("a spirit infused at home stands as the base under its own name", "[shapes]") {
    const json drink =
        readDrink("Bracken\n\n50 ml bracken-infused gin (below)\n20 ml lemon juice\n15 ml simple syrup\n\n"
                  "Shake with ice, strain.\n\nFor the bracken-infused gin:\n500 ml London dry gin\n"
                  "10 g rosemary\n\nSteep 12 hours, strain.\n");
    REQUIRE(drink["sub_recipes"].size() == 1);
    CHECK(drink["sub_recipes"][0]["lines"].size() == 2);
    CHECK(drink["lines"].size() == 3);
    CHECK(drink["technique"] == "shake");
}

TEST_CASE("a sour with a nut syrup and an overproof in its split base", "[shapes]") {
    const json drink =
        readDrink("Plover\n\n40 ml aged rum\n12.5 ml overproof rum\n22.5 ml lime juice\n17.5 ml orgeat\n\n"
                  "Shake with crushed ice, pour unstrained.\n",
                  R"({"name": "aged rum", "abv_percent": 40, "sugar_g_per_l": 0, "acid_g_per_l": 0},
                                    {"name": "overproof rum", "abv_percent": 63, "sugar_g_per_l": 0, "acid_g_per_l": 0})");
    CHECK(lineNamed(drink, "overproof rum")["amount"] == 12.5);
    CHECK(value(drink, "measured", "ethanol") ==
          Approx((40 * 0.40 + 12.5 * 0.63) * kEthanolGPerMl).epsilon(0.001));
    CHECK(drink["allergens"]["contains"].size() >= 1); // almond
}

TEST_CASE("ten lines with three of one family and dashes of two things served unstrained", "[shapes]") {
    const json drink = readDrink("Cormorant Bowl\n\n30 ml white rum\n30 ml aged rum\n15 ml overproof rum\n"
                                 "20 ml lime juice\n30 ml pineapple juice\n10 ml grenadine\n10 ml falernum\n"
                                 "1 tsp simple syrup\n1 dash aromatic bitters\n1 dash absinthe\n\n"
                                 "Shake with crushed ice and pour unstrained into a tall glass.\n");
    CHECK(drink["lines"].size() == 10);
    CHECK(lineNamed(drink, "simple syrup")["unit"] == "tsp");
    CHECK(lineNamed(drink, "absinthe")["unit"] == "dash");
    // 145 ml, a teaspoon of 4.93 ml and two dashes of 0.92 ml.
    CHECK(value(drink, "measured", "poured_volume") == Approx(145 + 4.93 + 2 * 0.92).margin(0.05));
}

TEST_CASE("spirits warmed in a water bath over ice cream take no water", "[shapes]") {
    const json drink =
        readDrink("Warm Buoy\n\n30 ml aged rum\n15 ml coffee liqueur\n1 scoop vanilla ice cream\n\n"
                  "Warm the rum and the liqueur in a water bath to 60 C and pour over the ice cream.\n",
                  R"({"name": "aged rum", "abv_percent": 40, "sugar_g_per_l": 0, "acid_g_per_l": 0},
                                    {"name": "coffee liqueur", "abv_percent": 20, "sugar_g_per_l": 400, "acid_g_per_l": 0})");
    CHECK(drink["technique"] == "water_bath");
    CHECK(lineNamed(drink, "vanilla ice cream")["unit"] == "scoop");
    CHECK(value(drink, "mixed", "dilution") == Approx(0));
    CHECK(value(drink, "measured", "ethanol") ==
          Approx((30 * 0.40 + 15 * 0.20) * kEthanolGPerMl).epsilon(0.001));
}

TEST_CASE("hot chocolate with a sweet and a dry liqueur", "[shapes]") {
    const json drink =
        readDrink("Night Ferry\n\n150 ml hot chocolate\n25 ml Irish cream\n15 ml green herbal liqueur\n\n"
                  "Build in a warm mug and stir.\n");
    CHECK(drink["lines"].size() == 3);
    CHECK(value(drink, "measured", "poured_volume") == Approx(190));
    CHECK(value(drink, "served", "strength") > 3);
    CHECK(value(drink, "served", "strength") < 9);
    CHECK(hasCaution(drink, "served_hot"));
}

TEST_CASE("coffee with sugar cubes and spirit in thirds of an ounce under floated cream", "[shapes]") {
    const json drink =
        readDrink("Signal Mast\n\n1 1/3 oz Irish whiskey\n4 oz hot coffee\n2 sugar cubes\n"
                  "2/3 oz lightly whipped cream, floated\n\nBuild hot, float the cream.\n",
                  R"({"name": "Irish whiskey", "abv_percent": 40, "sugar_g_per_l": 0, "acid_g_per_l": 0})");
    CHECK(lineNamed(drink, "Irish whiskey")["amount_exact"] == "4/3");
    CHECK(lineNamed(drink, "lightly whipped cream")["role"] == "floated");
    CHECK(value(drink, "served", "ethanol") ==
          Approx(4.0 / 3 * 29.5735 * 0.40 * kEthanolGPerMl).epsilon(0.001));
    // The cream is in the drink as served, not before.
    CHECK(value(drink, "served", "poured_volume") - value(drink, "mixed", "poured_volume") ==
          Approx(2.0 / 3 * 29.5735).epsilon(0.001));
    // It stands on the coffee, half as much again by the air in it.
    const json& head = drink["glass_fill"]["heads"][0];
    CHECK(head["kind"] == "cream");
    CHECK(head["liquid"].get<double>() == Approx(2.0 / 3 * 29.5735).epsilon(0.02));
    CHECK(head["volume"].get<double>() == Approx(1.5 * head["liquid"].get<double>()).margin(0.01));
    CHECK(drink["glass_fill"]["layers"].size() == 1);
}

TEST_CASE("a spirit topped with cider is lengthened and not diluted by it", "[shapes]") {
    const json drink = readDrink("Orchard Wall\n\n45 ml apple brandy\n2 dashes aromatic bitters\n"
                                 "120 ml dry cider, to top\n\nBuild over ice, top with the cider.\n");
    CHECK(lineNamed(drink, "dry cider")["role"] == "topped");
    CHECK(value(drink, "served", "volume") - value(drink, "mixed", "volume") == Approx(120).margin(1.5));
    CHECK(value(drink, "served", "dilution") == Approx(value(drink, "mixed", "dilution")));
    CHECK(value(drink, "served", "ethanol") > value(drink, "mixed", "ethanol"));
}

TEST_CASE("an egg white shaken dry first is counted and named as an allergen", "[shapes]") {
    const json drink =
        readDrink("Foam Line\n\n50 ml gin\n25 ml lemon juice\n20 ml simple syrup\n1 egg white\n\n"
                  "Dry shake, then shake with ice and strain.\n");
    CHECK(lineNamed(drink, "egg white")["unit"] == "piece");
    CHECK(value(drink, "measured", "poured_volume") == Approx(95 + 30).margin(3)); // one white: 30 ml
    bool egg = false;
    for (const json& allergen : drink["allergens"]["contains"])
        egg = egg || allergen.get<std::string>().find("egg") != std::string::npos;
    CHECK(egg);
    CHECK(hasCaution(drink, "egg"));
    CHECK(drink["glass_fill"]["heads"][0]["kind"] == "foam");
    CHECK(drink["glass_fill"]["heads"][0]["liquid"] == 0);
}

TEST_CASE("a rinse without an amount leaves its trace", "[shapes]") {
    const json drink = readDrink(
        "Shoal Mark\n\n60 ml rye whiskey\n10 ml simple syrup\n3 dashes bitters\nAbsinthe, to rinse\n\n"
        "Stir over ice, strain into a rinsed glass.\n");
    CHECK(lineNamed(drink, "Absinthe")["role"] == "rinse");
    CHECK(value(drink, "served", "volume") > value(drink, "mixed", "volume"));
    CHECK(value(drink, "served", "volume") - value(drink, "mixed", "volume") < 5);
}

TEST_CASE("a punch for ten is read per serve and whole", "[shapes]") {
    const json drink =
        readDrink("Tide Bowl\n\nServes 10\n\n500 ml aged rum\n250 ml lemon juice\n250 ml simple syrup\n"
                  "1000 ml black tea\n\nBuild in a bowl over a block of ice.\n",
                  R"({"name": "aged rum", "abv_percent": 40, "sugar_g_per_l": 0, "acid_g_per_l": 0})");
    CHECK(drink["serves"] == 10);
    CHECK(value(drink, "measured", "poured_volume") == Approx(200));
    CHECK(value(drink, "measured", "ethanol") == Approx(50 * 0.40 * kEthanolGPerMl).epsilon(0.001));
}

TEST_CASE("vague lines stay in words and out of the sums", "[shapes]") {
    const json drink =
        readDrink("Haze\n\n45 ml gin\n2-3 dashes orange bitters\nSugar to taste\nTop with tonic water\n\n"
                  "Build over ice.\n");
    CHECK(lineNamed(drink, "orange bitters")["amount"] == json::array({2.0, 3.0}));
    CHECK(lineNamed(drink, "tonic water")["amount"].is_null());
    CHECK(lineNamed(drink, "tonic water")["role"] == "topped");
    CHECK(bound(drink, "measured", "poured_volume") == "between");
    CHECK(bound(drink, "served", "volume") != "exact");
    CHECK(bound(drink, "served", "volume") != "between"); // nobody knows how much tonic
}
