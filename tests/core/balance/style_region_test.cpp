#include "core/balance/style_region.h"

#include "core/larder/handbook.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::balance;
using spec::Bound;
using spec::Quantity;
using spec::Stage;

namespace {

spec::Reading exactly(double value) {
    spec::Reading reading;
    reading.value = value;
    reading.bound = Bound::Exact;
    return reading;
}

spec::Readings served(double sugar, double acid, double strength, double dilution) {
    spec::Readings readings;
    readings[Stage::Served][Quantity::Sugar] = exactly(sugar);
    readings[Stage::Served][Quantity::Acid] = exactly(acid);
    readings[Stage::Served][Quantity::Strength] = exactly(strength);
    readings[Stage::Mixed][Quantity::Dilution] = exactly(dilution);
    return readings;
}

spec::Line line(const char* name) {
    spec::Line made;
    made.name = name;
    return made;
}

std::string styleId(const spec::Spec& spec, const spec::Readings& readings) {
    const StyleRegion* region = styleOf(spec, readings);
    return region ? region->id : "none";
}

} // namespace

// From memory: Arnold, Liquid Intelligence (2014), table of drink structure; final values as recorded in the
// reference data, dilution in per cent there.
TEST_CASE("The style regions are those of the structure table", "[balance]") {
    REQUIRE(styleRegions().size() == 6);
    for (const StyleRegion& region : styleRegions()) {
        CHECK(region.fromMemory);
        CHECK_FALSE(region.source.empty());
        CHECK(region.strength.stated);
        CHECK(region.sugar.stated);
    }
    const StyleRegion* sour = styleRegion("shaken_sour");
    REQUIRE(sour);
    CHECK(sour->name == "shaken sours");
    CHECK(sour->sugar == Range{5.0, 8.9});
    CHECK(sour->acid == Range{0.76, 0.94});
    CHECK(sour->strength == Range{15.0, 19.7});
    CHECK(sour->dilution == Range{0.51, 0.60});
    const StyleRegion* eggWhite = styleRegion("shaken_egg_white");
    REQUIRE(eggWhite);
    CHECK(eggWhite->sugar == Range{6.7, 9.0});
    CHECK(eggWhite->acid == Range{0.49, 0.68});
    CHECK(eggWhite->strength == Range{12.1, 15.2});
    const StyleRegion* stirred = styleRegion("stirred");
    REQUIRE(stirred);
    CHECK(stirred->sugar == Range{3.7, 5.6});
    CHECK(stirred->strength == Range{21, 29});
    CHECK(stirred->dilution == Range{0.41, 0.49});
    // Where the table has no figure there is no range.
    CHECK_FALSE(styleRegion("built")->acid.stated);
    CHECK_FALSE(styleRegion("blended")->dilution.stated);
    CHECK(styleRegion("nothing") == nullptr);
}

TEST_CASE("A list of styles that is not whole is refused", "[balance]") {
    CHECK_FALSE(styleRegionsFromJson("{}"));
    CHECK_FALSE(styleRegionsFromJson("[]"));
    const std::string head = R"({"schema":"stillroom-styles/1","source":"s","from_memory":false,"styles":[)";
    const auto read = styleRegionsFromJson(head + R"({"id":"a","name":"b","acid_g_per_100ml":[0.1,0.2]}]})");
    REQUIRE(read);
    CHECK_FALSE(read->front().fromMemory);
    CHECK_FALSE(read->front().sugar.stated);
    CHECK_FALSE(styleRegionsFromJson(head + R"({"id":"a"}]})"));
    CHECK_FALSE(styleRegionsFromJson(head + R"({"id":"a","name":"b","acid_g_per_100ml":[0.2,0.1]}]})"));
    CHECK_FALSE(styleRegionsFromJson(head + R"({"id":"a","name":"b","acid_g_per_100ml":0.2}]})"));
}

TEST_CASE("A spec's style follows from its technique and what it holds", "[balance]") {
    spec::Spec spec;
    spec.lines = {line("London dry gin"), line("lemon juice"), line("sugar syrup")};
    const spec::Readings sour = served(6, 0.85, 17, 0.55);
    const spec::Readings mild = served(4, 0.12, 25, 0.45);
    CHECK(styleId(spec, sour) == "none"); // no technique
    spec.method.technique = spec::Technique::Shake;
    CHECK(styleId(spec, sour) == "shaken_sour");
    CHECK(styleId(spec, mild) == "none");
    spec.lines.push_back(line("Eiweiß"));
    CHECK(styleId(spec, sour) == "shaken_egg_white");
    spec.lines.back().optional = true;
    CHECK(styleId(spec, sour) == "shaken_sour");
    spec.lines.back() = line("foam of the house");
    spec.lines.back().ingredient = larder::Handbook::idOf("aquafaba");
    CHECK(styleId(spec, sour) == "shaken_egg_white");
    spec.lines.back() = line("soda water");
    spec.lines.back().role = spec::Role::Topped;
    CHECK(styleId(spec, sour) == "none");
    spec.lines.pop_back();
    spec.method.technique = spec::Technique::Stir;
    CHECK(styleId(spec, mild) == "stirred");
    CHECK(styleId(spec, sour) == "none");
    spec.method.technique = spec::Technique::Build;
    CHECK(styleId(spec, mild) == "none"); // a long drink: there is juice in it
    spec.lines = {line("bourbon"), line("sugar syrup")};
    CHECK(styleId(spec, mild) == "built");
    spec.method.technique = spec::Technique::Blend;
    CHECK(styleId(spec, sour) == "blended");
    spec.method.technique = spec::Technique::Carbonate;
    CHECK(styleId(spec, mild) == "carbonated");
    spec.method.technique = spec::Technique::Hot;
    CHECK(styleId(spec, mild) == "none");
}

