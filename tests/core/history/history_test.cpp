#include "core/history/history.h"

#include "core/base/hash.h"
#include "tests/support/catch.h"

using namespace stillroom;
using history::readingsFromJson;
using history::readingsToJson;
using spec::Bound;
using spec::Quantity;
using spec::Stage;

namespace {

spec::Readings varied() {
    spec::Readings readings;
    readings.serves = 3;
    readings.standardDrinkGrams = 12.7;
    readings[Stage::Measured][Quantity::PouredVolume] = {112.5, 0, Bound::Exact, false, 0};
    readings[Stage::Measured][Quantity::Strength] = {1.0 / 3.0, 0, Bound::Exact, true, 0};
    readings[Stage::Mixed][Quantity::Sugar] = {7.1, 0, Bound::AtLeast, false, 5};
    readings[Stage::Mixed][Quantity::Acid] = {0, 2.5e-7, Bound::Between, true, 1ULL << 63};
    readings[Stage::Served][Quantity::SugarAcidRatio] = {0, 0, Bound::NotApplicable, false, 0};
    readings[Stage::Served][Quantity::Temperature] = {-4.25, 0, Bound::AtMost, false, 0};
    readings[Stage::Served][Quantity::Cost] = {0, 0, Bound::Exact, false, 0};
    readings[Stage::Served][Quantity::EnergyKj] = {123456789.123, 0, Bound::Unknown, false, 7};
    return readings;
}

history::Revision someRevision() {
    history::Revision revision;
    revision.id = *base::RevisionId::fromText("00112233445566778899aabbccddeeff");
    revision.drink = *base::DrinkId::fromText("0f0e0d0c0b0a09080706050403020100");
    revision.number = 4;
    revision.reason = "less sweet, “drier”\n";
    revision.kept = {1793649600000, -90};
    revision.readings = varied();
    revision.measures = quantity::HouseMeasures::defaults();
    revision.facts.states[base::IngredientId::derivedFrom("gin")] = std::string(64, 'a');
    return revision;
}

} // namespace

TEST_CASE("readings come back exactly from their JSON", "[history]") {
    CHECK(readingsFromJson(readingsToJson(varied())) == varied());
    CHECK(readingsFromJson(readingsToJson({})) == spec::Readings{});
    CHECK(readingsToJson(*readingsFromJson(readingsToJson(varied()))) == readingsToJson(varied()));
}

TEST_CASE("readings are written with sorted keys and without what says nothing", "[history]") {
    spec::Readings readings;
    readings[Stage::Measured][Quantity::Strength] = {21.5, 0, Bound::Exact, false, 0};
    readings[Stage::Measured][Quantity::Acid] = {0.9, 0, Bound::AtLeast, false, 2};
    CHECK(readingsToJson(readings) ==
          R"({"serves":1,"stages":{"measured":{"acid":{"bound":"at_least","gap_lines":"2","value":"0.9"},)"
          R"("strength":"21.5"},"mixed":{},"served":{}},"standard_drink_grams":"10"})");
}

TEST_CASE("a stage that reads as the one before it is written once", "[history]") {
    spec::Readings readings = varied();
    readings[Stage::Mixed] = readings[Stage::Measured];
    readings[Stage::Served] = readings[Stage::Measured];
    const std::string text = readingsToJson(readings);
    CHECK_THAT(text, Catch::Contains(R"("mixed":"measured","served":"mixed")"));
    CHECK(readingsFromJson(text) == readings);
    // No stage repeats itself or a later one.
    const auto at = text.find(R"("mixed":"measured")");
    CHECK_FALSE(readingsFromJson(std::string(text).replace(at, 18, R"("mixed":"mixed")")));
    CHECK_FALSE(readingsFromJson(std::string(text).replace(at, 18, R"("mixed":"served")")));
    CHECK_FALSE(readingsFromJson(std::string(text).replace(at, 18, R"("mixed":"muddled")")));
}

