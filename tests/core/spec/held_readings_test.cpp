#include "core/spec/held_readings.h"
#include "tests/core/spec/builder.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using spec::HeldIn;
using spec::Quantity;
using spec::Stage;
using spec::Technique;

namespace {

Shelf shelf() {
    Shelf s;
    s.put("whiskey", {{45}, {0}, {0}}).put("syrup", {{0}, {614.8}, {0}}).put("water", {{0}, {0}, {0}});
    return s;
}

spec::Spec overOneCube() {
    auto d = drink({line("whiskey", 60), line("syrup", 7)}, Technique::Stir);
    d.glass = "low tumbler, over one 45 mm cube";
    return d;
}

spec::HeldCurve held(const spec::Spec& d, const spec::HeldAsk& ask = {}) {
    const Shelf s = shelf();
    const auto curve = spec::heldReadings(d, spec::Bindings(d, s.larder, s.rules()), ask);
    REQUIRE(curve);
    return *curve;
}

} // namespace

TEST_CASE("a held drink starts as it was served and takes up the water of its ice", "[spec][held]") {
    const auto d = overOneCube();
    const auto curve = held(d);
    REQUIRE(curve.points.size() == 31);
    const auto r = shelf().read(d);
    CHECK(curve.points[0].strengthPercent ==
          Approx(r[Stage::Served][Quantity::Strength].value).epsilon(1e-6));
    CHECK(curve.points[0].volumeMl == Approx(r[Stage::Served][Quantity::Volume].value).epsilon(1e-6));
    CHECK(curve.points[0].dilution == Approx(r[Stage::Mixed][Quantity::Dilution].value));
    CHECK(curve.points[0].celsius == Approx(r[Stage::Served][Quantity::Temperature].value).margin(1e-6));
    // The cube by its edge: 4.5³ × 0.917 g, and it is not assumed.
    CHECK(curve.iceAtStartG == Approx(83.56).margin(0.01));
    CHECK_FALSE(curve.iceAssumed);
    CHECK(curve.transferAssumed);
    for (std::size_t i = 1; i < curve.points.size(); ++i) {
        const auto& before = curve.points[i - 1];
        const auto& now = curve.points[i];
        CHECK(now.iceG <= before.iceG + 1e-9);
        CHECK(now.strengthPercent <= before.strengthPercent + 1e-9);
        CHECK(now.dilution >= before.dilution - 1e-9);
        // What left the ice is in the drink.
        const double water =
            (now.dilution - before.dilution) * r[Stage::Measured][Quantity::Volume].value * 0.9982;
        CHECK(water == Approx(before.iceG - now.iceG).margin(1e-6));
    }
    CHECK(curve.points.back().dilution > curve.points.front().dilution + 0.02);
}

TEST_CASE("without ice a drink only warms and in a warm room faster", "[spec][held]") {
    const auto d = overOneCube();
    const auto without = held(d, {HeldIn::GlassWithoutIce});
    CHECK(without.iceAtStartG == 0);
    CHECK(without.points.back().dilution == Approx(without.points.front().dilution));
    CHECK(without.points.back().celsius > without.points.front().celsius);
    CHECK(without.points.back().celsius < 20);
    const auto warm = held(d, {HeldIn::WarmRoom});
    const auto cool = held(d);
    CHECK(warm.roomC == 30);
    CHECK(warm.points.back().dilution > cool.points.back().dilution);
}

TEST_CASE("ice nobody weighed is assumed and said so", "[spec][held]") {
    auto d = overOneCube();
    d.glass = "tumbler";
    const auto curve = held(d);
    CHECK(curve.iceAssumed);
    CHECK(curve.iceAtStartG == 100);
    CHECK_FALSE(held(d, {HeldIn::WarmRoom}).iceAssumed);
    d.iceInGlassG = 60;
    CHECK(held(d).iceAtStartG == 60);
}

TEST_CASE("a measured temperature sets the heat transfer", "[spec][held]") {
    const auto d = overOneCube();
    spec::HeldAsk ask{HeldIn::GlassWithoutIce};
    const double assumed = held(d, ask).points[10].celsius;
    const auto measured = quantity::Temperature::fromCelsius(assumed + 1.5);
    ask.measured = spec::HeldMeasured{10, measured};
    const auto curve = held(d, ask);
    CHECK_FALSE(curve.transferAssumed);
    CHECK(curve.points[10].celsius == Approx(assumed + 1.5).margin(0.01));
    // No transfer warms it past the room.
    ask.measured = spec::HeldMeasured{10, quantity::Temperature::fromCelsius(40)};
    const Shelf s = shelf();
    CHECK_FALSE(spec::heldReadings(d, spec::Bindings(d, s.larder, s.rules()), ask));
}

TEST_CASE("nothing is held of a drink whose temperature nobody knows", "[spec][held]") {
    const Shelf s = shelf();
    const auto d = drink({line("whiskey", 60), line("water", 60)}, Technique::Hot);
    CHECK_FALSE(spec::heldReadings(d, spec::Bindings(d, s.larder, s.rules())));
}
