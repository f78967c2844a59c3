#pragma once

#include "core/store/workbook.h"
#include "core/tasting/sheet_safety.h"

namespace stillroom::store {

// Of a session of the book. An allergen counts when it was stated as the drink was kept, or is stated today:
// what was learned since holds for the glass that is poured now. Throws StoreError.
tasting::PanelSafety panelSafety(const Workbook& book, const tasting::Panel& panel);

} // namespace stillroom::store
