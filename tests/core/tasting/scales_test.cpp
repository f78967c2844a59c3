#include "core/tasting/scales.h"

#include "core/tasting/tasting.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom::tasting;

TEST_CASE("The default scales begin with the five that files already have", "[tasting][scales]") {
    const auto& set = ScaleSet::defaults();
    CHECK(set.scales.size() == 7);
    CHECK_FALSE(set.problem());
    for (std::size_t i = 0; i < kScaleCount; ++i) {
        CHECK(set.scales[i].id == scaleId(static_cast<Scale>(i)));
        CHECK(set.scales[i].kind == ScaleKind::FifteenPoint);
    }
    CHECK(highestScore(ScaleKind::FifteenPoint) == kScaleTop);
    CHECK(ScaleSet::fromCanonicalJson(set.canonicalJson()) == set);
}

TEST_CASE("Scores written before there were kinds read as fifteen-point ones", "[tasting][scales]") {
    const std::string stored = R"({"bitter":0,"length":15,"sweet":11})"; // as the store writes it
    const auto scores = Scores::fromCanonicalJson(stored);
    REQUIRE(scores);
    CHECK(scores->of("sweet") == Score{11, ScaleKind::FifteenPoint});
    CHECK_FALSE(scores->of("sour"));
    CHECK(scores->canonicalJson() == stored);
    CHECK(Scores::fromCanonicalJson("{}")->byScale.empty());
}

TEST_CASE("A score keeps the kind it was given on", "[tasting][scales]") {
    Scores scores;
    scores.byScale["liking"] = {7, ScaleKind::NinePoint};
    scores.byScale["sweet_enough"] = {4, ScaleKind::JustAboutRight};
    scores.byScale["smoke"] = {3, ScaleKind::FifteenPoint};
    CHECK(Scores::fromCanonicalJson(scores.canonicalJson()) == scores);
    CHECK(scores.canonicalJson() == R"({"liking":{"kind":"nine_point","value":7},"smoke":3,)"
                                    R"("sweet_enough":{"kind":"just_about_right","value":4}})");
}

TEST_CASE("Scores off their scale and broken texts are refused", "[tasting][scales]") {
    for (const char* text :
         {R"({"sweet":16})", R"({"sweet":-1})", R"({"sweet":7.5})", R"({"sweet":"7"})", R"({"Sweet":7})",
          R"({"":7})", R"({"liking":{"kind":"nine_point","value":0}})",
          R"({"liking":{"kind":"nine_point","value":10}})",
          R"({"fit":{"kind":"just_about_right","value":6}})", R"({"liking":{"kind":"nine_point"}})",
          R"({"liking":{"kind":"nine_point","value":7,"note":1}})",
          R"({"liking":{"kind":"seven_point","value":7}})", "[]", "7", "", "{",
          R"({"a":{"b":{"c":{"d":{"e":1}}}}})"})
        CHECK_FALSE(Scores::fromCanonicalJson(text));
    CHECK_FALSE(Scores::fromCanonicalJson(std::string(100000, '[')));
}

TEST_CASE("A set of scales with a problem is named and never read", "[tasting][scales]") {
    const auto problemOf = [](auto change) {
        ScaleSet set = ScaleSet::defaults();
        change(set);
        CHECK_FALSE(ScaleSet::fromCanonicalJson(set.canonicalJson()));
        return set.problem();
    };
    CHECK(problemOf([](ScaleSet& s) { s.scales[0].id = "Sweet!"; }) == ScaleError::BadId);
    CHECK(problemOf([](ScaleSet& s) { s.scales[0].id = ""; }) == ScaleError::BadId);
    CHECK(problemOf([](ScaleSet& s) { s.scales[0].name = "  "; }) == ScaleError::NoName);
    CHECK(problemOf([](ScaleSet& s) { s.scales[0].name = std::string(61, 'x'); }) == ScaleError::LongName);
    CHECK(problemOf([](ScaleSet& s) { s.scales[0].id = "sour"; }) == ScaleError::RepeatedId);
    CHECK(problemOf([](ScaleSet& s) { s.scales[0].name = "SOUR "; }) == ScaleError::RepeatedName);
    CHECK(problemOf([](ScaleSet& s) {
              for (int i = 0; i < 20; ++i)
                  s.scales.push_back({"s" + std::to_string(i), "s" + std::to_string(i), {}});
          }) == ScaleError::TooMany);
    for (const char* text :
         {R"([{"id":"a","kind":"nine_point"}])", "{}", "",
          R"([{"id":"a","kind":"nine_point","name":"a","top":9}])",
          R"([{"id":"a","kind":"ninety_point","name":"a"}])", R"([{"id":1,"kind":2,"name":3}])"})
        CHECK_FALSE(ScaleSet::fromCanonicalJson(text));
}

TEST_CASE("A new scale gets an id that lasts", "[tasting][scales]") {
    const auto& set = ScaleSet::defaults();
    CHECK(newScaleId(set, "Crème brûlée") == "creme_brulee");
    CHECK(newScaleId(set, "Sweet") == "sweet_2");
    CHECK(newScaleId(set, "甘い") == "scale");
    CHECK(newScaleId(set, "") == "scale");
    for (const std::string& name : {std::string(200, 'x'), std::string("a-b c"), std::string("100 %")}) {
        ScaleSet with = set;
        with.scales.push_back({newScaleId(set, name), "something else", ScaleKind::NinePoint});
        CHECK_FALSE(with.problem());
    }
}
