#include "core/tasting/panel_entry.h"

namespace stillroom::tasting {

namespace {

constexpr int kMostLiking = 9;
constexpr int kMostIntensity = 15;
constexpr int kMostRight = 5;

std::map<int, int>& marksOf(Answer& answer, MarkSort sort) {
    if (sort == MarkSort::Rank) return answer.ranks;
    return sort == MarkSort::JustRight ? answer.justRight : answer.scores;
}

} // namespace

AskedMark askedMark(PanelKind kind, std::size_t cups) {
    switch (kind) {
    case PanelKind::Ranking:
        return {MarkSort::Rank, 1, static_cast<int>(cups)};
    case PanelKind::Hedonic:
        return {MarkSort::Score, 1, kMostLiking};
    case PanelKind::Intensity:
        return {MarkSort::Score, 0, kMostIntensity};
    case PanelKind::JustAboutRight:
        return {MarkSort::JustRight, 1, kMostRight};
    default:
        return {MarkSort::Chosen, 1, 1};
    }
}

std::optional<int> markOn(const Answer& answer, MarkSort sort, int code) {
    if (sort == MarkSort::Chosen) return answer.chosen == code ? std::optional(1) : std::nullopt;
    const auto& marks = sort == MarkSort::Rank        ? answer.ranks
                        : sort == MarkSort::JustRight ? answer.justRight
                                                      : answer.scores;
    const auto found = marks.find(code);
    return found == marks.end() ? std::nullopt : std::optional(found->second);
}

Answer withMark(Answer answer, MarkSort sort, int code, std::optional<int> mark) {
    if (sort == MarkSort::Chosen) {
        if (mark)
            answer.chosen = code;
        else if (answer.chosen == code)
            answer.chosen.reset();
        return answer;
    }
    auto& marks = marksOf(answer, sort);
    if (mark)
        marks[code] = *mark;
    else
        marks.erase(code);
    return answer;
}

AnswerStanding standingOf(const Panel& panel, std::size_t taster) {
    const auto& cups = panel.servings.at(taster).cups;
    const Answer& answer = panel.answers.at(taster);
    const MarkSort sort = askedMark(panel.design.kind, cups.size()).sort;
    const std::size_t wanted = sort == MarkSort::Chosen ? 1 : cups.size();
    std::size_t given = 0;
    for (const Cup& cup : cups)
        if (markOn(answer, sort, cup.code)) ++given;
    if (given == 0) return AnswerStanding::Missing;
    return given < wanted ? AnswerStanding::Partial : AnswerStanding::Whole;
}

StandingCount countStandings(const Panel& panel) {
    StandingCount count;
    for (std::size_t taster = 0; taster < panel.answers.size(); ++taster) {
        const AnswerStanding standing = standingOf(panel, taster);
        ++(standing == AnswerStanding::Missing   ? count.missing
           : standing == AnswerStanding::Partial ? count.partial
                                                 : count.whole);
    }
    return count;
}

} // namespace stillroom::tasting
