#pragma once

#include <cstdint>
#include <map>
#include <random>
#include <string>
#include <vector>

namespace stillroom::test {

// From one operation that is made to fail to the next: 1 is each of them (CMakeLists.txt).
inline constexpr int kFaultStride = STILLROOM_FAULT_STRIDE;

enum class FaultKind : std::uint8_t { IoError, DiskFull, ShortWrite, Kill };

// A disk that fails when told to, as a SQLite file system over the real one. While one of these exists it
// is what every new connection uses. It offers no shared memory, as the store must not need any.
//
// Counted: writes, syncs, truncations, openings and deletions. Reading never fails. Syncs are only noted,
// since nothing here has to survive a real power cut.
class FaultDevice {
  public:
    FaultDevice();
    ~FaultDevice();
    FaultDevice(const FaultDevice&) = delete;
    FaultDevice& operator=(const FaultDevice&) = delete;

    // Operation number `at` (from 1) fails, and with `forEver` all after it.
    void failAt(int at, FaultKind kind, bool forEver);
    // Power goes at operation number `at`: from then on everything fails and nothing more is noted.
    void cutPowerAt(int at) { m_cutAt = at; }
    // A disk that says it has synced and has not: a control that must lose what a sync should have saved.
    void lieAboutSyncs() { m_lies = true; }
    int operations() const { return m_operations; }
    bool isDead() const { return m_dead; }

    // Once nothing is open: puts every file into a state that the power cut could have left, with a random
    // subset of the 512-byte sectors written since the last sync undone.
    void leaveWhatThePowerCutLeft(std::mt19937& random);

    // For the file system's own functions.
    struct Verdict {
        int code = 0; // SQLITE_OK: go on
        bool shortWrite = false;
    };
    Verdict next(bool isWrite);
    void opened(const std::string& path);
    void wrote(const std::string& path, std::int64_t offset, std::string bytes);
    void truncated(const std::string& path, std::int64_t size);
    void synced(const std::string& path);
    void deleted(const std::string& path, bool folderSynced);

  private:
    struct Change {
        bool truncation = false;
        std::int64_t offset = 0; // or the new size
        std::string bytes;
    };
    struct Image {
        std::string durable;
        std::vector<Change> unsynced;
        bool gone = false; // deleted, but the folder not synced: it may come back
    };
    static void apply(std::string& content, const Change& change);

    int m_operations = 0;
    int m_failAt = 0;
    int m_cutAt = 0;
    FaultKind m_kind = FaultKind::IoError;
    bool m_forEver = false;
    bool m_dead = false;
    bool m_lies = false;
    std::map<std::string, Image> m_images;
};

} // namespace stillroom::test
