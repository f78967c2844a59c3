#pragma once

#include <cstddef>
#include <optional>
#include <vector>

// Means of scores with intervals from Student's t. Scores are plain numbers on whichever scale was used.
namespace stillroom::tasting {

// The interval needs two scores that are not all one; where they are all one, it is no interval either: a
// small panel that agrees has not shown that everyone would.
struct MeanScore {
    int count = 0;
    double mean = 0;                 // 0 without scores: read `count` first
    std::optional<double> deviation; // of the scores, n - 1
    std::optional<double> low;       // of the mean, at `confidence`
    std::optional<double> high;
    double confidence = 0.95;
    friend bool operator==(const MeanScore&, const MeanScore&) = default;
};
MeanScore meanScore(const std::vector<double>& scores, double confidence = 0.95);

// The same tasters on two products: mean of (second - first), taken taster by taster.
struct PairedScores {
    MeanScore difference;
    std::optional<double> chance; // two-sided, of a difference this large or larger; none without an interval
    friend bool operator==(const PairedScores&, const PairedScores&) = default;
};
PairedScores pairedScores(const std::vector<double>& first, const std::vector<double>& second,
                          double confidence = 0.95);

// Just about right: 1 much too weak, 2 too weak, 3 just about right, 4 too strong, 5 much too strong. The
// penalty of a side is how much less those on it like the drink than those who find it just right.
struct RightAnswer {
    int right = 3;
    std::optional<double> liking; // of the same taster, nine points
};
struct RightSide {
    int count = 0;
    double share = 0;
    int withLiking = 0;
    std::optional<double> drop; // mean liking of "just right" less that of this side
    std::optional<double> low;  // Welch's 95 % interval of the drop
    std::optional<double> high;
    friend bool operator==(const RightSide&, const RightSide&) = default;
};
struct JustRight {
    int answers = 0;
    int right = 0;
    int rightWithLiking = 0;
    RightSide weak;
    RightSide strong;
    double chance = 1; // two-sided, that the two sides part this unevenly when they are alike
    friend bool operator==(const JustRight&, const JustRight&) = default;
};
JustRight justRight(const std::vector<RightAnswer>& answers);

// Half the width of a 95 % interval that a panel can expect. The usual spread of one taster's liking is
// taken as 0.23 of the scale's length (Hough et al. 2006, from memory): 1.84 on nine points.
inline constexpr double kUsualLikingDeviation = 0.23 * 8;
// The same share of the fifteen-point line; no source of its own.
inline constexpr double kUsualIntensityDeviation = 0.23 * 15;
std::optional<double> expectedHalfWidth(int tasters, double deviation = kUsualLikingDeviation);

} // namespace stillroom::tasting
