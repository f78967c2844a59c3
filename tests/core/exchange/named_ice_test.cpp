#include "tests/support/catch.h"

#include "core/exchange/read_text.h"
#include "core/spec/caution.h"
#include "core/spec/evaluate.h"
#include "core/spec/held_readings.h"
#include "core/spec/more_readings.h"

#include <algorithm>

using namespace stillroom;
using spec::Quantity;
using spec::Stage;

namespace {

spec::Spec specOf(const std::string& lines, const std::string& method) {
    const auto read = exchange::readText("Low Water\n\n" + lines + "\n\nMethod: " + method + "\n");
    REQUIRE(read.drinks.size() == 1);
    return exchange::toSpec(read.drinks.front(), larder::Larder());
}

spec::Reading waterOf(const spec::Spec& drink) {
    const spec::Bindings bindings(drink, larder::Larder(), {});
    return spec::evaluate(drink, bindings)[Stage::Served][Quantity::Dilution];
}

spec::Reading waterOf(const std::string& method) {
    return waterOf(specOf("50 ml vodka\n50 ml apple juice", method));
}

} // namespace

TEST_CASE("A method that names no ice adds no water of it", "[read][ice]") {
    for (const char* method :
         {"Stir without ice.", "Stir until the sugar dissolves.", "Muddle and stir over ice cream.",
          "Blend with cream until smooth, no ice.", "Mix everything together and bottle.",
          "Pour into a glass.", "Build in the bottle and chill.", "Freeze overnight in the freezer.",
          "Build in the glass, no ice."}) {
        INFO(method);
        CHECK(waterOf(method).value == 0);
    }
    for (const char* method : {"Stir with ice, strain.", "Shake, strain.", "Build over ice.",
                               "Dry shake without ice, then shake with ice."}) {
        INFO(method);
        CHECK(waterOf(method).value > 0.2);
    }
    CHECK(waterOf("Build in a highball.").estimate);
}

TEST_CASE("Ice weighed among the lines of a blended drink is drunk", "[read][ice]") {
    const auto weighed =
        waterOf(specOf("60 ml white rum\n30 ml lime juice\n20 ml simple syrup\n200 g crushed ice", "Blend."));
    // 200 g over 0.9982 g/ml over the 110 ml before it, less what they contract
    CHECK(weighed.value == Approx(200 / 0.9982 / 110).epsilon(0.01));
    CHECK_FALSE(weighed.estimate);
    const auto spooned = waterOf(specOf("60 ml white rum\n240 ml crushed ice", "Blend until smooth."));
    CHECK(spooned.value == Approx(240 * 0.525 / 0.9982 / 60).epsilon(0.01));
    CHECK(spooned.estimate);
}

TEST_CASE("What a method says of its lines is their role", "[read]") {
    const auto tall = specOf("50 ml whisky\n120 ml soda water", "Build over ice, top with soda.");
    CHECK(tall.lines[0].role == spec::Role::Mixed);
    CHECK(tall.lines[1].role == spec::Role::Topped);
    const auto wine = specOf("50 ml gin\n20 ml lemon juice\n60 ml sparkling wine",
                             "Shake all but the wine with ice, strain.");
    CHECK(wine.lines[2].role == spec::Role::Topped);
    const auto half =
        specOf("50 ml gin\n120 ml tonic water", "Build with half the tonic, top with the rest.");
    CHECK(half.lines[1].role == spec::Role::Mixed);
    const auto alone = specOf("120 ml soda water", "Top with soda water.");
    CHECK(alone.lines[0].role == spec::Role::Mixed);
}

TEST_CASE("A drink built or strained over ice is held with it", "[read][held]") {
    const std::string lines = "50 ml whisky\n100 ml apple juice";
    CHECK(spec::standsOnIce(specOf(lines, "Build over ice.")));
    CHECK(spec::standsOnIce(specOf(lines, "Stir with ice. Strain over a large cube.")));
    CHECK_FALSE(spec::standsOnIce(specOf(lines, "Shake with ice, strain into a coupe.")));
    CHECK_FALSE(spec::standsOnIce(specOf(lines, "Pour over ice cream.")));
}

TEST_CASE("Only juice buffers a pH and only as much as there is of it", "[read][more]") {
    const auto ph = [](const std::string& lines) {
        const auto drink = specOf(lines, "Mix.");
        return spec::moreReadings(drink, spec::Bindings(drink, larder::Larder(), {}),
                                  Stage::Served)[spec::More::Ph];
    };
    const auto thin = ph("10 ml lemon juice\n200 ml water");
    REQUIRE(thin.bound == spec::Bound::Between);
    CHECK(thin.upper - thin.value < 0.4); // undiluted alkali would make it 6.8
    CHECK(ph("6 g citric acid\n1 l water").bound == spec::Bound::Exact);
    // egg white buffers as juice does: its volume counts
    const auto watery = ph("20 ml lemon juice\n60 ml water");
    const auto eggy = ph("20 ml lemon juice\n60 ml egg white");
    CHECK(eggy.upper > watery.upper + 0.2);
}

TEST_CASE("A drink without alcohol is cautioned as one", "[caution]") {
    const auto fires = [](const std::string& lines, std::string_view id) {
        const auto drink = specOf(lines, "Mix.");
        const spec::Bindings bindings(drink, larder::Larder(), {});
        const auto list = spec::cautions(drink, bindings, spec::evaluateWithTemperatures(drink, bindings));
        return std::any_of(list.begin(), list.end(), [&](const spec::Caution& c) { return c.id == id; });
    };
    CHECK(fires("20 g honey\n200 ml water", "sprouts_honey_infants"));
    CHECK_FALSE(fires("20 g honey\n60 ml vodka", "sprouts_honey_infants"));
}

TEST_CASE("Acid in plain water is kept out of copper too", "[caution]") {
    const auto drink = specOf("6 g citric acid\n1 l water", "Mix.");
    const spec::Bindings bindings(drink, larder::Larder(), {});
    spec::CautionContext kept;
    kept.vessel = "bare_copper";
    const auto list = spec::cautions(drink, bindings, spec::evaluate(drink, bindings), kept);
    CHECK(std::any_of(list.begin(), list.end(), [](const spec::Caution& c) { return c.id == "copper"; }));
}
