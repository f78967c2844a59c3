#pragma once

#include "core/store/workbook.h"
#include "core/tasting/tasting.h"

#include <QString>

#include <array>
#include <optional>
#include <vector>

namespace stillroom::ui {

using Scores = std::array<std::optional<int>, tasting::kScaleCount>;
using MeanScores = std::array<std::optional<double>, tasting::kScaleCount>;

QString scaleName(tasting::Scale scale); // "sweet"
// Of those who gave one; none where nobody did.
MeanScores meanScores(const std::vector<Scores>& all);

// A tasting as it is shown: words, no ids.
struct TastingEntry {
    QString initials;
    QString name;
    QString when;
    Scores scores{};
    QString note;
    tasting::Verdict verdict = tasting::Verdict::None;
    QString tryNext;
};

// What the tasting page needs to know.
struct TastingSheet {
    QString drink;
    QString revision; // "r5"
    QString about;    // "kept 25 Nov: lemon 22.5 → 20 ml"
    QString when;
    std::vector<tasting::Person> people;
    std::optional<base::PersonId> taster; // who tasted last, most likely who tastes now
    MeanScores rings{};                   // means of the revision before
    QString ringsOf;                      // "r4"; empty: none
    std::vector<TastingEntry> tastings;   // of this revision, oldest first
};

// What the page gives back.
struct TastingInput {
    std::optional<base::PersonId> person; // none: somebody new
    QString name;                         // as typed, when new
    QString initials;
    Scores scores{};
    QString note;
    tasting::Verdict verdict = tasting::Verdict::None;
    QString tryNext;
    bool saysSomething() const;
};

// "MK" → MK; "Mara Kell" → MK; "mara" → MA.
QString initialsFrom(const QString& typed);
// The one whose initials or name these are.
std::optional<base::PersonId> personFor(const std::vector<tasting::Person>& people, const QString& typed);

std::vector<TastingEntry> tastingEntries(const store::Workbook& book, base::RevisionId revision,
                                         const std::vector<tasting::Person>& people, base::Instant now);
// Throw StoreError. A null sheet: the book holds no such revision.
std::optional<TastingSheet> loadTastingSheet(const store::Workbook& book, base::RevisionId revision,
                                             base::Instant now);
tasting::Tasting saveTasting(store::Workbook& book, base::RevisionId revision, const TastingInput& input,
                             base::Instant now);

} // namespace stillroom::ui
