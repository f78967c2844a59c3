#pragma once

#include <cstdint>
#include <optional>

// Tests in which a taster has to choose one cup, and guessing is expected.
namespace stillroom::tasting {

// Chance of a right guess after ISO 4120 (triangle, 1/3), ISO 10399 (duo-trio, 1/2) and ISO 5495 (paired,
// 1/2).
enum class ChoiceTest : std::uint8_t {
    Triangle,
    DuoTrio,
    PairedForetold, // which of two has more: said before pouring, so one-sided
    PairedEither,   // preference, or a difference either way: two-sided, the count is of the more chosen cup
};

double chanceOfGuessing(ChoiceTest test);
bool isTwoSided(ChoiceTest test);

// The risks are shares from 0 to 1: `alpha` of seeing a difference that is not there, `beta` of missing one
// that is. `share` is the share of people who can really tell (for a preference: by how much more than
// chance one product is chosen, 0 = evenly, 1 = by all).

// The smallest count that shows something; nullopt where not even all answers would.
std::optional<int> countNeeded(ChoiceTest test, int tasters, double alpha);
// How often guessing alone gives this count or a more extreme one.
double chanceOfCount(ChoiceTest test, int tasters, int count);
// How often guessing alone gives so few or fewer: small where people err together, which no share of tellers
// explains.
double chanceOfSoFew(ChoiceTest test, int tasters, int count);
double chanceOfRightAnswer(ChoiceTest test, double share);        // Abbott: chance + share (1 - chance)
double shareFromRightAnswers(ChoiceTest test, double rightShare); // its inverse, never below 0
// How often a panel of this size shows it.
double powerOf(ChoiceTest test, int tasters, double share, double alpha);

// Exact power saw-tooths with the number of tasters: `first` reaches it, and from `steady` on the next 39
// larger panels do too.
struct PanelSize {
    int first = 0;
    int steady = 0;
    friend bool operator==(const PanelSize&, const PanelSize&) = default;
};
inline constexpr int kLargestPanel = 3000;
std::optional<PanelSize> tastersNeeded(ChoiceTest test, double share, double alpha, double beta);
int fewestTasters(ChoiceTest test, double alpha); // fewer can never show anything
// The smallest share found with this power; nullopt where not even 1 is.
std::optional<double> shareFoundBy(ChoiceTest test, int tasters, double alpha, double power);

// The most right answers with which one may say that no more than `share` can tell, at risk beta; nullopt
// where not even none would do. Not for PairedEither. ISO 4120, similarity testing.
std::optional<int> mostForSimilarity(ChoiceTest test, int tasters, double share, double beta);

// What the count says about the share of people who can tell.
struct ShareThatCanTell {
    double estimate = 0;
    double low = 0;       // exact one-sided 95 % bounds (Clopper-Pearson, carried through Abbott)
    double high = 1;      // what the panel cannot rule out
    double lowNormal = 0; // the published one-sided bound, pc - 1.645 sqrt(pc (1 - pc) / n); rough below 30
    friend bool operator==(const ShareThatCanTell&, const ShareThatCanTell&) = default;
};
ShareThatCanTell shareThatCanTell(ChoiceTest test, int tasters, int count); // tasters > 0

// What can be known before a drop is poured.
struct ChoicePlan {
    ChoiceTest test = ChoiceTest::Triangle;
    int tasters = 0;
    double alpha = 0.05;
    double wantedPower = 0.8;
    std::optional<int> needed;                // right (or agreeing) answers
    int fewest = 0;                           // panels smaller than this can never show anything at alpha
    std::optional<double> shareFound;         // found with wantedPower
    std::optional<double> assumedShare;       // asked for
    std::optional<double> powerAtAssumed;     // with these tasters
    std::optional<PanelSize> neededAtAssumed; // tasters for wantedPower
    friend bool operator==(const ChoicePlan&, const ChoicePlan&) = default;
};
ChoicePlan planChoice(ChoiceTest test, int tasters, double alpha = 0.05,
                      std::optional<double> assumedShare = {}, double wantedPower = 0.8);

} // namespace stillroom::tasting
