#include "tests/reference/published.h"
#include "tests/support/catch.h"

#include <fstream>
#include <iterator>
#include <map>
#include <set>
#include <string>

using namespace stillroom;

namespace {

constexpr const char* kFiles[] = {"ethanol-water",  "sucrose-water", "ternary",  "thermal", "acids",
                                  "water-activity", "sweetness",     "servings", "sensory", "trade"};
constexpr const char* kTests[] = {"acids_test.cpp",         "activity_test.cpp", "ethanol_water_test.cpp",
                                  "food_test.cpp",          "sensory_test.cpp",  "servings_test.cpp",
                                  "sucrose_water_test.cpp", "ternary_test.cpp",  "trade_test.cpp",
                                  "thermal_test.cpp"};

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
            const bool excused = reference::notCompared().count(key) > 0;
            if (excused) listed.insert(key);
            // A comparison names its dataset; the quotes keep one id from passing for another.
            const bool compared = tests.find("\"" + id + "\"") != std::string::npos;
            CHECK(compared != excused);
        }
    }
    CHECK(listed.size() == reference::notCompared().size()); // no excuse for what is not there
}
