#include "core/tasting/statistics/binomial.h"

#include "core/tasting/statistics/choice_test.h"
#include "core/tasting/statistics/distributions.h"
#include "tests/support/catch.h"

#include <cmath>

using namespace stillroom::tasting;

namespace {

// Whole numbers only: ways to be right `count` times or more, each right answer in one way and each wrong
// one in `wrongWays`, over all (1 + wrongWays)^trials.
double countedTail(int trials, int count, int wrongWays) {
    double ways = 0;
    double all = 0;
    double choose = 1;
    for (int k = 0; k <= trials; ++k) {
        const double these = choose * std::pow(wrongWays, trials - k);
        all += these;
        if (k >= count) ways += these;
        choose = choose * (trials - k) / (k + 1);
    }
    return ways / all;
}

} // namespace

TEST_CASE("Binomial tails equal counted ways", "[tasting][statistics]") {
    for (int trials = 0; trials <= 24; ++trials) {
        for (int count = 0; count <= trials + 1; ++count) {
            CAPTURE(trials, count);
            CHECK(binomialAtLeast(trials, count, 0.5) ==
                  Approx(countedTail(trials, count, 1)).epsilon(1e-12));
            CHECK(binomialAtLeast(trials, count, 1.0 / 3) ==
                  Approx(countedTail(trials, count, 2)).epsilon(1e-12));
            CHECK(binomialAtLeast(trials, count, 0.3) + binomialAtMost(trials, count - 1, 0.3) ==
                  Approx(1).epsilon(1e-12));
        }
    }
}

TEST_CASE("Binomial tails hold for thousands of trials", "[tasting][statistics]") {
    CHECK(binomialAtLeast(3000, 3000, 0.5) == 0); // 2^-3000 lies below every double
    CHECK(binomialAtLeast(1000, 1000, 0.5) == Approx(std::pow(2.0, -1000)).epsilon(1e-9));
    CHECK(binomialAtLeast(5001, 2501, 0.5) == Approx(0.5).epsilon(1e-10)); // by symmetry
    CHECK(binomialAtLeast(4000, 1200, 1.0 / 3) + binomialAtMost(4000, 1199, 1.0 / 3) ==
          Approx(1).epsilon(1e-10));
    // The binomial tail is an incomplete beta function: two separate routes to one number.
    for (const int count : {900, 1000, 1080, 1150})
        CHECK(binomialAtLeast(3000, count, 1.0 / 3) ==
              Approx(regularizedBeta(count, 3000 - count + 1, 1.0 / 3)).epsilon(1e-9));
}

TEST_CASE("Critical counts are the smallest that will do", "[tasting][statistics]") {
    for (const auto test : {ChoiceTest::Triangle, ChoiceTest::DuoTrio, ChoiceTest::PairedEither}) {
        for (const double alpha : {0.2, 0.05, 0.001}) {
            for (const int tasters : {1, 2, 5, 12, 61, 400, 2500}) {
                CAPTURE(tasters, alpha);
                const auto needed = countNeeded(test, tasters, alpha);
                if (!needed) {
                    CHECK(chanceOfCount(test, tasters, tasters) > alpha);
                    continue;
                }
                CHECK(chanceOfCount(test, tasters, *needed) <= alpha);
                CHECK(chanceOfCount(test, tasters, *needed - 1) > alpha);
            }
        }
    }
    CHECK_FALSE(countNeeded(ChoiceTest::Triangle, 0, 0.05));
}

TEST_CASE("Five tasters cannot show a preference and six must all agree", "[tasting][statistics]") {
    const auto five = planChoice(ChoiceTest::PairedEither, 5);
    CHECK_FALSE(five.needed);
    CHECK_FALSE(five.shareFound);
    CHECK(five.fewest == 6);
    CHECK(chanceOfCount(ChoiceTest::PairedEither, 5, 5) == Approx(0.0625));
    CHECK(planChoice(ChoiceTest::PairedEither, 6).needed == 6);
    CHECK(fewestTasters(ChoiceTest::Triangle, 0.05) == 3); // 1/27
    CHECK(fewestTasters(ChoiceTest::DuoTrio, 0.05) == 5);  // 1/32
    CHECK(powerOf(ChoiceTest::PairedEither, 5, 1, 0.05) == 0);
}

