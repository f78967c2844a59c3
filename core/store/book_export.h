#pragma once

#include "core/exchange/book_json.h"
#include "core/store/workbook.h"

namespace stillroom::store {

// All of a book as values, for exchange::bookJson(). Put into an empty workbook by importBook() it is the
// same book again: every person, ingredient, price ever paid, lot, drink, revision (with the facts, house
// measures and readings it was kept with, under its hash), draft, tasting, photo and panel, in the bin, taken
// off or amended too, under its own id and time. Left out by design:
// - the book's own id: a book that is made of an export is another book, and the author of what is in it;
// with
//   that the counts of how often each field was written;
// - saved searches that were removed, and the marks of what was taken out when the bin was emptied;
// - what is worked out anew: the search index, the list of uses, facts and cost of what is made here;
// - photos whose bytes are damaged (`stillroom check` names them).
// Throws StoreError.
exchange::ScriptedBook exportBook(const Workbook& book);

} // namespace stillroom::store
