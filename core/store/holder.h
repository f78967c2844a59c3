#pragma once

#include "core/base/clock.h"

#include <optional>
#include <string>

// Internal to core/store.
namespace stillroom::store {

// Who has a workbook open, so that "it is open elsewhere" can name them. SQLite's own lock is the truth:
// a note whose writer no longer holds that lock is stale and is written over.
struct Holder {
    long pid = 0;
    std::string host;
    std::string since; // ISO time
};

// "<path>-holder", written while a workbook is open for writing. A note that cannot be written is no error.
class HolderNote {
  public:
    HolderNote(std::string workbookPath, const base::Instant& now);
    ~HolderNote();
    HolderNote(const HolderNote&) = delete;
    HolderNote& operator=(const HolderNote&) = delete;

  private:
    std::string m_path;
};

std::optional<Holder> readHolder(const std::string& workbookPath);
// A sentence for the error: names the holder when the note can be believed.
std::string lockedBy(const std::string& workbookPath);

} // namespace stillroom::store
