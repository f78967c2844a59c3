#include "core/physics/ice_in_glass.h"
#include "tests/support/catch.h"

#include <numbers>

using namespace stillroom;
using physics::GlassProfile;
using physics::IceInGlass;
using physics::IcePile;
using quantity::Volume;

namespace {

GlassProfile cylinder(double radius = 40, double height = 100) {
    GlassProfile glass;
    glass.points = {{0, radius}, {height, radius}};
    return glass;
}

IceInGlass cubes(int count, double edgeMm) {
    return {count * edgeMm * edgeMm * edgeMm / 1000 * physics::kIceGPerMl, edgeMm, count, false};
}

} // namespace

TEST_CASE("floating ice lifts the surface by its own mass of liquid", "[glass]") {
    const auto glass = cylinder();
    const IcePile pile(glass, cubes(1, 40), 0.99);
    // Archimedes: 64 ml of ice weigh 58.7 g, and so does what they displace.
    CHECK(pile.iceVolume().ml() == Approx(64));
    CHECK(pile.afloat().ml() == Approx(64 * 0.917 / 0.99));
    const double surface = pile.surfaceOf(Volume::fromMl(200));
    CHECK(pile.floatsAt(surface));
    CHECK(glass.volumeTo(surface).ml() == Approx(200 + 64 * 0.917 / 0.99).margin(1e-6));
    CHECK(surface - pile.bottomMm(surface) == Approx(40 * 0.917 / 0.99));
}

TEST_CASE("ice in little liquid stands on the floor and only what is wet displaces", "[glass]") {
    const auto glass = cylinder();
    const IcePile pile(glass, cubes(1, 40), 0.99);
    const double surface = pile.surfaceOf(Volume::fromMl(60));
    CHECK_FALSE(pile.floatsAt(surface));
    CHECK(pile.bottomMm(surface) == 0);
    CHECK(surface * (std::numbers::pi * 40 * 40 - 1600) / 1000 == Approx(60).margin(1e-6));
}

TEST_CASE("ice lighter liquids cannot carry is wholly under", "[glass]") {
    const auto glass = cylinder();
    const IcePile pile(glass, cubes(1, 30), 0.85); // overproof spirit
    CHECK(pile.afloat() == pile.iceVolume());
}

TEST_CASE("cubes that do not fit side by side stand upon each other", "[glass]") {
    const auto narrow = cylinder(30, 150);
    CHECK(IcePile(narrow, cubes(4, 40), 1).across() == 1);
    CHECK(IcePile(cylinder(60), cubes(4, 40), 1).across() == 4);
    CHECK(IcePile(narrow, cubes(1, 42), 1).passesRim());
    CHECK_FALSE(IcePile(narrow, cubes(1, 45), 1).passesRim()); // 63.6 mm corner to corner
    CHECK(IcePile(narrow, IceInGlass{60, 58, 1, true}, 1).passesRim());
}

TEST_CASE("the surface rises with every drop whatever the glass and its ice", "[glass][property]") {
    for (const auto& glass : physics::glassProfiles()) {
        for (const auto& ice : {IceInGlass{}, cubes(1, 45), cubes(6, 25), IceInGlass{120}}) {
            INFO(glass.id << " with " << ice.grams << " g of ice");
            const IcePile pile(glass, ice, 0.99);
            const double most = pile.liquidToRim().ml();
            CHECK(most > 0);
            double before = 0;
            for (int i = 1; i <= 50; ++i) {
                const auto liquid = Volume::fromMl(most * i / 50);
                const double surface = pile.surfaceOf(liquid);
                CHECK(surface > before);
                // Liquid and ice fill the glass to there and nothing else does.
                CHECK(glass.volumeTo(surface).ml() - pile.submerged(surface).ml() ==
                      Approx(liquid.ml()).margin(1e-3));
                CHECK(pile.heightBelow(liquid, surface) == Approx(surface).margin(0.2));
                before = surface;
            }
            CHECK(pile.surfaceOf(Volume::fromMl(most * 1.5)) == Approx(glass.rimHeightMm()));
        }
    }
}
