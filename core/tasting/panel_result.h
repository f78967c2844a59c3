#pragma once

#include "core/tasting/panel.h"
#include "core/tasting/statistics/choice_test.h"
#include "core/tasting/statistics/liking.h"
#include "core/tasting/statistics/ranking.h"

#include <variant>

// What a closed session shows: codes and the numbers behind them. Sentences: core/tasting/panel_words.h.
namespace stillroom::tasting {

enum class Finding : std::uint8_t {
    Shown,         // as rare as alpha or rarer when there is nothing to find
    NotShown,      // which is not the same as nothing there
    CannotBeShown, // with so few answers no outcome would have been rare enough
    NoAnswers,
};
std::string_view findingId(Finding finding);

struct ChoiceResult {
    ChoiceTest test = ChoiceTest::Triangle;
    int answers = 0;
    int count = 0; // right; of the foretold product; or of the more chosen one
    std::optional<int> needed;
    double chance = 1;
    Finding finding = Finding::NoAnswers;
    std::vector<int> byProduct;      // paired: how often each was chosen; else empty
    std::optional<std::size_t> more; // paired: the foretold product, or the one chosen more often
    // Triangle, duo-trio, foretold. None where the count lies so far below guessing that a bound on tellers
    // means nothing; none for a foretold difference that leans the other way at all.
    std::optional<ShareThatCanTell> share;
    bool belowChance = false;         // one-sided: fewer than guessing alone gives on average
    double soFew = 1;                 // then: how often guessing alone gives so few or fewer
    std::optional<double> shareFound; // what so many answers find in 80 % of panels
    friend bool operator==(const ChoiceResult&, const ChoiceResult&) = default;
};

struct RankPair {
    std::size_t first = 0; // of the lower rank sum
    std::size_t second = 0;
    double difference = 0; // of rank sums
    bool differs = false;  // only where the whole is shown to differ
    friend bool operator==(const RankPair&, const RankPair&) = default;
};

struct RankingResult {
    Friedman friedman;         // rank sums by product, 1 = most
    FriedmanCritical critical; // with the ties as they fell, so that it and the chance agree
    bool tied = false;         // somebody put two in one place
    double leastDifference = 0;
    std::vector<RankPair> pairs;
    Finding finding = Finding::NoAnswers;
    std::optional<Page> page; // where an order was foretold
    std::optional<Finding> asForetold;
    friend bool operator==(const RankingResult&, const RankingResult&) = default;
};

// Over the tasters who scored both. Several pairs share alpha between them (Bonferroni), and their intervals
// widen to match.
struct ScorePair {
    std::size_t first = 0;
    std::size_t second = 0;
    PairedScores scores; // second - first
    double alpha = 0.05; // this pair's part
    Finding finding = Finding::NoAnswers;
    friend bool operator==(const ScorePair&, const ScorePair&) = default;
};

struct ScoreResult {
    std::vector<MeanScore> means; // by product
    std::vector<ScorePair> pairs;
    friend bool operator==(const ScoreResult&, const ScoreResult&) = default;
};

struct JustRightProduct {
    JustRight answers;
    Finding finding = Finding::NoAnswers; // that too strong and too weak are unevenly often
    friend bool operator==(const JustRightProduct&, const JustRightProduct&) = default;
};

struct JustRightResult {
    std::vector<JustRightProduct> products;
    ScoreResult liking; // no means where nobody scored
    friend bool operator==(const JustRightResult&, const JustRightResult&) = default;
};

struct PanelResult {
    PanelKind kind = PanelKind::Triangle;
    std::string attribute;
    double alpha = 0.05;
    int tasters = 0; // whole + partial + missing
    int whole = 0;   // answered all that was asked
    int partial = 0; // a part: its scores count where they are, an unfinished ranking does not
    int missing = 0; // nothing; never guessed
    std::vector<base::RevisionId> products;
    std::variant<ChoiceResult, RankingResult, ScoreResult, JustRightResult> found;
    friend bool operator==(const PanelResult&, const PanelResult&) = default;
};

// NotClosed until the panel is: a peek at half the answers is how panels go wrong. Malformed where the panel
// does not fit together.
tl::expected<PanelResult, PanelError> result(const Panel& panel);

} // namespace stillroom::tasting
