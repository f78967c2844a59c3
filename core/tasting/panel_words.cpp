#include "core/tasting/panel_words.h"
#include "core/tasting/phrases.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace stillroom::tasting {

namespace {

using Sentences = std::vector<std::string>;

constexpr std::string_view kNotTheSame = "That is not the same as no difference.";

// A change of score with a true minus sign, and no "−0.0".
std::string scoreText(double value) {
    const double shown = std::round(value * 10) / 10;
    return shown < 0 ? fmt::format("−{:.1f}", -shown) : fmt::format("{:.1f}", std::abs(shown));
}

std::string chanceSentence(double chance) {
    return fmt::format("Chance alone would do as much in {} of such panels.", percent(chance));
}

class Writer {
  public:
    Writer(const PanelResult& result, const std::vector<std::string>& names)
        : m_result(result),
          m_names(names) {}

    Sentences write() {
        std::visit([this](const auto& found) { say(found); }, m_result.found);
        sayMissing();
        return std::move(m_sentences);
    }

  private:
    void add(std::string sentence) { m_sentences.push_back(std::move(sentence)); }

    std::string name(std::size_t product) const {
        if (product < m_names.size() && !m_names[product].empty()) return m_names[product];
        return std::string(1, static_cast<char>('A' + product));
    }

    std::string attribute() const { return m_result.attribute.empty() ? "it" : m_result.attribute; }

    // What the count is of.
    std::string did(const ChoiceResult& found) const {
        switch (m_result.kind) {
        case PanelKind::Triangle:
            return "found the odd one";
        case PanelKind::DuoTrio:
            return "found the cup like the reference";
        case PanelKind::PairedPreference:
            return fmt::format("preferred {}", name(found.more.value_or(0)));
        default:
            return fmt::format("found more {} in {}",
                               m_result.attribute.empty() ? "of it" : m_result.attribute,
                               name(found.more.value_or(0)));
        }
    }

    std::string_view sought() const {
        return m_result.kind == PanelKind::PairedPreference ? "preference" : "difference";
    }

    void say(const ChoiceResult& found) {
        if (found.finding == Finding::NoAnswers) return add("No answer came in, so nothing can be said.");
        std::string first =
            found.more || found.byProduct.empty()
                ? fmt::format("{} of {} {}", found.count, found.answers, did(found))
                : fmt::format("The {} answers split evenly, {} each", found.answers, found.count);
        const std::string level = percent(m_result.alpha);
        const std::string_view sides = isTwoSided(found.test) ? ", two-sided" : "";
        if (found.finding == Finding::CannotBeShown) {
            add(fmt::format("{}; {} cannot show a {} at {}{}, however they fall: it takes {} or more.", first,
                            counted(found.answers, "answer", "answers"), sought(), level, sides,
                            fewestTasters(found.test, m_result.alpha)));
            add(std::string(kNotTheSame));
            return sayReversal(found);
        }
        const bool shown = found.finding == Finding::Shown;
        first += fmt::format("; {} {} needed at {}{}: a {} is {}.", *found.needed,
                             *found.needed == 1 ? "is" : "are", level, sides, sought(),
                             shown ? "shown" : "not shown");
        if (!shown) first += fmt::format(" That is not the same as no {}.", sought());
        add(std::move(first));
        add(chanceSentence(found.chance));
        sayReversal(found);
        if (shown)
            sayShare(found);
        else
            sayWhatWasPossible(found);
    }

    void sayShare(const ChoiceResult& found) {
        if (!found.share) return;
        add(fmt::format(
            "Best guess: {} of people can tell; at least {} and at most {}, each with 95 % certainty.",
            percent(found.share->estimate), percent(found.share->low), percent(found.share->high)));
    }

    // Fewer than guessing gives: what it may be, and that it bounds nobody's ability.
    void sayReversal(const ChoiceResult& found) {
        if (!found.belowChance) return;
        if (found.test == ChoiceTest::PairedForetold) {
            const std::size_t other = found.more.value_or(0) == 0 ? 1 : 0;
            add(fmt::format(
                "{} of {} found more {} in {}: not what was foretold, so this says nothing of how "
                "many can tell. To show it, foretell it and pour again.",
                found.answers - found.count, found.answers,
                m_result.attribute.empty() ? "of it" : m_result.attribute, name(other)));
        } else if (!found.share) {
            add(fmt::format(
                "That is fewer than guessing gives ({:.1f} of {}); so few come by chance in {} of "
                "such panels. Something led them to the wrong cup: look at the pouring and the "
                "sheets. How many can tell cannot be said from it.",
                found.answers * chanceOfGuessing(found.test), found.answers, percent(found.soFew)));
        }
    }

