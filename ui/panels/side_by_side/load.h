#pragma once

#include "core/store/workbook.h"
#include "ui/panels/side_by_side/side_table.h"

#include <optional>
#include <vector>

namespace stillroom::ui {

// A column to be: a kept revision, or a draft.
struct SideRef {
    std::optional<base::RevisionId> revision;
    std::optional<base::DraftId> draft;
};

// The two one most often wants: a changed draft against its revision, else the newest revision against the
// one it grew from. Fewer than two when the drink has no more.
std::vector<SideRef> usualColumns(const store::Workbook& book, base::DrinkId drink);
// Throws StoreError. Columns that are not in the book are left out. Revisions show the numbers they were
// kept with; a draft is read with today's larder.
SideBySideValues loadSideBySide(const store::Workbook& book, base::DrinkId drink,
                                const std::vector<SideRef>& columns, base::Instant now);

} // namespace stillroom::ui
