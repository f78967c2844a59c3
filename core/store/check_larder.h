#pragma once

#include "core/store/book.h"
#include "core/store/workbook.h"

#include <vector>

// Internal to core/store.
namespace stillroom::store {

// What check() finds in the larder, the bin, the lots and the rates: purchases that no cost can come of, what
// is got from itself by the names on the way, lots in use that are not there, dates that do not exist. Throws
// StoreError where something cannot be read at all.
void checkLarder(Book& book, std::vector<CheckProblem>& problems);

} // namespace stillroom::store
