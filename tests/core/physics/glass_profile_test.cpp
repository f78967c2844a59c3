#include "core/physics/glass_profile.h"

#include "tests/support/catch.h"

#include <cmath>
#include <map>
#include <numbers>
#include <set>
#include <string>

using namespace stillroom;
using physics::GlassProfile;
using quantity::Volume;

namespace {

GlassProfile shape(std::vector<physics::ProfilePoint> points) {
    GlassProfile glass;
    glass.points = std::move(points);
    return glass;
}

} // namespace

TEST_CASE("a cylinder holds its circle times its height", "[glass]") {
    const GlassProfile cylinder = shape({{0, 30}, {100, 30}});
    CHECK(cylinder.brim().ml() == Approx(std::numbers::pi * 30 * 30 * 100 / 1000));
    CHECK(cylinder.volumeTo(25).ml() == Approx(cylinder.brim().ml() / 4));
    CHECK(cylinder.heightOf(cylinder.brim() * 0.25) == Approx(25));
    CHECK(cylinder.radiusAt(50) == Approx(30));
}

TEST_CASE("a cone holds a third and fills with the cube of the height", "[glass]") {
    const GlassProfile cone = shape({{0, 0}, {60, 50}});
    CHECK(cone.brim().ml() == Approx(std::numbers::pi * 50 * 50 * 60 / 3 / 1000));
    CHECK(cone.volumeTo(30).ml() == Approx(cone.brim().ml() / 8));
    CHECK(cone.heightOf(cone.brim() * 0.125) == Approx(30));
    CHECK(cone.radiusAt(30) == Approx(25));
}

TEST_CASE("height and volume are each other's inverse in every glass", "[glass]") {
    for (const GlassProfile& glass : physics::glassProfiles()) {
        INFO(glass.id);
        double last = -1;
        for (int percent = 1; percent <= 99; ++percent) {
            const Volume volume = glass.brim() * (percent / 100.0);
            const double height = glass.heightOf(volume);
            CHECK(glass.volumeTo(height).ml() == Approx(volume.ml()));
            CHECK(height > last);
            last = height;
        }
    }
}

TEST_CASE("outside the glass the ends hold", "[glass]") {
    const GlassProfile cylinder = shape({{0, 30}, {100, 30}});
    CHECK(cylinder.volumeTo(-5).ml() == 0);
    CHECK(cylinder.volumeTo(500).ml() == Approx(cylinder.brim().ml()));
    CHECK(cylinder.heightOf(Volume::fromMl(-1)) == 0);
    CHECK(cylinder.heightOf(Volume::fromMl(1e6)) == 100);
    CHECK(cylinder.heightOf(Volume::fromMl(std::nan(""))) == 0);
    CHECK(shape({}).brim().ml() == 0);
    CHECK(shape({}).heightOf(Volume::fromMl(10)) == 0);
}

TEST_CASE("every built-in glass is a sound shape of a size such glasses are made in", "[glass]") {
    // Brim capacities: measures, glasses (common practice, no source); the pints by law.
    const std::map<std::string, std::pair<double, double>> sizes{{"coupe", {140, 240}},
                                                                 {"v_glass", {120, 300}},
                                                                 {"small_stemmed", {130, 180}},
                                                                 {"tumbler_low", {180, 300}},
                                                                 {"tumbler_double", {300, 410}},
                                                                 {"highball", {240, 350}},
                                                                 {"collins", {300, 410}},
                                                                 {"flute", {150, 240}},
                                                                 {"wine_white", {240, 410}},
                                                                 {"wine_red", {400, 700}},
                                                                 {"hurricane", {400, 600}},
                                                                 {"tiki_mug", {350, 600}},
                                                                 {"mug_heatproof", {240, 300}},
                                                                 {"metal_cup", {350, 500}},
                                                                 {"julep_cup", {300, 360}},
                                                                 {"punch_cup", {150, 240}},
                                                                 {"shot", {30, 60}},
                                                                 {"snifter", {180, 700}},
                                                                 {"pint_imp", {568.16, 568.36}},
                                                                 {"pint_us", {473.08, 473.28}},
                                                                 {"espresso_cup", {60, 100}},
                                                                 {"cordial", {30, 90}}};
    CHECK(physics::glassProfiles().size() == sizes.size());
    for (const auto& [id, range] : sizes) {
        INFO(id);
        const GlassProfile* glass = physics::glassProfile(id);
        REQUIRE(glass != nullptr);
        CHECK(glass->brim().ml() >= range.first);
        CHECK(glass->brim().ml() <= range.second);
        CHECK_FALSE(glass->source.empty());
        CHECK(glass->points.front().heightMm == 0);
        for (std::size_t i = 1; i < glass->points.size(); ++i) {
            CHECK(glass->points[i].heightMm > glass->points[i - 1].heightMm);
            CHECK(glass->points[i].radiusMm > 0);
            CHECK(glass->points[i].radiusMm < 80);
        }
    }
}

TEST_CASE("a written glass finds its shape", "[glass]") {
    const auto found = [](const char* written) {
        const GlassProfile* glass = physics::glassProfileFor(written);
        return glass == nullptr ? std::string() : glass->id;
    };
    CHECK(found("low tumbler, over one 45 mm cube") == "tumbler_low");
    CHECK(found("Chilled coupe") == "coupe");
    CHECK(found("double rocks glass") == "tumbler_double");
    CHECK(found("Double Old-Fashioned") == "tumbler_double");
    CHECK(found("two highball glasses") == "highball");
    CHECK(found("coupe or flute") == "coupe");
    CHECK(found("large wine glass") == "wine_red");
    CHECK(found("heatproof mug with handle (warmed)") == "mug_heatproof");
    CHECK(found("espresso cup") == "espresso_cup");
    CHECK(found("a hollowed-out pineapple").empty());
    CHECK(found("").empty());
    CHECK(physics::glassProfile("no such glass") == nullptr);
}

TEST_CASE("no two glasses share a written name", "[glass]") {
    std::set<std::string> names;
    for (const GlassProfile& glass : physics::glassProfiles())
        for (const std::string& alias : glass.aliases)
            CHECK(names.insert(alias).second);
}

TEST_CASE("floating ice displaces its own mass of drink", "[glass]") {
    // A 50.8 mm cube weighs 120.2 g (measures, ice): in water of 0.9982 it displaces 120.4 ml.
    CHECK(physics::iceDisplacement(120.2, 0.9982).ml() == Approx(120.417).epsilon(1e-4));
    CHECK(physics::iceDisplacement(0, 1).ml() == 0);
    CHECK(physics::iceDisplacement(10, 0).ml() == 0);
}