TEST_CASE("Long and sparkling drinks are in none of the published styles", "[balance]") {
    spec::Spec spec;
    const spec::Readings mild = served(7, 0.12, 28, 0.24);
    spec.method.technique = spec::Technique::Build;
    spec.lines = {line("bourbon"), line("demerara syrup"), line("aromatic bitters"), line("plain water")};
    CHECK(styleId(spec, mild) == "built");
    for (const char* longer : {"soda water", "pineapple juice", "lager", "red wine", "grapefruit soda"}) {
        CAPTURE(longer);
        spec.lines.back() = line(longer);
        CHECK(styleId(spec, mild) == "none");
    }
    spec.lines.back() = line("limes");
    CHECK(styleId(spec, mild) == "built"); // a wedge, not its juice
    spec.lines.back().juiceOf = true;
    CHECK(styleId(spec, mild) == "none");
    spec.lines = {line("gin"), line("lemon juice"), line("sparkling wine")};
    spec.method.technique = spec::Technique::Shake;
    CHECK(styleId(spec, served(6, 0.7, 12, 0.5)) == "none");
    spec.lines.back().role = spec::Role::Garnish; // a drop on the rim does not make it sparkle
    CHECK(styleId(spec, served(6, 0.7, 12, 0.5)) == "shaken_sour");
}

TEST_CASE("Acid that may or may not be there makes no sour", "[balance]") {
    spec::Spec spec;
    spec.method.technique = spec::Technique::Shake;
    spec::Readings readings = served(6, 0.85, 17, 0.55);
    auto& acid = readings[Stage::Served][Quantity::Acid];
    acid.bound = Bound::AtLeast;
    CHECK(styleId(spec, readings) == "shaken_sour");
    acid.bound = Bound::AtMost;
    CHECK(styleId(spec, readings) == "none");
    acid.bound = Bound::Unknown;
    CHECK(styleId(spec, readings) == "none");
}

TEST_CASE("The placement is told in words and only where it is sure", "[balance]") {
    const StyleRegion& sour = *styleRegion("shaken_sour");
    CHECK(placementSentence(sour, served(7, 0.85, 17, 0.55)).empty());
    CHECK(placementSentence(sour, served(5.0, 0.76, 15.0, 0.51)).empty()); // on the edge is inside
    CHECK(placementSentence(sour, served(7, 0.73, 17, 0.55)) ==
          "Softer than shaken sours usually are: acid 0.73, they run 0.76 to 0.94.");
    CHECK(placementSentence(sour, served(9.6, 1.02, 17, 0.55)) ==
          "Sharper and sweeter than shaken sours usually are: acid 1.02, they run 0.76 to 0.94; sugar 9.6, "
          "they run 5.0 to 8.9.");
    CHECK(
        placementSentence(sour, served(7, 0.85, 21.04, 0.45)) ==
        "Stronger and less diluted than shaken sours usually are: strength 21.0 % vol, they run 15.0 to 19.7 "
        "% vol; dilution 45 %, they run 51 to 60 %.");
    // What is shown as 0.76 is not said to be below 0.76.
    CHECK(placementSentence(sour, served(7, 0.7551, 17, 0.55)).empty());

    spec::Readings open = served(7, 0.6, 17, 0.55);
    open[Stage::Served][Quantity::Acid].bound = Bound::AtLeast;
    CHECK(placementSentence(sour, open).empty()); // it may well be more
    open[Stage::Served][Quantity::Acid].value = 1.1;
    CHECK(placementSentence(sour, open) ==
          "Sharper than shaken sours usually are: acid at least 1.10, they run 0.76 to 0.94.");
    open[Stage::Served][Quantity::Acid].bound = Bound::Unknown;
    CHECK(placementSentence(sour, open).empty());

    // One recorded figure is a neighbourhood.
    const StyleRegion& built = *styleRegion("built");
    CHECK(placementSentence(built, served(7.2, 0, 30, 0.25)).empty());
    CHECK(placementSentence(built, served(5.0, 0, 30, 0.25)) ==
          "Drier than built drinks usually are: sugar 5.0, they sit near 7.6.");
}