TEST_CASE("Twelve in a triangle need eight and find only what most perceive", "[tasting][statistics]") {
    const auto plan = planChoice(ChoiceTest::Triangle, 12, 0.05, 0.3);
    CHECK(plan.needed == 8);
    REQUIRE(plan.shareFound);
    CHECK(*plan.shareFound == Approx(0.6).margin(0.01));
    CHECK(powerOf(ChoiceTest::Triangle, 12, *plan.shareFound, 0.05) == Approx(0.8).epsilon(1e-9));
    REQUIRE(plan.powerAtAssumed);
    CHECK(*plan.powerAtAssumed < 0.4);
    CHECK(plan.neededAtAssumed == PanelSize{40, 42});
    // Far too small a share for any panel that could be seated.
    CHECK_FALSE(tastersNeeded(ChoiceTest::Triangle, 0.01, 0.05, 0.2));
}

TEST_CASE("Abbott's share goes both ways and never below nothing", "[tasting][statistics]") {
    for (const auto test : {ChoiceTest::Triangle, ChoiceTest::DuoTrio})
        for (const double share : {0.0, 0.25, 0.6, 1.0})
            CHECK(shareFromRightAnswers(test, chanceOfRightAnswer(test, share)) ==
                  Approx(share).margin(1e-12));
    CHECK(shareFromRightAnswers(ChoiceTest::Triangle, 0.2) == 0);
    const auto share = shareThatCanTell(ChoiceTest::Triangle, 12, 9);
    CHECK(share.estimate == Approx(0.625));
    CHECK(share.low > 0);
    CHECK(share.low < share.lowNormal); // the normal bound promises too much of so few
    CHECK(share.high > 0.6);
    CHECK(binomialAtLeast(12, 9, chanceOfRightAnswer(ChoiceTest::Triangle, share.low)) == Approx(0.05));
    CHECK(binomialAtMost(12, 9, chanceOfRightAnswer(ChoiceTest::Triangle, share.high)) == Approx(0.05));
    CHECK(shareThatCanTell(ChoiceTest::Triangle, 4, 4).high == 1);
    CHECK(shareThatCanTell(ChoiceTest::Triangle, 4, 0).low == 0);
}

TEST_CASE("Few right answers are no similarity in a small panel", "[tasting][statistics]") {
    CHECK_FALSE(mostForSimilarity(ChoiceTest::Triangle, 4, 0.2, 0.05));
    CHECK(mostForSimilarity(ChoiceTest::Triangle, 60, 0.3, 0.05) == 25);
}

TEST_CASE("Quantiles undo their tails", "[tasting][statistics]") {
    for (const double p : {0.001, 0.05, 0.5, 0.9, 0.9999}) {
        CAPTURE(p);
        CHECK(normalUpperTail(normalQuantile(p)) == Approx(1 - p).epsilon(1e-9));
        for (const double degrees : {1.0, 2.7, 30.0, 500.0})
            CHECK(studentUpperTail(studentQuantile(p, degrees), degrees) == Approx(1 - p).epsilon(1e-9));
        for (const int degrees : {1, 2, 7, 40})
            CHECK(chiSquareUpperTail(chiSquareCritical(p, degrees), degrees) == Approx(p).epsilon(1e-9));
    }
    CHECK(studentUpperTail(1, 1) == Approx(0.25)); // Cauchy
    CHECK(logGamma(0.5) == Approx(0.5 * std::log(std::acos(-1.0))).epsilon(1e-14));
    CHECK(logGamma(171) == Approx(std::lgamma(171.0)).epsilon(1e-14));
}
