#include "core/tasting/panel_report.h"

#include "core/tasting/statistics/binomial.h"

#include <algorithm>
#include <fmt/format.h>

namespace stillroom::tasting {

namespace {

using Names = std::vector<std::string>;

constexpr std::string_view kNothing = "No result."; // why is said under it

std::string nameOf(const Names& names, std::size_t product) {
    if (product < names.size() && !names[product].empty()) return names[product];
    return std::string(1, static_cast<char>('A' + product));
}

std::string say(const ChoiceResult& found, const PanelResult& result, const Names& names) {
    const bool preference = result.kind == PanelKind::PairedPreference;
    switch (found.finding) {
    case Finding::NoAnswers:
        return std::string(kNothing);
    case Finding::CannotBeShown:
        return fmt::format("Too few answers to show a {}.", preference ? "preference" : "difference");
    case Finding::NotShown:
        if (found.test == ChoiceTest::PairedForetold && found.belowChance)
            return "Not as it was foretold: a difference is not shown.";
        return fmt::format("A {} is not shown.", preference ? "preference" : "difference");
    case Finding::Shown:
        break;
    }
    if (preference) return fmt::format("They prefer {}.", nameOf(names, found.more.value_or(0)));
    if (result.kind == PanelKind::PairedDifference)
        return fmt::format("They find more {} in {}.", result.attribute.empty() ? "of it" : result.attribute,
                           nameOf(names, found.more.value_or(0)));
    return "They can tell them apart.";
}

std::string say(const RankingResult& found, const PanelResult&, const Names&) {
    switch (found.finding) {
    case Finding::NoAnswers:
        return std::string(kNothing);
    case Finding::CannotBeShown:
        return found.tied ? "Too few rankings, or too many ties, to show a difference."
                          : "Too few rankings to show a difference.";
    case Finding::NotShown:
        return "A difference is not shown.";
    case Finding::Shown:
        break;
    }
    return "Their order is more than chance.";
}

std::string say(const ScoreResult& found, const PanelResult& result, const Names& names) {
    const bool any = std::any_of(found.means.begin(), found.means.end(),
                                 [](const MeanScore& mean) { return mean.count > 0; });
    if (!any) return std::string(kNothing);
    const ScorePair* shown = nullptr;
    bool several = false;
    bool possible = false;
    for (const ScorePair& pair : found.pairs) {
        possible = possible || pair.finding == Finding::Shown || pair.finding == Finding::NotShown;
        if (pair.finding != Finding::Shown) continue;
        several = shown != nullptr;
        if (shown == nullptr) shown = &pair;
    }
    // Two tasters who differ make an interval; all differing by the same leaves none, however many they are.
    const bool alike = std::any_of(found.pairs.begin(), found.pairs.end(),
                                   [](const ScorePair& pair) { return pair.scores.difference.count > 1; });
    if (!possible)
        return alike ? "Scores too much alike to test a difference." : "Too few scores to show a difference.";
    if (shown == nullptr) return "A difference is not shown.";
    if (several || found.means.size() > 2) return "Some of them differ.";
    const bool secondAhead = shown->scores.difference.mean > 0;
    const std::string ahead = nameOf(names, secondAhead ? shown->second : shown->first);
    if (result.kind != PanelKind::Intensity) return fmt::format("They like {} more.", ahead);
    return fmt::format("They find more {} in {}.", result.attribute.empty() ? "of it" : result.attribute,
                       ahead);
}

std::string say(const JustRightResult& found, const PanelResult& result, const Names& names) {
    const auto& all = found.products;
    if (std::none_of(all.begin(), all.end(),
                     [](const JustRightProduct& each) { return each.answers.answers > 0; }))
        return std::string(kNothing);
    const std::string what = result.attribute.empty() ? "of it" : result.attribute;
    for (std::size_t product = 0; product < all.size(); ++product) {
        if (all[product].finding != Finding::Shown) continue;
        const bool strong = all[product].answers.strong.count > all[product].answers.weak.count;
        return fmt::format("Too {} {} in {}.", strong ? "much" : "little", what, nameOf(names, product));
    }
    return "No side is shown.";
}

ProductScale scaleOf(const RankingResult& found) {
    const int products = static_cast<int>(found.friedman.rankSums.size());
    ProductScale scale;
    scale.from = found.friedman.assessors;
    scale.to = found.friedman.assessors * products;
    for (std::size_t product = 0; product < found.friedman.rankSums.size(); ++product)
        scale.products.push_back({product, found.friedman.rankSums[product], {}, {}});
    std::stable_sort(scale.products.begin(), scale.products.end(),
                     [](const OnScale& a, const OnScale& b) { return a.value < b.value; });
    scale.leastDifference = found.leastDifference;
    return scale;
}

ProductScale scaleOf(const ScoreResult& found, const AskedMark& asked) {
    ProductScale scale;
    scale.from = asked.low;
    scale.to = asked.high;
    for (std::size_t product = 0; product < found.means.size(); ++product) {
        const MeanScore& mean = found.means[product];
        if (mean.count > 0) scale.products.push_back({product, mean.mean, mean.low, mean.high});
    }
    std::stable_sort(scale.products.begin(), scale.products.end(),
                     [](const OnScale& a, const OnScale& b) { return a.value > b.value; });
    return scale;
}

bool isRight(PanelKind kind, const Serving& serving, std::size_t chosen) {
    if (kind == PanelKind::DuoTrio) return chosen == serving.reference;
    return 1 == std::count_if(serving.cups.begin(), serving.cups.end(),
                              [chosen](const Cup& cup) { return cup.product == chosen; });
}

OpenedAnswer opened(const Panel& panel, std::size_t taster) {
    const Serving& serving = panel.servings.at(taster);
    const Answer& answer = panel.answers.at(taster);
    const PanelKind kind = panel.design.kind;
    const AskedMark asked = askedMark(kind, serving.cups.size());
    OpenedAnswer made;
    made.reference = serving.reference;
    made.standing = standingOf(panel, taster);
    made.note = answer.note;
    for (const Cup& cup : serving.cups) {
        OpenedCup one{cup.code, cup.product, markOn(answer, asked.sort, cup.code), {}};
        if (kind == PanelKind::JustAboutRight) one.liking = markOn(answer, MarkSort::Score, cup.code);
        if (one.mark && (kind == PanelKind::Triangle || kind == PanelKind::DuoTrio))
            made.right = isRight(kind, serving, cup.product);
        made.cups.push_back(one);
    }
    return made;
}

} // namespace

std::string headline(const PanelResult& result, const Names& names) {
    return std::visit([&](const auto& found) { return say(found, result, names); }, result.found);
}

std::optional<ChanceBars> chanceBars(const PanelResult& result) {
    const auto* found = std::get_if<ChoiceResult>(&result.found);
    if (found == nullptr || found->answers == 0) return std::nullopt;
    const double guess = chanceOfGuessing(found->test);
    ChanceBars bars;
    bars.needed = found->needed;
    bars.count = found->count;
    for (int count = 0; count <= found->answers; ++count) {
        double chance = binomialExactly(found->answers, count, guess);
        if (isTwoSided(found->test)) {
            if (2 * count < found->answers) chance = 0;
            if (2 * count > found->answers)
                chance += binomialExactly(found->answers, found->answers - count, guess);
        }
        bars.chance.push_back(chance);
    }
    return bars;
}

std::optional<ProductScale> productScale(const PanelResult& result) {
    std::optional<ProductScale> scale;
    if (const auto* ranking = std::get_if<RankingResult>(&result.found)) {
        if (ranking->finding != Finding::NoAnswers) scale = scaleOf(*ranking);
    } else if (const auto* scores = std::get_if<ScoreResult>(&result.found)) {
        scale = scaleOf(*scores, askedMark(result.kind, result.products.size()));
    } else if (const auto* right = std::get_if<JustRightResult>(&result.found)) {
        scale = scaleOf(right->liking, askedMark(PanelKind::Hedonic, result.products.size()));
    }
    if (scale && scale->products.empty()) scale.reset();
    return scale;
}

tl::expected<std::vector<OpenedAnswer>, PanelError> openedAnswers(const Panel& panel) {
    if (panel.state != PanelState::Closed) return tl::unexpected(PanelError::NotClosed);
    if (const auto problem = problemOf(panel)) return tl::unexpected(*problem);
    std::vector<OpenedAnswer> all;
    for (std::size_t taster = 0; taster < panel.answers.size(); ++taster)
        all.push_back(opened(panel, taster));
    return all;
}

} // namespace stillroom::tasting
