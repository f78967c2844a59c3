#pragma once

#include "core/exchange/book_json.h"
#include "core/store/book_record.h"

// Internal to core/store.
namespace stillroom::store {

// What a book with ids says, as a record. Throws std::runtime_error naming what does not fit together.
BookRecord recordFrom(const exchange::ScriptedBook& book);

} // namespace stillroom::store
