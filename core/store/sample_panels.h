#pragma once

#include "core/store/book_import.h"

namespace stillroom::store {

// The sample's blind sessions: one closed, one being poured, one planned; and the friends of the house who
// taste in them. Expects the sample's drinks to be there. Throws StoreError.
void addSamplePanels(Workbook& workbook, BookClock& clock);

} // namespace stillroom::store
