#pragma once

#include "core/tasting/panel_entry.h"
#include "core/tasting/panel_result.h"

#include <optional>
#include <string>
#include <vector>

// What is shown of a closed session beside its sentences (core/tasting/panel_words.h).
namespace stillroom::tasting {

// The verdict in a few words: "They can tell them apart." `names` as for inWords.
std::string headline(const PanelResult& result, const std::vector<std::string>& names);

// How often guessing alone gives each count, from 0 to the number of answers. Two-sided: the count of the
// more chosen product, so nothing below half. Only for tests in which a cup is chosen and somebody did.
struct ChanceBars {
    std::vector<double> chance;
    std::optional<int> needed;
    int count = 0;
    friend bool operator==(const ChanceBars&, const ChanceBars&) = default;
};
std::optional<ChanceBars> chanceBars(const PanelResult& result);

// One product on a scale: its rank sum, or its mean with the interval.
struct OnScale {
    std::size_t product = 0;
    double value = 0;
    std::optional<double> low;
    std::optional<double> high;
    friend bool operator==(const OnScale&, const OnScale&) = default;
};
struct ProductScale {
    double from = 0;
    double to = 1;
    std::vector<OnScale> products; // the best, or the most, first; those without a figure left out
    // Ranking: two sums this far apart differ, where anything does.
    std::optional<double> leastDifference;
    friend bool operator==(const ProductScale&, const ProductScale&) = default;
};
// Of rankings and scores; nullopt where nobody answered, and for tests in which a cup is chosen.
std::optional<ProductScale> productScale(const PanelResult& result);

// One taster's answer with what was in the cups.
struct OpenedCup {
    int code = 0;
    std::size_t product = 0;
    std::optional<int> mark;   // as askedMark says
    std::optional<int> liking; // beside just about right
    friend bool operator==(const OpenedCup&, const OpenedCup&) = default;
};
struct OpenedAnswer {
    std::optional<std::size_t> reference;
    std::vector<OpenedCup> cups; // in the order of tasting
    AnswerStanding standing = AnswerStanding::Missing;
    std::optional<bool> right; // triangle and duo-trio
    std::string note;
    friend bool operator==(const OpenedAnswer&, const OpenedAnswer&) = default;
};
// In the order of the tasters. NotClosed until the panel is.
tl::expected<std::vector<OpenedAnswer>, PanelError> openedAnswers(const Panel& panel);

} // namespace stillroom::tasting
