#pragma once

#include "core/base/clock.h"
#include "core/base/id.h"
#include "core/store/connection.h"

// Internal to core/store.
namespace stillroom::store {

// What every repository works on: the open file, whose book it is (the author of each change), and the time.
// Repositories write inside a transaction that the workbook's door has opened.
struct Book {
    Connection& connection;
    base::BookId id;
    const base::Clock& clock;
};

} // namespace stillroom::store
