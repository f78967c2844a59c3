#include "core/tasting/statistics/choice_test.h"

#include "core/base/check.h"
#include "core/tasting/statistics/binomial.h"
#include "core/tasting/statistics/distributions.h"

#include <algorithm>
#include <cmath>

namespace stillroom::tasting {

namespace {

constexpr int kSteadyFor = 39;

double alphaOfOneTail(ChoiceTest test, double alpha) {
    return isTwoSided(test) ? alpha / 2 : alpha;
}

} // namespace

double chanceOfGuessing(ChoiceTest test) {
    return test == ChoiceTest::Triangle ? 1.0 / 3 : 0.5;
}

bool isTwoSided(ChoiceTest test) {
    return test == ChoiceTest::PairedEither;
}

std::optional<int> countNeeded(ChoiceTest test, int tasters, double alpha) {
    STILLROOM_CHECK(tasters >= 0 && alpha > 0 && alpha < 1, return std::nullopt);
    const int count = binomialCritical(tasters, chanceOfGuessing(test), alphaOfOneTail(test, alpha));
    if (count > tasters) return std::nullopt;
    return count;
}

double chanceOfCount(ChoiceTest test, int tasters, int count) {
    if (!isTwoSided(test)) return binomialAtLeast(tasters, count, chanceOfGuessing(test));
    const int more = std::max(count, tasters - count);
    return std::min(1.0, 2 * binomialAtLeast(tasters, more, chanceOfGuessing(test)));
}

double chanceOfSoFew(ChoiceTest test, int tasters, int count) {
    return binomialAtMost(tasters, count, chanceOfGuessing(test));
}

double chanceOfRightAnswer(ChoiceTest test, double share) {
    STILLROOM_CHECK(share >= 0 && share <= 1, return chanceOfGuessing(test));
    const double chance = chanceOfGuessing(test);
    return chance + share * (1 - chance);
}

double shareFromRightAnswers(ChoiceTest test, double rightShare) {
    const double chance = chanceOfGuessing(test);
    return std::max(0.0, (rightShare - chance) / (1 - chance));
}

double powerOf(ChoiceTest test, int tasters, double share, double alpha) {
    const auto needed = countNeeded(test, tasters, alpha);
    if (!needed) return 0;
    const double right = chanceOfRightAnswer(test, share);
    double power = binomialAtLeast(tasters, *needed, right);
    if (isTwoSided(test)) power += binomialAtLeast(tasters, *needed, 1 - right);
    return std::min(power, 1.0);
}

std::optional<PanelSize> tastersNeeded(ChoiceTest test, double share, double alpha, double beta) {
    STILLROOM_CHECK(beta > 0 && beta < 1, return std::nullopt);
    PanelSize size;
    int runOf = 0; // panels in a row with enough power, ending at n
    for (int n = 1; n <= kLargestPanel + kSteadyFor; ++n) {
        runOf = powerOf(test, n, share, alpha) >= 1 - beta ? runOf + 1 : 0;
        if (runOf == 1 && size.first == 0) size.first = n;
        if (runOf <= kSteadyFor) continue;
        size.steady = n - kSteadyFor;
        return size;
    }
    return std::nullopt;
}

int fewestTasters(ChoiceTest test, double alpha) {
    STILLROOM_CHECK(alpha > 0 && alpha < 1, return 1);
    int tasters = 1;
    while (tasters < kLargestPanel && !countNeeded(test, tasters, alpha))
        ++tasters;
    return tasters;
}

std::optional<double> shareFoundBy(ChoiceTest test, int tasters, double alpha, double power) {
    if (powerOf(test, tasters, 1, alpha) < power) return std::nullopt;
    double low = 0;
    double high = 1;
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        (powerOf(test, tasters, middle, alpha) < power ? low : high) = middle;
    }
    return high;
}

std::optional<int> mostForSimilarity(ChoiceTest test, int tasters, double share, double beta) {
    STILLROOM_CHECK(!isTwoSided(test), return std::nullopt);
    const double right = chanceOfRightAnswer(test, share);
    int count = -1;
    while (count < tasters && binomialAtMost(tasters, count + 1, right) <= beta)
        ++count;
    if (count < 0) return std::nullopt;
    return count;
}

ShareThatCanTell shareThatCanTell(ChoiceTest test, int tasters, int count) {
    STILLROOM_CHECK(tasters > 0 && count >= 0 && count <= tasters, return {});
    constexpr double kConfidence = 0.95;
    const double right = static_cast<double>(count) / tasters;
    const double error = std::sqrt(right * (1 - right) / tasters);
    return {shareFromRightAnswers(test, right),
            shareFromRightAnswers(test, binomialLowerBound(tasters, count, kConfidence)),
            shareFromRightAnswers(test, binomialUpperBound(tasters, count, kConfidence)),
            shareFromRightAnswers(test, right - normalQuantile(kConfidence) * error)};
}

ChoicePlan planChoice(ChoiceTest test, int tasters, double alpha, std::optional<double> assumedShare,
                      double wantedPower) {
    ChoicePlan plan{test,
                    tasters,
                    alpha,
                    wantedPower,
                    countNeeded(test, tasters, alpha),
                    fewestTasters(test, alpha),
                    shareFoundBy(test, tasters, alpha, wantedPower),
                    assumedShare,
                    {},
                    {}};
    if (assumedShare) {
        plan.powerAtAssumed = powerOf(test, tasters, *assumedShare, alpha);
        plan.neededAtAssumed = tastersNeeded(test, *assumedShare, alpha, 1 - wantedPower);
    }
    return plan;
}

} // namespace stillroom::tasting
