#include "tests/reference/published.h"
#include "tests/support/catch.h"

#include <fstream>
#include <iterator>
#include <map>
#include <set>
#include <string>

using namespace stillroom;

namespace {

// Published data that stand in tests/reference/data and are compared with nothing, each with the reason.
const std::map<std::string, const char*> kNotCompared = {
    {"ethanol-water/oiml_r22_general_formula", "the coefficients themselves: formula_self_values holds them"},
    {"sucrose-water/icumsa_sps4_density", "the coefficients themselves: sps4_self_values holds them"},
    {"sucrose-water/must_density_from_brix", "grape must, which no ingredient of the program is"},
    {"sucrose-water/crystal", "the program counts sugar as dissolved, never as crystals"},
    {"sucrose-water/boiling_point_elevation_model", "boiling is not computed"},
    {"sucrose-water/boiling_point_table", "from memory; boiling is not computed"},
    {"sucrose-water/viscosity_temperature", "viscosity is not computed"},
    {"ternary/tabarie_rule", "a rule, compared as model_comparison_computed and extract_table"},
    {"ternary/hackbarth_findings", "prose: the direction is checked with model_comparison_computed"},
    {"ternary/recommended_model", "the model itself: worked_example and model_comparison_computed hold it"},
    {"ternary/usda_liqueur_records_inconsistent", "a warning not to use these records"},
    {"thermal/ethanol_water_cp_melinder", "the coefficients themselves: ethanol_water_cp_values holds them"},
    {"thermal/ice_density", "ice is weighed, its volume belongs to the drawing of the glass"},
    {"thermal/vessel_masses", "nothing published was found"},
    {"thermal/structure_table", "style regions, from memory: checked where the balance map reads them"},
    {"thermal/energy_balance", "the method itself: the worked examples and limits hold it"},
    {"acids/pka_alternatives", "other sets, to show the spread"},
    {"acids/co2_weiss", "the coefficients themselves: co2_volumes_water_computed holds them"},
    {"acids/co2_beverages_measured", "beer and wine; only their direction is checked, with the water table"},
    {"acids/co2_water_and_ethanol_old",
     "its water column is 3 to 5 % high; strong drinks are refused instead"},
    {"acids/co2_in_ethanol_water_mixtures", "prose without numbers; sets the limit of 30 % vol"},
    {"water-activity/growth_limits", "food safety, shown as cautions and not computed"},
    {"water-activity/saturated_salts_25C", "no saturated brine is computed"},
    {"water-activity/fda_low_acid", "law, shown as cautions and not computed"},
    {"water-activity/alcohol_preservation", "no standard fixes a number; shown as cautions"},
    {"water-activity/delle_units", "from memory and not found; not computed"},
    {"sweetness/relative_sweetness_polyols", "no ingredient carries polyols"},
    {"sweetness/glucose_syrup_law", "law on naming, not computed"},
    {"sweetness/usda_syrups", "ingredient facts: checked with the handbook"},
    {"sweetness/usda_sugars", "ingredient facts: checked with the handbook"},
    {"sweetness/usda_juices", "ingredient facts: checked with the handbook"},
    {"sweetness/usda_other", "ingredient facts: checked with the handbook"},
    {"sweetness/demerara", "ingredient facts, from memory: checked with the handbook"},
    {"sensory/hedonic_nine_point", "words: compared in tests/core/tasting, with the sheets"},
    {"sensory/williams_designs", "compared in tests/core/tasting, with the balance of the designs"},
    {"sweetness/honey_density", "ingredient facts: checked with the handbook"},
};

constexpr const char* kFiles[] = {"ethanol-water",  "sucrose-water", "ternary",  "thermal", "acids",
                                  "water-activity", "sweetness",     "servings", "sensory"};
constexpr const char* kTests[] = {"acids_test.cpp",   "activity_test.cpp", "ethanol_water_test.cpp",
                                  "sensory_test.cpp", "servings_test.cpp", "sucrose_water_test.cpp",
                                  "ternary_test.cpp", "thermal_test.cpp"};

std::string testText() {
    std::string all;
    for (const char* name : kTests) {
        std::ifstream stream(std::string(STILLROOM_SOURCE_DIR "/tests/reference/") + name);
        REQUIRE(stream);
        all.append(std::istreambuf_iterator<char>(stream), {});
    }
    return all;
}

} // namespace

TEST_CASE("Every published dataset is compared or says why it is not", "[reference][coverage]") {
    const std::string tests = testText();
    std::set<std::string> listed;
    for (const char* file : kFiles) {
        for (const auto& set : reference::document(file)["datasets"]) {
            const std::string id = set["id"];
            CAPTURE(file, id);
            CHECK_FALSE(set["source"].get<std::string>().empty());
            const std::string key = std::string(file) + "/" + id;
            const bool excused = kNotCompared.count(key) > 0;
            if (excused) listed.insert(key);
            // A comparison names its dataset; the quotes keep one id from passing for another.
            const bool compared = tests.find("\"" + id + "\"") != std::string::npos;
            CHECK(compared != excused);
        }
    }
    CHECK(listed.size() == kNotCompared.size()); // no excuse for what is not there
}
