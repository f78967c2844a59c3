#pragma once

#include "core/exchange/book_json.h"
#include "core/store/workbook.h"

namespace stillroom::store {

// All of a book as values, for exchange::bookJson(): people, own ingredients with prices, stock and lots,
// drinks in the order they were made with every revision, draft, tasting (amended ones too) and photo,
// panels, saved searches, own scales, exchange rates. Put into an empty workbook by importBook() and exported
// again, it is the same, with three things left behind:
// - ids and content hashes are new, and revisions are read with the facts of the day they are put in; two
// that
//   differed in facts alone become one;
// - drafts and ingredients in the bin, photos that were taken off, and which try was worked on last;
// - house measures, and which of several bottles is poured where that is not the last one.
// Throws StoreError.
exchange::ScriptedBook exportBook(const Workbook& book);

} // namespace stillroom::store
