#pragma once

#include "core/store/workbook.h"

namespace stillroom::bench {

// Types requests letter by letter, each key a search of its own, and prints what they take; reads what is
// still unread before that, and says how long it took.
void measureSearch(store::Workbook& book);

double residentMb(); // of this process now; 0 where the system does not tell

} // namespace stillroom::bench
