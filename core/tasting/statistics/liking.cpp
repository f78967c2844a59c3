#include "core/tasting/statistics/liking.h"

#include "core/base/check.h"
#include "core/tasting/statistics/choice_test.h"
#include "core/tasting/statistics/distributions.h"

#include <cmath>
#include <numeric>

namespace stillroom::tasting {

namespace {

constexpr double kConfidence = 0.95;

double sumOfSquaredDeviations(const std::vector<double>& scores, double mean) {
    return std::accumulate(scores.begin(), scores.end(), 0.0, [mean](double sum, double score) {
        return sum + (score - mean) * (score - mean);
    });
}

// Welch's interval, with his degrees of freedom.
void welch(const MeanScore& right, const MeanScore& side, RightSide& out) {
    if (!right.deviation || !side.deviation) return;
    const double a = *right.deviation * *right.deviation / right.count;
    const double b = *side.deviation * *side.deviation / side.count;
    if (a + b <= 0) return;
    const double degrees = (a + b) * (a + b) / (a * a / (right.count - 1) + b * b / (side.count - 1));
    const double reach = studentQuantile(1 - (1 - kConfidence) / 2, degrees) * std::sqrt(a + b);
    out.low = *out.drop - reach;
    out.high = *out.drop + reach;
}

RightSide sideOf(int count, int answers, const std::vector<double>& liking, const MeanScore& right) {
    RightSide side;
    side.count = count;
    side.share = answers > 0 ? static_cast<double>(count) / answers : 0;
    side.withLiking = static_cast<int>(liking.size());
    if (liking.empty() || right.count == 0) return side;
    const MeanScore mean = meanScore(liking);
    side.drop = right.mean - mean.mean;
    welch(right, mean, side);
    return side;
}

} // namespace

MeanScore meanScore(const std::vector<double>& scores, double confidence) {
    STILLROOM_CHECK(confidence > 0 && confidence < 1, return {});
    MeanScore result;
    result.confidence = confidence;
    result.count = static_cast<int>(scores.size());
    if (scores.empty()) return result;
    result.mean = std::accumulate(scores.begin(), scores.end(), 0.0) / result.count;
    if (scores.size() < 2) return result;
    result.deviation = std::sqrt(sumOfSquaredDeviations(scores, result.mean) / (result.count - 1));
    if (*result.deviation <= 0) return result;
    const double reach = studentQuantile(1 - (1 - confidence) / 2, result.count - 1) * *result.deviation /
                         std::sqrt(result.count);
    result.low = result.mean - reach;
    result.high = result.mean + reach;
    return result;
}

PairedScores pairedScores(const std::vector<double>& first, const std::vector<double>& second,
                          double confidence) {
    STILLROOM_CHECK(first.size() == second.size(), return {});
    std::vector<double> differences(first.size());
    for (std::size_t i = 0; i < first.size(); ++i)
        differences[i] = second[i] - first[i];
    PairedScores result{meanScore(differences, confidence), {}};
    if (!result.difference.low) return result;
    const double error = *result.difference.deviation / std::sqrt(result.difference.count);
    result.chance =
        2 * studentUpperTail(std::abs(result.difference.mean) / error, result.difference.count - 1);
    return result;
}

JustRight justRight(const std::vector<RightAnswer>& answers) {
    int weak = 0;
    int strong = 0;
    std::vector<double> weakLiking;
    std::vector<double> rightLiking;
    std::vector<double> strongLiking;
    for (const RightAnswer& answer : answers) {
        if (answer.right < 3) ++weak;
        if (answer.right > 3) ++strong;
        if (!answer.liking) continue;
        (answer.right < 3   ? weakLiking
         : answer.right > 3 ? strongLiking
                            : rightLiking)
            .push_back(*answer.liking);
    }
    JustRight result;
    result.answers = static_cast<int>(answers.size());
    result.right = result.answers - weak - strong;
    result.rightWithLiking = static_cast<int>(rightLiking.size());
    const MeanScore right = meanScore(rightLiking);
    result.weak = sideOf(weak, result.answers, weakLiking, right);
    result.strong = sideOf(strong, result.answers, strongLiking, right);
    result.chance = chanceOfCount(ChoiceTest::PairedEither, weak + strong, weak);
    return result;
}

std::optional<double> expectedHalfWidth(int tasters, double deviation) {
    if (tasters < 2) return std::nullopt;
    return studentQuantile(1 - (1 - kConfidence) / 2, tasters - 1) * deviation / std::sqrt(tasters);
}

} // namespace stillroom::tasting
