#pragma once

#include "core/store/workbook.h"
#include "ui/dialogs/pick_dialog.h"
#include "ui/panels/side_by_side/side_table.h"

#include <optional>
#include <vector>

namespace stillroom::ui {

// The two one most often wants: a changed draft against its revision, else the newest revision against the
// one it grew from. Fewer than two when the drink has no more.
std::vector<SideRef> usualColumns(const store::Workbook& book, base::DrinkId drink);
// Throws StoreError. Columns that are not in the book are left out. Revisions show the numbers they were
// kept with; drafts, and revisions read with the facts of today, are read with today's larder.
SideBySideValues loadSideBySide(const store::Workbook& book, base::DrinkId drink,
                                const std::vector<SideRef>& columns, base::Instant now);

// What may stand beside them: the drink's other drafts and revisions, newest first, its revisions with the
// facts of today, then every other drink as its house has it.
struct SideChoice {
    SideRef ref;
    std::optional<base::DrinkId> drink; // another drink: columnOf() says which of its versions
    PickRow row;
};
// The house revision of a drink, else the newest kept, else its draft; nullopt: it has neither.
std::optional<SideRef> columnOf(const store::Workbook& book, base::DrinkId drink);
std::vector<SideChoice> furtherColumns(const store::Workbook& book, base::DrinkId drink,
                                       const std::vector<SideRef>& taken, base::Instant now);

} // namespace stillroom::ui
