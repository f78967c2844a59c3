#include "core/tasting/score_means.h"

#include "tests/support/catch.h"

using namespace stillroom::tasting;

namespace {

Scores scored(std::initializer_list<std::pair<const std::string, Score>> scores) {
    return {{scores.begin(), scores.end()}};
}

} // namespace

TEST_CASE("Means are of those who gave a score on that kind of scale", "[tasting][scales]") {
    const std::vector<ScaleDefinition> scales{{"sweet", "sweet", ScaleKind::FifteenPoint},
                                              {"sour", "sour", ScaleKind::FifteenPoint},
                                              {"liking", "liking", ScaleKind::NinePoint}};
    const auto means = meansOf(
        scales, {scored({{"sweet", {8, ScaleKind::FifteenPoint}}}),
                 scored({{"sweet", {9, ScaleKind::FifteenPoint}}, {"liking", {7, ScaleKind::NinePoint}}}),
                 scored({{"sweet", {4, ScaleKind::JustAboutRight}}})});
    REQUIRE(means.size() == 3);
    CHECK(means[0] == ScoreMean{8.5, 2}); // too much is no sixteenth of anything
    CHECK_FALSE(means[1].has_value());
    CHECK(means[2] == ScoreMean{7, 1});
}

TEST_CASE("A scale that the book has lost is shown after its own while it has scores", "[tasting][scales]") {
    ScaleSet set;
    set.scales = {{"sweet", "sugary", ScaleKind::JustAboutRight}, {"length", "length", {}}};
    const auto shown = scalesShown(
        set, {scored({{"smoke", {3, ScaleKind::FifteenPoint}}, {"sweet", {9, ScaleKind::FifteenPoint}}}),
              scored({{"smoke", {4, ScaleKind::FifteenPoint}}})});
    REQUIRE(shown.size() == 4);
    CHECK(shown[0] == set.scales[0]);
    CHECK(shown[1] == set.scales[1]);
    CHECK(shown[2] == ScaleDefinition{"smoke", "smoke", ScaleKind::FifteenPoint});
    // Changed to another kind since: the older scores stand on a row of their own.
    CHECK(shown[3] == ScaleDefinition{"sweet", "sugary", ScaleKind::FifteenPoint});
    CHECK(scalesShown(set, {}) == set.scales);
}