    void sayWhatWasPossible(const ChoiceResult& found) {
        if (found.share)
            add(fmt::format("Up to {} of people may still be able to tell (95 % certainty).",
                            percent(found.share->high)));
        if (found.shareFound && !isTwoSided(found.test))
            add(fmt::format(
                "So few find a difference reliably (80 % power) only if about {} of people perceive it.",
                percent(*found.shareFound)));
    }

    void say(const RankingResult& found) {
        if (found.finding == Finding::NoAnswers)
            return add("No whole ranking came in, so nothing can be said.");
        const int assessors = found.friedman.assessors;
        const std::string level = percent(m_result.alpha);
        if (found.finding == Finding::CannotBeShown)
            add(fmt::format("{} of {} products{} cannot show a difference at {}, however they fall. {}",
                            counted(assessors, "ranking", "rankings"), found.friedman.rankSums.size(),
                            found.tied ? " with so many ties" : "", level, kNotTheSame));
        else if (found.finding == Finding::Shown)
            add(fmt::format("The products differ at {}: F = {:.2f}{}.", level, found.friedman.statistic,
                            criticalText(found)));
        else
            add(fmt::format("A difference is not shown at {}: F = {:.2f}{}. {}", level,
                            found.friedman.statistic, criticalText(found), kNotTheSame));
        add(fmt::format("Rank sums of {}, lowest first: {}.", counted(assessors, "ranking", "rankings"),
                        rankSums(found)));
        add(chanceSentence(found.friedman.chance));
        if (found.finding == Finding::Shown) sayPairs(found);
        sayForetold(found);
    }

    static std::string criticalText(const RankingResult& found) {
        if (!found.critical.statistic) return "";
        return fmt::format(", {:.2f} needed{}", *found.critical.statistic,
                           !found.critical.exact ? " (chi-square)"
                           : found.tied          ? " with these ties"
                                                 : "");
    }

    std::string rankSums(const RankingResult& found) const {
        const auto& sums = found.friedman.rankSums;
        std::vector<std::size_t> order(sums.size());
        for (std::size_t i = 0; i < order.size(); ++i)
            order[i] = i;
        std::stable_sort(order.begin(), order.end(),
                         [&](std::size_t a, std::size_t b) { return sums[a] < sums[b]; });
        std::string text;
        for (const std::size_t product : order)
            text += fmt::format("{}{} {:g}", text.empty() ? "" : ", ", name(product), sums[product]);
        return text;
    }

    void sayPairs(const RankingResult& found) {
        std::string pairs;
        for (const RankPair& pair : found.pairs)
            if (pair.differs)
                pairs += fmt::format("{}{} before {} (by {:g})", pairs.empty() ? "" : "; ", name(pair.first),
                                     name(pair.second), pair.difference);
        if (pairs.empty())
            return add(fmt::format("No two rank sums are {:.1f} apart, so which of them differ is open.",
                                   found.leastDifference));
        add(fmt::format("Rank sums {:.1f} or more apart: {}.", found.leastDifference, pairs));
    }

    void sayForetold(const RankingResult& found) {
        if (!found.page || !found.asForetold) return;
        const std::string_view verdict = *found.asForetold == Finding::Shown ? "is shown"
                                         : *found.asForetold == Finding::NotShown
                                             ? "is not shown"
                                             : "cannot be shown by so few";
        add(fmt::format("The order foretold {} (L = {:g}; by chance {}).", verdict, found.page->statistic,
                        percent(found.page->chance)));
    }

    bool isLiking() const { return m_result.kind != PanelKind::Intensity; }

    std::string meanText(const MeanScore& mean) const {
        if (mean.count == 0) return "no score";
        std::string text = fmt::format("{:.1f}", mean.mean);
        if (mean.low)
            text += fmt::format(" ({} certain between {} and {})", percent(mean.confidence),
                                scoreText(*mean.low), scoreText(*mean.high));
        return text + fmt::format(" from {}", counted(mean.count, "taster", "tasters"));
    }

