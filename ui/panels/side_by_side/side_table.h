#pragma once

#include "core/history/side_by_side.h"
#include "core/spec/reading.h"
#include "core/spec/spec.h"
#include "ui/panels/tasting/tasting_sheet.h"
#include "ui/plots/glass_geometry.h"
#include "ui/theme/marks.h"

#include <QStringList>

#include <map>
#include <optional>
#include <vector>

namespace stillroom::ui {

// A column to be: a kept revision, or a draft.
struct SideRef {
    std::optional<base::RevisionId> revision;
    std::optional<base::DraftId> draft;
    bool today = false; // a revision read again with the facts and prices of today
    friend bool operator==(const SideRef&, const SideRef&) = default;
};

// A revision, or a draft, as one column. Finished values: nothing here is computed further.
struct SideColumn {
    SideRef ref;
    QString label; // "r4", "draft", "r4 today", "Quill Point r3"
    QString drink; // of another drink than the page's: its name
    QString date;
    QString credit; // where the drink comes from
    StateMark state = StateMark::Kept;
    spec::Spec spec;
    spec::Readings readings;
    GlassValues glass;
    std::vector<TastingEntry> tastings;
    QStringList allergens;        // what it is known to contain
    QStringList allergensUnknown; // ingredients that state nothing
    QStringList cautions;         // in words, most dangerous first
    history::RevisionFacts facts; // what its lines are poured from
};

struct SideBySideValues {
    QString drink;
    std::vector<SideColumn> columns; // two to four, oldest first
    std::size_t base = 0;            // the one the others are read against
    quantity::HouseMeasures measures = quantity::HouseMeasures::defaults();
    QString currency;
    std::vector<tasting::ScaleDefinition> scales;    // the book's, and what else was scored on
    std::map<std::string, larder::FactState> states; // behind the columns' facts, by hash
    history::Per per = history::Per::Serve;
    std::optional<spec::Stage> stage = spec::Stage::Served; // none: every reading at every stage
};
inline constexpr std::size_t kMostSideColumns = 4;

enum class SideChange : unsigned char { None, Same, Up, Down, Other };

struct SideCell {
    QString sign;   // "≥", "≤", "≈"
    QString number; // right-aligned
    QString unit;
    QString text; // for what is words: method, glass
    QString difference;
    SideChange change = SideChange::None;
    bool gap = false;
    bool openDifference = false; // less than a number is known of it
};

enum class SideRowKind : unsigned char { Line, Words, Reading, Heading };

struct SideRow {
    SideRowKind kind = SideRowKind::Line;
    QString name;
    QString note; // "floated", "as served"
    std::vector<SideCell> cells;
    bool differs = false;
};

// What the comparison comes to: how many things changed, and what may be concluded.
struct SideFinding {
    bool warning = false;
    QString fact;
    QString consequence;
};

struct SideTable {
    std::vector<SideRow> rows; // lines, then words, then readings
    std::vector<SideFinding> findings;
    QStringList allergens; // gained, lost, not stated: one sentence each
    QStringList cautions;  // gained and lost, likewise; empty: none either way
};

SideTable sideTable(const SideBySideValues& values);
QString perWord(history::Per per); // "per 100 ml"
// Headings and all rows, for a table elsewhere.
QList<QStringList> sideRows(const SideBySideValues& values, const SideTable& table, bool onlyDifferences);

} // namespace stillroom::ui
