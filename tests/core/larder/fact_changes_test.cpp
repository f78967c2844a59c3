#include "core/larder/fact_changes.h"

#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::larder;

TEST_CASE("An edit of facts tells what changed, with both sources", "[larder][facts]") {
    FactState before;
    before.abvPercent = Fact::single(40, SourceKind::Handbook, "handbook");
    before.sugarGPerL = Fact::single(250, SourceKind::Label, "label");
    before.tags = {"caffeine"};
    FactState after = before;
    CHECK(factChanges(before, after).isEmpty());

    after.abvPercent = Fact::single(43, SourceKind::Label, "label");
    after.sugarGPerL = Fact::single(250, SourceKind::Measured, "weighed 2026-11-02");
    after.acidGPerL = Fact::single(6, SourceKind::Assumed, "assumed");
    after.allergens = std::vector<std::string>{};
    after.sugarShares.parts = {{physics::Substance::Sucrose, 0.5}, {physics::Substance::Glucose, 0.5}};
    after.carbonated = true;
    const auto changes = factChanges(before, after);
    REQUIRE(changes.figures.size() == 3);
    CHECK(changes.figures[0].key == "abv_percent");
    CHECK(changes.figures[0].before->source == "handbook");
    CHECK(changes.figures[0].after->typical == 43);
    CHECK_FALSE(changes.figures[0].sameNumbers());
    CHECK(changes.figures[1].key == "sugar_g_per_l");
    CHECK(changes.figures[1].sameNumbers());
    CHECK_FALSE(changes.figures[2].before);
    REQUIRE(changes.words.size() == 3);
    // From "not stated" to "none": not the same thing.
    CHECK(changes.words[0] == WordsChange{"allergens", std::nullopt, std::vector<std::string>{}});
    CHECK(changes.words[1].after == std::vector<std::string>{"sucrose 0.5", "glucose 0.5"});
    CHECK(changes.words[2] ==
          WordsChange{"carbonated", std::vector<std::string>{"false"}, std::vector<std::string>{"true"}});
    const auto back = factChanges(after, before);
    CHECK(back.figures.size() == 3);
    CHECK_FALSE(back.figures[2].after);
}

TEST_CASE("Every field that makes another state makes a change", "[larder][facts]") {
    // Whatever tells two hashes apart must be told to a person.
    const FactState empty;
    std::vector<FactState> others;
    for (const FactKey& key : factKeys()) {
        FactState one;
        one.*key.member = Fact::single(1, SourceKind::Label, "label");
        others.push_back(one);
    }
    FactState one;
    one.sugarShares.parts = {{physics::Substance::Lactose, 1}};
    others.push_back(one);
    one = {};
    one.acidShares.parts = {{physics::Substance::Malic, 1}};
    others.push_back(one);
    one = {};
    one.dry = true;
    others.push_back(one);
    one = {};
    one.soluble = false;
    others.push_back(one);
    one = {};
    one.carbonated = true;
    others.push_back(one);
    one = {};
    one.allergens = std::vector<std::string>{"milk"};
    others.push_back(one);
    one = {};
    one.tags = {"ice"};
    others.push_back(one);
    one = {};
    one.group = "spirit";
    others.push_back(one);
    for (const FactState& other : others) {
        CAPTURE(other.canonicalJson());
        CHECK_FALSE(factChanges(empty, other).isEmpty());
        CHECK(other.hash() != empty.hash());
    }
}
