#pragma once

#include "core/history/diff.h"
#include "core/spec/reading.h"
#include "core/spec/spec.h"
#include "ui/panels/tasting/tasting_sheet.h"
#include "ui/plots/glass_geometry.h"
#include "ui/theme/marks.h"

#include <QStringList>

#include <vector>

namespace stillroom::ui {

// A revision, or the draft, as one column. Finished values: nothing here is computed further.
struct SideColumn {
    QString label; // "r4", "draft"
    QString date;
    StateMark state = StateMark::Kept;
    spec::Spec spec;
    spec::Readings readings;
    GlassValues glass;
    std::vector<TastingEntry> tastings;
    QStringList allergens;        // what it is known to contain
    QStringList allergensUnknown; // ingredients that state nothing
};

struct SideBySideValues {
    QString drink;
    std::vector<SideColumn> columns; // two to four, oldest first
    std::size_t base = 0;            // the one the others are read against
    quantity::HouseMeasures measures = quantity::HouseMeasures::defaults();
    QString currency;
};

enum class SideChange : unsigned char { None, Same, Up, Down, Other };

struct SideCell {
    QString sign;   // "≥"
    QString number; // right-aligned
    QString unit;
    QString text; // for what is words: method, glass
    QString difference;
    SideChange change = SideChange::None;
    bool gap = false;
};

enum class SideRowKind : unsigned char { Line, Words, Reading };

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
};

SideTable sideTable(const SideBySideValues& values);
// What differs, named as a bartender would: "lemon juice", "the method".
QStringList changedThings(const history::SpecDifference& difference, const spec::Spec& a,
                          const spec::Spec& b);
// Headings and all rows, for a table elsewhere.
QList<QStringList> sideRows(const SideBySideValues& values, const SideTable& table, bool onlyDifferences);

} // namespace stillroom::ui
