#include "core/larder/facts.h"

#include "tests/support/catch.h"

#include <algorithm>
#include <array>
#include <random>

using namespace stillroom::larder;
using stillroom::physics::Substance;

namespace {

double anyNumber(std::mt19937_64& random) {
    switch (random() % 4) {
    case 0:
        return static_cast<double>(random() % 2000) / 10.0;
    case 1:
        return std::uniform_real_distribution<double>(0, 1500)(random);
    case 2:
        return std::uniform_real_distribution<double>(0, 1e-9)(random);
    default:
        return static_cast<double>(random() % 1000);
    }
}

std::optional<Fact> anyFact(std::mt19937_64& random) {
    if (random() % 3 == 0) return std::nullopt;
    std::array<double, 3> numbers{anyNumber(random), anyNumber(random), anyNumber(random)};
    std::sort(numbers.begin(), numbers.end());
    const std::array<std::string, 4> sources{"label", "", "\"quoted\" \\ source,\nnew line",
                                             "zumo de limón, 20 °C"};
    return Fact{numbers[1],
                numbers[0],
                numbers[2],
                static_cast<SourceKind>(random() % 4),
                sources[random() % sources.size()],
                random() % 2 != 0 ? "2026-11-25" : ""};
}

Shares anyShares(std::mt19937_64& random) {
    Shares shares;
    for (std::size_t n = random() % 4; n > 0; --n)
        shares.parts.emplace_back(static_cast<Substance>(random() % stillroom::physics::kSubstanceCount),
                                  anyNumber(random));
    return shares;
}

FactState anyState(std::mt19937_64& random) {
    FactState state;
    for (const FactKey& key : factKeys())
        state.*key.member = anyFact(random);
    state.sugarShares = anyShares(random);
    state.acidShares = anyShares(random);
    state.dry = random() % 2 != 0;
    state.soluble = random() % 2 != 0;
    state.carbonated = random() % 2 != 0;
    if (random() % 2 != 0) state.allergens.emplace();
    if (state.allergens && random() % 2 != 0) state.allergens->push_back("milk");
    if (random() % 2 != 0) state.tags = {"bitters", "gentian"};
    if (random() % 2 != 0) state.group = "crème";
    return state;
}

} // namespace

TEST_CASE("A fact state comes back from its canonical JSON exactly", "[larder][facts]") {
    std::mt19937_64 random(20261125);
    for (int i = 0; i < 2000; ++i) {
        const FactState state = anyState(random);
        const std::string text = state.canonicalJson();
        const auto again = FactState::fromCanonicalJson(text);
        REQUIRE(again);
        REQUIRE(*again == state);
        REQUIRE(again->canonicalJson() == text);
    }
}

TEST_CASE("The canonical JSON has sorted keys and numbers as strings and leaves out what is not known",
          "[larder][facts]") {
    FactState state;
    state.sugarGPerL = Fact{25.3, 20, 30.5, SourceKind::Label, "label"};
    state.abvPercent = Fact::single(40, SourceKind::Measured, "hydrometer");
    state.sugarShares.parts = {{Substance::Glucose, 0.5}, {Substance::Fructose, 0.5}};
    state.allergens.emplace();
    CHECK(
        state.canonicalJson() ==
        R"({"abv_percent":{"high":"40","low":"40","source":"hydrometer","source_kind":"measured","typical":"40"},)"
        R"("allergens":[],)"
        R"("sugar_g_per_l":{"high":"30.5","low":"20","source":"label","source_kind":"label","typical":"25.3"},)"
        R"("sugar_shares":[["glucose","0.5"],["fructose","0.5"]]})");
    CHECK(FactState{}.canonicalJson() == "{}");
    // SHA-256 of "{}", as any tool prints it.
    CHECK(FactState{}.hash() == "44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a");
}

TEST_CASE("Not stated and none are different allergen facts", "[larder][facts]") {
    FactState unknown;
    FactState none;
    none.allergens.emplace();
    CHECK(unknown.hash() != none.hash());
    CHECK_FALSE(FactState::fromCanonicalJson(unknown.canonicalJson())->allergens.has_value());
    CHECK(FactState::fromCanonicalJson(none.canonicalJson())->allergens.has_value());
}

TEST_CASE("Canonical JSON that does not say a fact state is refused", "[larder][facts]") {
    const auto fact = [](const std::string& inside) { return "{\"abv_percent\":{" + inside + "}}"; };
    const std::string good = R"("high":"40","low":"40","source":"","source_kind":"label","typical":"40")";
    REQUIRE(FactState::fromCanonicalJson(fact(good)));
    const std::vector<std::string> bad{
        "",
        "[]",
        "{",
        R"({"abv":{}})",
        R"({"abv_percent":40})",
        fact(R"("high":40,"low":40,"source":"","source_kind":"label","typical":40)"),
        fact(R"("high":"40","low":"41","source":"","source_kind":"label","typical":"40")"),
        fact(R"("high":"nan","low":"nan","source":"","source_kind":"label","typical":"nan")"),
        fact(R"("high":"inf","low":"40","source":"","source_kind":"label","typical":"40")"),
        fact(R"("high":"40 ","low":"40","source":"","source_kind":"label","typical":"40")"),
        fact(R"("high":"40","low":"40","source":"","source_kind":"hearsay","typical":"40")"),
        fact(good + R"(,"more":"1")"),
        R"({"sugar_shares":[["sawdust","1"]]})",
        R"({"dry":"yes"})",
        R"({"allergens":[1]})",
        "{\"tags\":" + std::string(100000, '[') + std::string(100000, ']') + "}",
    };
    for (const std::string& text : bad) {
        CAPTURE(text.substr(0, 80));
        CHECK_FALSE(FactState::fromCanonicalJson(text));
    }
}