TEST_CASE("readings that cannot be read are refused", "[history]") {
    const std::string good = readingsToJson(varied());
    const auto spoiled = [&](const std::string& from, const std::string& to) {
        const auto at = good.find(from);
        REQUIRE(at != std::string::npos);
        return std::string(good).replace(at, from.size(), to);
    };
    CHECK_FALSE(readingsFromJson(""));
    CHECK_FALSE(readingsFromJson("[]"));
    CHECK_FALSE(readingsFromJson("{}"));
    CHECK_FALSE(readingsFromJson(good.substr(0, good.size() - 1)));
    CHECK_FALSE(readingsFromJson(spoiled("at_least", "at_last")));
    CHECK_FALSE(readingsFromJson(spoiled("\"112.5\"", "112.5")));
    CHECK_FALSE(readingsFromJson(spoiled("\"112.5\"", "\"112.5 ml\"")));
    CHECK_FALSE(readingsFromJson(spoiled("\"serves\":3", "\"serves\":\"3\"")));
    CHECK_FALSE(readingsFromJson(spoiled("mixed", "muddled")));
    CHECK_FALSE(readingsFromJson(std::string(100000, '[')));
    CHECK_FALSE(readingsFromJson(spoiled("{\"serves\"", std::string(100000, '{') + "\"serves\"")));
}

TEST_CASE("everything that makes a revision is in its content, and nothing else", "[history]") {
    const history::Revision revision = someRevision();
    const auto differs = [&](auto change) {
        history::Revision other = revision;
        change(other);
        return other.contentHash() != revision.contentHash();
    };
    CHECK(differs([](auto& r) { r.spec.lines.emplace_back(); }));
    CHECK(differs([](auto& r) { r.spec.method.text = "stir"; }));
    CHECK(differs([](auto& r) { r.facts.states.begin()->second[0] = 'b'; }));
    CHECK(differs(
        [](auto& r) { r.facts.pours[r.facts.states.begin()->first] = base::IngredientId::random(); }));
    CHECK(differs(
        [](auto& r) { r.facts.preparations[r.facts.states.begin()->first] = base::RevisionId::random(); }));
    CHECK(differs([](auto& r) { r.measures.volumesMl[quantity::Measure::Dash].typical += 0.01; }));
    CHECK(differs([](auto& r) {
        r.readings[Stage::Served][Quantity::Strength] = {1, 0, Bound::Exact, false, 0};
    }));
    CHECK(differs([](auto& r) { r.currency = *quantity::Currency::fromCode("JPY"); }));
    CHECK(differs([](auto& r) { r.parent = base::RevisionId::random(); }));
    CHECK(differs([](auto& r) { r.reason += ' '; }));
    CHECK(differs([](auto& r) { r.kept.utcMs += 1; }));
    CHECK(differs([](auto& r) { r.kept.offsetMinutes += 1; }));
    CHECK(differs([](auto& r) { r.calcVersion += 1; }));
    CHECK(differs([](auto& r) { r.drink = base::DrinkId::random(); }));
    CHECK_FALSE(differs([](auto& r) { r.id = base::RevisionId::random(); }));
    CHECK_FALSE(differs([](auto& r) { r.number += 1; }));
    CHECK_FALSE(differs([](auto& r) { r.hash = "unset"; }));
}

TEST_CASE("a revision's content is written the same by every program", "[history]") {
    // A change here would orphan every revision ever kept.
    history::Revision revision = someRevision();
    revision.readings = {};
    revision.calcVersion = 1;
    revision.facts.states = {{*base::IngredientId::fromText("00000000000000000000000000000001"), "aa"}};
    CHECK(revision.canonicalContent() ==
          R"({"calc_version":1,"currency":"EUR","drink":"0f0e0d0c0b0a09080706050403020100",)"
          R"("facts":{"pours":{},"preparations":{},"states":{"00000000000000000000000000000001":"aa"}},)"
          R"("kept":{"offset_minutes":-90,"utc_ms":1793649600000},"measures":")" +
              base::sha256Hex(revision.measures.toJsonText()) +
              R"(","parent":null,"readings":{"serves":1,"stages":{"measured":{},"mixed":{},"served":{}},)"
              R"("standard_drink_grams":"10"},"reason":"less sweet, “drier”\n","spec":)" +
              revision.spec.canonicalJson() + "}");
}
