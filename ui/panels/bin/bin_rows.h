#pragma once

#include "core/store/empty_bin.h"
#include "ui/delegates/pick_row.h"
#include "ui/session/workbook_session.h"

#include <variant>

namespace stillroom::ui {

// A thing in the bin, and how it is shown.
struct BinRow {
    std::variant<base::DrinkId, base::DraftId, base::IngredientId, base::PanelId> what;
    QString name; // as a person would call it
    PickRow row;
};
// Drinks, then drafts, ingredients and panels. Throws StoreError.
std::vector<BinRow> binRows(WorkbookSession& book);
void bringBack(WorkbookSession& book, const BinRow& row); // throws StoreError

QString binCountWords(const std::vector<BinRow>& rows); // "2 drinks, 1 draft"
// "2 drinks with 5 revisions and 1 tasting": what went.
QString emptiedWords(const store::EmptiedBin& emptied);
// "Honey syrup stays: revision 3 of Ox Skerry was made with it."
QString stillNeededWords(const store::StillNeeded& needed);

} // namespace stillroom::ui
