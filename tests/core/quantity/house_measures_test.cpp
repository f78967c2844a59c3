#include "core/quantity/house_measures.h"

#include "core/base/text.h"
#include "tests/support/catch.h"

using namespace stillroom::quantity;

// common practice and USDA SR26, as named in resources/handbook/measures.json
TEST_CASE("House measures have their published or customary defaults", "[quantity][house]") {
    const HouseMeasures& house = HouseMeasures::defaults();
    CHECK(house.ml(Measure::Dash) == 0.92);
    CHECK(house.ml(Measure::Barspoon) == 5);
    CHECK(house.ml(Measure::Drop) == 0.05);
    CHECK(house.ml(Measure::Splash) == 7);
    CHECK(house.ml(Measure::Shot) == 30);
    CHECK(house.ml(Measure::Jigger) == Approx(1.5 * 29.5735295625).epsilon(1e-12));
    CHECK(house.ml(Measure::Pony) == 29.5735295625);
    CHECK(house.ml(Measure::Wineglass) == 59.147059125);
    CHECK(house.ml(Measure::Dessertspoon) == 10);
    CHECK(house.grams(Measure::Pinch) == 0.36);
    CHECK(house.grams(Measure::Scoop) == 65);
    CHECK(house.rinseRetainedMl.typical == 2);
    CHECK(house.countMl.at("egg white").typical == 32.1);
    CHECK(house.countMl.at("lime juice").typical == 30);
    CHECK(house.countMl.at("lemon juice").typical == 46.5);
    CHECK(house.countG.at("sugar cube").typical == 2.3);
}

TEST_CASE("Exact measures need no setting and counts have no size", "[quantity][house]") {
    const HouseMeasures none;
    CHECK(none.ml(Measure::Ml) == 1);
    CHECK(none.ml(Measure::FlozUs) == 29.5735295625);
    CHECK(none.grams(Measure::OzMass) == 28.349523125);
    CHECK_FALSE(none.ml(Measure::Dash));
    CHECK_FALSE(none.grams(Measure::Pinch));
    for (const MeasureInfo& info : measures()) {
        CAPTURE(info.id);
        const HouseMeasures& house = HouseMeasures::defaults();
        CHECK(house.ml(info.measure).has_value() == (info.dimension == Dimension::Volume));
        // A handful has no number anywhere: it is never counted.
        CHECK(house.grams(info.measure).has_value() ==
              (info.dimension == Dimension::Mass && info.measure != Measure::Handful));
    }
}

TEST_CASE("Every house size lies in its range and names its source", "[quantity][house]") {
    const HouseMeasures& house = HouseMeasures::defaults();
    const auto check = [](const HouseSize& size) {
        CHECK(size.low <= size.typical);
        CHECK(size.typical <= size.high);
        CHECK(size.typical > 0);
        CHECK_FALSE(size.source.empty());
    };
    for (const auto& [measure, size] : house.volumesMl)
        check(size);
    for (const auto& [measure, size] : house.massesG)
        check(size);
    for (const auto* counts : {&house.countMl, &house.countG}) {
        for (const auto& [name, size] : *counts) {
            check(size);
            CHECK(name == stillroom::base::fold(name));
        }
    }
    check(house.rinseRetainedMl);
}

TEST_CASE("House measures survive being written and read", "[quantity][house]") {
    HouseMeasures house = HouseMeasures::defaults();
    house.volumesMl[Measure::Dash] = {0.8, 0.8, 0.8, "this house, \"measured\" \\ twice"};
    house.countMl["kumquat juice"] = {3.25, 1.0 / 3.0, 4, "this house"};
    const std::string text = house.toJsonText();
    const auto read = HouseMeasures::fromJsonText(text);
    REQUIRE(read);
    CHECK(*read == house);
    CHECK(read->toJsonText() == text);
}

TEST_CASE("House measures that cannot be meant are refused", "[quantity][house]") {
    const std::string good = HouseMeasures::defaults().toJsonText();
    REQUIRE(HouseMeasures::fromJsonText(good));
    const auto changed = [&good](const std::string& from, const std::string& to) {
        std::string text = good;
        const auto at = text.find(from);
        REQUIRE(at != std::string::npos);
        return text.replace(at, from.size(), to);
    };
    CHECK_FALSE(HouseMeasures::fromJsonText(""));
    CHECK_FALSE(HouseMeasures::fromJsonText("{}"));
    CHECK_FALSE(HouseMeasures::fromJsonText("[]"));
    CHECK_FALSE(HouseMeasures::fromJsonText("null"));
    CHECK_FALSE(HouseMeasures::fromJsonText(good.substr(0, good.size() - 1)));
    CHECK_FALSE(HouseMeasures::fromJsonText(changed("\"dash\"", "\"dasch\"")));
    CHECK_FALSE(HouseMeasures::fromJsonText(changed("\"dash\"", "\"ml\""))); // fixed by law
    CHECK_FALSE(HouseMeasures::fromJsonText(changed("\"0.92\"", "0.92")));   // amounts are texts
    CHECK_FALSE(HouseMeasures::fromJsonText(changed("\"0.92\"", "\"-0.92\"")));
    CHECK_FALSE(HouseMeasures::fromJsonText(changed("\"0.92\"", "\"nan\"")));
    CHECK_FALSE(HouseMeasures::fromJsonText(changed("\"0.92\"", "\"0,92\"")));
    CHECK_FALSE(HouseMeasures::fromJsonText(changed("\"0.92\"", "\"9\""))); // above its own range
    CHECK_FALSE(HouseMeasures::fromJsonText(std::string(200'000, '[')));
    CHECK_FALSE(HouseMeasures::fromJsonText("{\"volumes_ml\":" + std::string(200'000, '[')));
}
