#include "core/tasting/statistics/liking.h"

#include "tests/support/catch.h"

using namespace stillroom::tasting;

TEST_CASE("A mean carries an interval as wide as Student says", "[tasting][statistics]") {
    // 6 7 8 5 9: mean 7, deviation sqrt(2.5), t(0.975, 4) = 2.776 in every printed table.
    const auto result = meanScore({6, 7, 8, 5, 9});
    CHECK(result.count == 5);
    CHECK(result.mean == Approx(7));
    CHECK(result.deviation.value_or(0) == Approx(1.58114).epsilon(1e-5));
    CHECK(result.high.value_or(0) - result.mean == Approx(2.776 * 1.58114 / 2.23607).epsilon(1e-3));
    CHECK(result.mean - result.low.value_or(0) == Approx(result.high.value_or(0) - result.mean));
}

TEST_CASE("One score or scores all alike make no interval", "[tasting][statistics]") {
    CHECK(meanScore({}).count == 0);
    CHECK(meanScore({7}).mean == 7);
    CHECK_FALSE(meanScore({7}).low);
    CHECK_FALSE(meanScore({7, 7, 7}).low);
    CHECK(meanScore({7, 7, 7}).deviation == 0.0);
    CHECK_FALSE(pairedScores({5, 6}, {6, 7}).chance);
}

TEST_CASE("Scores of the same tasters are compared taster by taster", "[tasting][statistics]") {
    // Differences 1 2 0 1 1: mean 1, error sqrt(0.5 / 5), t = 3.1623 with 4 degrees.
    const auto result = pairedScores({5, 4, 7, 6, 8}, {6, 6, 7, 7, 9});
    CHECK(result.difference.mean == Approx(1));
    CHECK(result.difference.low.value_or(0) == Approx(1 - 2.776 * 0.316228).epsilon(2e-3));
    // Between the printed two-sided values 2.776 (5 %) and 4.604 (1 %).
    CHECK(result.chance.value_or(1) < 0.05);
    CHECK(result.chance.value_or(0) > 0.01);
}

TEST_CASE("The penalty is how much less the unhappy side likes it", "[tasting][statistics]") {
    const auto result =
        justRight({{3, 8.0}, {3, 7.0}, {4, 5.0}, {5, 4.0}, {4, 6.0}, {2, 6.0}, {4, {}}, {3, {}}});
    CHECK(result.answers == 8);
    CHECK(result.right == 3);
    CHECK(result.rightWithLiking == 2);
    CHECK(result.weak.count == 1);
    CHECK(result.weak.drop.value_or(0) == Approx(1.5));
    CHECK_FALSE(result.weak.low); // one answer has no interval
    CHECK(result.strong.count == 4);
    CHECK(result.strong.share == Approx(0.5));
    CHECK(result.strong.withLiking == 3);
    CHECK(result.strong.drop.value_or(0) == Approx(2.5));
    // Welch by hand: variances 0.5/2 and 1/3, degrees 2.8824.
    REQUIRE(result.strong.low);
    CHECK(*result.strong.low < 0.1);
    CHECK(*result.strong.low > -0.1);
    CHECK(result.chance == Approx(2 * 6.0 / 32)); // 4 of 5 or more, doubled
}

TEST_CASE("Without answers or likings nothing is made up", "[tasting][statistics]") {
    const auto none = justRight({});
    CHECK(none.answers == 0);
    CHECK(none.strong.share == 0);
    CHECK(none.chance == 1);
    CHECK_FALSE(justRight({{4, {}}, {3, {}}}).strong.drop);
    CHECK_FALSE(justRight({{4, 5.0}}).strong.drop); // nobody found it right
}

TEST_CASE("A small panel's interval is wide before a drop is poured", "[tasting][statistics]") {
    CHECK_FALSE(expectedHalfWidth(1));
    CHECK(expectedHalfWidth(6, 1.84).value_or(0) == Approx(2.571 * 1.84 / 2.44949).epsilon(1e-3));
    CHECK(expectedHalfWidth(50).value_or(9) < 0.6);
}