    void say(const ScoreResult& found) {
        const bool any = std::any_of(found.means.begin(), found.means.end(),
                                     [](const MeanScore& mean) { return mean.count > 0; });
        if (!any) return add("No score came in, so nothing can be said.");
        for (const ScorePair& pair : found.pairs)
            sayPair(pair);
        for (std::size_t product = 0; product < found.means.size(); ++product)
            add(fmt::format("{}: {}.", name(product), meanText(found.means[product])));
        if (isLiking() && m_result.tasters < kSteadyMeans)
            add(fmt::format("Mean liking settles at about {} tasters; these are {}.", kSteadyMeans,
                            m_result.tasters));
    }

    void sayPair(const ScorePair& pair) {
        const MeanScore& mean = pair.scores.difference;
        const bool secondAhead = mean.mean >= 0;
        const std::string ahead = name(secondAhead ? pair.second : pair.first);
        const std::string behind = name(secondAhead ? pair.first : pair.second);
        if (pair.finding == Finding::NoAnswers)
            return add(fmt::format("Nobody scored both {} and {}.", name(pair.first), name(pair.second)));
        std::string text = fmt::format("{} over {} by {}", ahead, behind, scoreText(std::abs(mean.mean)));
        if (pair.finding == Finding::CannotBeShown)
            return add(text +
                       fmt::format(" from {}: {} for an interval.", counted(mean.count, "taster", "tasters"),
                                   mean.count < 2 ? "too few" : "all by the same, which leaves nothing"));
        const double low = secondAhead ? *mean.low : -*mean.high;
        const double high = secondAhead ? *mean.high : -*mean.low;
        const bool shown = pair.finding == Finding::Shown;
        text += fmt::format(" ({} certain between {} and {}): a difference is {}.", percent(mean.confidence),
                            scoreText(low), scoreText(high), shown ? "shown" : "not shown");
        if (!shown) text += fmt::format(" {}", kNotTheSame);
        add(std::move(text));
    }

    void say(const JustRightResult& found) {
        const bool any =
            std::any_of(found.products.begin(), found.products.end(),
                        [](const JustRightProduct& product) { return product.answers.answers > 0; });
        if (!any) return add("No answer came in, so nothing can be said.");
        for (std::size_t product = 0; product < found.products.size(); ++product)
            sayRight(product, found.products[product]);
        if (!found.liking.means.empty()) say(found.liking);
    }

    void sayRight(std::size_t product, const JustRightProduct& found) {
        const JustRight& answers = found.answers;
        if (answers.answers == 0) return add(fmt::format("{}: no answer.", name(product)));
        std::string text = fmt::format(
            "{}: {} is just right for {} of {}, too weak for {}, too strong for {}", name(product),
            attribute(), answers.right, answers.answers, answers.weak.count, answers.strong.count);
        const bool strong = answers.strong.count > answers.weak.count;
        if (found.finding == Finding::Shown)
            text += fmt::format("; {} is shown at {}", strong ? "too strong" : "too weak",
                                percent(m_result.alpha));
        else
            text += "; neither side is shown";
        add(text + ".");
        sayDrop(product, "too weak", answers.weak);
        sayDrop(product, "too strong", answers.strong);
    }

    void sayDrop(std::size_t product, std::string_view side, const RightSide& found) {
        if (!found.drop) return;
        std::string text =
            fmt::format("{}: who finds it {} likes it {} {} than who finds it right ({}", name(product), side,
                        scoreText(std::abs(*found.drop)), *found.drop < 0 ? "more" : "less",
                        counted(found.withLiking, "taster", "tasters"));
        if (found.low)
            text += fmt::format("; 95 % certain between {} and {} less", scoreText(*found.low),
                                scoreText(*found.high));
        add(text + ").");
    }

    void sayMissing() {
        if (m_result.missing > 0)
            add(fmt::format("{} of {} tasters gave no answer: left out, not guessed.", m_result.missing,
                            m_result.tasters));
        if (m_result.partial > 0)
            add(fmt::format("{} of {} tasters answered in part; {}.", m_result.partial, m_result.tasters,
                            m_result.kind == PanelKind::Ranking ? "an unfinished ranking is left out"
                                                                : "what they gave is counted"));
    }

    // Moskowitz 1997, Food Qual. Pref. 8:247: averages become stable at about 40 to 50 panelists.
    static constexpr int kSteadyMeans = 40;

    const PanelResult& m_result;
    const std::vector<std::string>& m_names;
    Sentences m_sentences;
};

} // namespace

std::vector<std::string> inWords(const PanelResult& result, const std::vector<std::string>& names) {
    return Writer(result, names).write();
}

} // namespace stillroom::tasting
