#pragma once

#include <string>

// Internal to core/store.
namespace stillroom::store {

class Connection;

// Copies the whole workbook through SQLite's backup interface into a new file beside `target`, checks that
// file, syncs it, and only then gives it the name `target`. What stood there before stays until that moment.
// Refused when `target` is the source itself or a workbook that was not closed.
void backUp(Connection& source, const std::string& target);

} // namespace stillroom::store
