#pragma once

#include "core/store/connection.h"
#include "core/store/schema.h"
#include "core/store/workbook.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

// Internal to core/store: from a path to a file that is known, held and of the right schema, or a StoreError
// that says why not. The migrations are a parameter so that tests can make every outcome happen.
namespace stillroom::store {

struct OpenedFile {
    std::unique_ptr<Connection> connection;
    OpenOutcome outcome = OpenOutcome::Current;
    bool readOnly = false;
    std::optional<std::string> backup; // the copy made before an upgrade
};

// A new, empty database, held for writing, without schema. Refused when something stands there.
std::unique_ptr<Connection> createFile(const std::string& path, Place place);
// After a failed creation: takes away what createFile made.
void removeFile(const std::string& path) noexcept;

OpenedFile openFile(const std::string& path, OpenMode mode, const std::vector<Migration>& migrations,
                    Place place = Place::Detect);
// For looking only. One of an older schema is read as it would be after an upgrade (outcome Upgraded), which
// happens to a copy in memory; the file stays as it is.
OpenedFile openForCheck(const std::string& path, const std::vector<Migration>& migrations);

} // namespace stillroom::store
