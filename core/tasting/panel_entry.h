#pragma once

#include "core/tasting/panel.h"

#include <optional>

// Taking answers down, cup by cup, as they stand on the tasters' sheets.
namespace stillroom::tasting {

// What one mark beside a code is. Just about right asks for liking too; that is not needed for a whole
// answer.
enum class MarkSort : std::uint8_t { Chosen, Rank, Score, JustRight };

struct AskedMark {
    MarkSort sort = MarkSort::Chosen;
    int low = 1;
    int high = 1;
    friend bool operator==(const AskedMark&, const AskedMark&) = default;
};
AskedMark askedMark(PanelKind kind, std::size_t cups);

// Chosen: 1 on the chosen cup.
std::optional<int> markOn(const Answer& answer, MarkSort sort, int code);
// nullopt takes the mark away. Choosing a cup takes the choice from another.
Answer withMark(Answer answer, MarkSort sort, int code, std::optional<int> mark);

enum class AnswerStanding : std::uint8_t { Missing, Partial, Whole };
// Of the taster at this place: whether all that is needed was answered. A note alone is no answer.
AnswerStanding standingOf(const Panel& panel, std::size_t taster);

struct StandingCount {
    int whole = 0;
    int partial = 0;
    int missing = 0;
    friend bool operator==(const StandingCount&, const StandingCount&) = default;
};
StandingCount countStandings(const Panel& panel);

} // namespace stillroom::tasting
