#pragma once

#include "ui/session/draft_session.h"
#include "ui/text/numbers.h"

#include <QString>

namespace stillroom::ui {

// How a line differs from the revision below it, as a proofreader would mark it.
struct MarginNote {
    QString struck;     // the old amount, or the old name's sign for a line put in
    QString difference; // "−2.5", "new"
    int direction = 0;  // −1 fall, 0 neither, +1 rise
    bool isEmpty() const { return struck.isEmpty() && difference.isEmpty(); }
    friend bool operator==(const MarginNote&, const MarginNote&) = default;
};

// One line as the sheet shows it: every text finished once per edit, so that painting only paints.
struct SheetRow {
    spec::Role role = spec::Role::Mixed;
    bool firstOfRole = false; // its icon is drawn, and the dashed rule above it
    bool optional = false;
    QString amount;
    QString unit;
    QString name;
    QString hint; // "47 %", "6 % acid", or what the name was taken for
    bool gap = false;
    ReadingText alcohol, sugar, acid, cost;
    MarginNote margin;
    friend bool operator==(const SheetRow&, const SheetRow&) = default;
    // For screen readers and for the status line.
    QString inWords() const;
};

std::vector<SheetRow> sheetRows(const DraftReading& now, const spec::Bindings& bindings,
                                const std::optional<history::Revision>& base);

// The row under the lines: what was poured, and the sums of the columns.
struct SheetTotal {
    QString poured;
    QString unit;  // "ml"; "g" of a preparation
    QString words; // "poured, 10 of it floated"; "in the pan"
    ReadingText alcohol, sugar, acid, cost;
    QString difference;
    int direction = 0;
    QString takenOut; // lines of the revision that are gone: "Taken out since r4: …"
    friend bool operator==(const SheetTotal&, const SheetTotal&) = default;
};

SheetTotal sheetTotal(const DraftReading& now, const std::optional<history::Revision>& base,
                      history::DrinkForm form = history::DrinkForm::Drink);

} // namespace stillroom::ui
