#pragma once

#include "core/store/book.h"
#include "core/store/workbook.h"

#include <vector>

// Internal to core/store.
namespace stillroom::store {

// What check() finds by holding rows against each other, where no hash covers them: marks and lineage that
// point to another drink's revision or round in a circle, tags that are no list, numbers of revisions out of
// their order, an author that is not this book, rows that are missing between others, panels closed or
// answered that were never poured. Throws StoreError where something cannot be read at all.
//
// What it cannot find: the newest tasting or answer, or a closing step, taken out by hand. Nothing that is
// written later speaks of it, as a book whose panel was never closed looks the same; a chain of hashes would
// have to be signed by somebody outside the file. Nor who changed a name, a tag or a brief: these may change.
void checkRows(Book& book, std::vector<CheckProblem>& problems);

} // namespace stillroom::store
