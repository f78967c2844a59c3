#pragma once

#include "core/history/what_changed.h"
#include "core/tasting/score_means.h"
#include "core/tasting/tasting.h"

#include <vector>

// How scores went from one revision to the next, and whether the change can be laid to one thing.
namespace stillroom::tasting {

// One revision on the way, with what was said of it.
struct Station {
    const history::Revision* revision = nullptr;
    std::vector<Tasting> said; // empty: nobody tasted it
};

// Who stands behind the two means of a step.
struct StepTasters {
    int both = 0; // scored the two revisions on one scale at least: where there are any, theirs are the means
    int onlyBefore = 0; // scored the first and not the second
    int onlyAfter = 0;
    friend bool operator==(const StepTasters&, const StepTasters&) = default;
};

// From one tasted revision to the next tasted one; untasted ones between them are passed over, and all that
// changed in them is told together.
struct ScoreStep {
    std::size_t from = 0, to = 0; // stations
    // How long the drink stood in the glass is one of them, where it was noted on both and means differ by
    // more than kSameGlassAge minutes.
    std::vector<history::ChangedThing> things;
    std::optional<history::ChangedThing> single; // the one that changed; none: none did, or several
    // In the scales' order, by the tasters who scored both; where nobody did, of whoever scored each.
    ScoreMeans before, after;
    StepTasters tasters;
    bool isMuddled() const { return things.size() > 1; }
    // The means are of different people: what moved may be they.
    bool isOfOthers() const { return tasters.both == 0; }
};

inline constexpr double kSameGlassAge = 2; // minutes

struct ScoreCourse {
    std::vector<ScaleDefinition> scales;
    std::vector<ScoreMeans> means; // by station, then by scale: of whoever tasted
    std::vector<ScoreStep> steps;
};

// `stateOf` gives the facts behind a hash, so that another bottle poured is told as a change too.
ScoreCourse scoreCourse(const std::vector<Station>& stations, const std::vector<ScaleDefinition>& scales,
                        const history::StateOf& stateOf);

} // namespace stillroom::tasting
