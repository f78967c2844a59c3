#pragma once

#include "core/history/what_changed.h"
#include "core/tasting/score_means.h"

#include <vector>

// How scores went from one revision to the next, and whether the change can be laid to one thing.
namespace stillroom::tasting {

// One revision on the way, with what was said of it.
struct Station {
    const history::Revision* revision = nullptr;
    std::vector<Scores> scores; // empty: nobody tasted it
};

// From one tasted revision to the next tasted one; untasted ones between them are passed over, and all that
// changed in them is told together.
struct ScoreStep {
    std::size_t from = 0, to = 0; // stations
    std::vector<history::ChangedThing> things;
    std::optional<history::ChangedThing> single; // the one that changed; none: none did, or several
    ScoreMeans before, after;                    // in the scales' order
    bool isMuddled() const { return things.size() > 1; }
};

struct ScoreCourse {
    std::vector<ScaleDefinition> scales;
    std::vector<ScoreMeans> means; // by station, then by scale
    std::vector<ScoreStep> steps;
};

// `stateOf` gives the facts behind a hash, so that another bottle poured is told as a change too.
ScoreCourse scoreCourse(const std::vector<Station>& stations, const std::vector<ScaleDefinition>& scales,
                        const history::StateOf& stateOf);

} // namespace stillroom::tasting
