#pragma once

#include "core/tasting/asks.h"
#include "core/tasting/score_course.h"
#include "ui/session/drink_history.h"

#include <QString>
#include <QStringList>

#include <optional>
#include <vector>

namespace stillroom::ui {

// One change to try, in words, with what taking it makes of the draft.
struct AskChange {
    QString change;      // "syrup 20 → 17.5 ml"
    QString why;         // "less of what brings the sugar"
    QStringList effects; // "strength 18.4 → 18.9 % vol"
    spec::Spec next;
};

struct AskBlock {
    QString says; // "2 of 3 tasters: too sweet"
    QString none; // why there is nothing to try; empty when there is
    std::vector<AskChange> changes;
};

// From one tasted revision to the next.
struct CourseStep {
    QString between; // "r3 → r4"
    QString changed; // "only the syrup changed", "3 things changed at once: syrup, lemon, the method"
    QString scores; // "sweet 6.0 → 8.0, sour 11.0 → 10.7", and whose they are where not everyone scored both
    bool muddled = false;
};

// What tasters ask of the revision that the draft stands on. Finished values.
struct AsksValues {
    QString drink;
    QString revision;  // "r4"; empty: nothing is kept yet
    QString draftSays; // what the draft has changed since; empty: nothing
    int tastings = 0;  // of that revision
    std::vector<AskBlock> blocks;
    QStringList nextChanges; // "MK: Lemon down, nothing else", each as it was written
    tasting::ScoreCourse course;
    QStringList stations; // "r1", in the course's order
    std::vector<CourseStep> steps;
};
// Throws StoreError.
AsksValues loadAsks(const DrinkHistory& history, DraftSession& draft);

} // namespace stillroom::ui
