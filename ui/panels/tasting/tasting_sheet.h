#pragma once

#include "core/store/workbook.h"
#include "core/tasting/score_means.h"
#include "core/tasting/tasting.h"
#include "ui/panels/tasting/measured_words.h"

#include <tl/expected.hpp>

#include <QImage>
#include <QString>
#include <QStringList>

#include <optional>
#include <vector>

namespace stillroom::ui {

// A tasting as it is shown.
struct TastingEntry {
    tasting::Tasting said; // what a correction starts from
    QString initials;
    QString name;
    QString when;
    QString circumstances; // "4 min in the glass, the back bar; 112 ml"; empty: nothing was said
    tasting::Scores scores;
    QString note;
    tasting::Verdict verdict = tasting::Verdict::None;
    QString tryNext;
    std::vector<QImage> photos; // small
};

// What the tasting page needs to know.
struct TastingSheet {
    QString drink;
    QString revision; // "r5"
    QString about;    // "kept 25 Nov: lemon 22.5 → 20 ml"
    base::Instant now;
    std::vector<tasting::ScaleDefinition> scales; // what is asked for, in order
    std::vector<tasting::Person> people;
    std::optional<base::PersonId> taster; // who tasted last, most likely who tastes now
    QStringList places;                   // where this drink was tasted before, the last first
    // Of the book's scales, then others that the tastings here were scored on. Means are in their order.
    std::vector<tasting::ScaleDefinition> shownScales;
    tasting::ScoreMeans rings;                        // of the revision before
    QString ringsOf;                                  // "r4"; empty: none
    std::shared_ptr<const MeasuredContext> measuring; // null: measurements say nothing here
    std::vector<TastingEntry> tastings;               // of this revision, oldest first
};

// The circumstances as they were typed: what cannot be read stands until it is put right.
struct CircumstanceTexts {
    QString glassAge; // minutes
    QString place;
    QString volume; // ml
    QString weight; // g
    QString temperature;
    QString brix;
    friend bool operator==(const CircumstanceTexts&, const CircumstanceTexts&) = default;
};
tl::expected<tasting::Circumstances, tasting::CircumstanceError>
circumstancesFrom(const CircumstanceTexts& texts);
CircumstanceTexts textsOf(const tasting::Circumstances& circumstances);

// What the page gives back.
struct TastingInput {
    std::optional<base::PersonId> person; // none: somebody new
    QString name;                         // as typed, when new
    QString initials;
    std::optional<base::Instant> when; // none: as it is saved
    CircumstanceTexts circumstances;
    tasting::Scores scores;
    QString note;
    tasting::Verdict verdict = tasting::Verdict::None;
    QString tryNext;
    std::optional<base::TastingId> amends; // a correction of this one
    std::vector<std::string> photos;       // to be attached when it is saved, as the book takes them
    bool saysSomething() const;
    friend bool operator==(const TastingInput&, const TastingInput&) = default;
};
// What a correction of it starts from.
TastingInput inputFrom(const TastingEntry& entry);

// "MK" → MK; "Mara Kell" → MK; "mara" → MA.
QString initialsFrom(const QString& typed);
// The one whose initials or name these are.
std::optional<base::PersonId> personFor(const std::vector<tasting::Person>& people, const QString& typed);

std::vector<TastingEntry> tastingEntries(const store::Workbook& book, base::RevisionId revision,
                                         const std::vector<tasting::Person>& people, base::Instant now);
std::vector<tasting::Scores> scoresOf(const std::vector<TastingEntry>& tastings);
// Throw StoreError. A null sheet: the book holds no such revision.
std::optional<TastingSheet> loadTastingSheet(const store::Workbook& book, base::RevisionId revision,
                                             base::Instant now);
tasting::Tasting saveTasting(store::Workbook& book, base::RevisionId revision, const TastingInput& input,
                             base::Instant now);

} // namespace stillroom::ui
