#pragma once

#include "core/store/schema.h"
#include "core/store/workbook.h"

#include <string>
#include <vector>

// Internal to core/store.
namespace stillroom::store {

class Connection;

// The schema version of a file and whether this program may read it. Throws NotAWorkbook, Damaged or
// NewerIncompatible. A version that cannot be read is an error, never version 0.
struct Standing {
    int version = 0;
    OpenOutcome outcome = OpenOutcome::Current; // Upgraded: behind, to be migrated before use
};
Standing standingOf(Connection& connection, const std::vector<Migration>& migrations);

// Runs every migration after `from`, inside the caller's transaction.
void runMigrations(Connection& connection, int from, const std::vector<Migration>& migrations);
// The same in a transaction of its own: all of them or none. The caller has backed up.
void migrate(Connection& connection, int from, const std::vector<Migration>& migrations);

// Where the copy made before an upgrade stands: "<path>-before-v2".
std::string backupPathFor(const std::string& path, int newVersion);

} // namespace stillroom::store
