#include "core/store/backup.h"

#include "core/store/connection.h"

#include <SQLiteCpp/Backup.h>
#include <sqlite3.h>

#include <fcntl.h>
#include <unistd.h>

#include <filesystem>

namespace stillroom::store {

namespace {

namespace fs = std::filesystem;

void removeQuietly(const std::string& path) {
    std::error_code ignored;
    fs::remove(path, ignored);
}

// SQLite applies any log it finds beside a file, so a new file must never be put beside an old log.
void refuseUnlessFree(const std::string& source, const std::string& target) {
    std::error_code ignored;
    if (fs::equivalent(source, target, ignored))
        throw StoreError(StoreErrorKind::AlreadyExists, 0, target, "a copy cannot replace the open workbook");
    for (const char* beside : {"-wal", "-journal"})
        if (fs::exists(target + beside, ignored))
            throw StoreError(StoreErrorKind::AlreadyExists, 0, target,
                             "a workbook that is open, or was not closed, stands there");
}

void copyInto(Connection& source, const std::string& path) {
    source.guarded("copying the workbook", [&] {
        SQLite::Database copy(path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
        // What is copied may say that it has a log: without this its index would need shared memory.
        copy.exec("PRAGMA locking_mode = EXCLUSIVE");
        {
            SQLite::Backup backup(copy, source.database());
            const int code = backup.executeStep();
            if (code != SQLITE_DONE) throw SQLite::Exception("the copy did not come to its end", code);
        }
        // A closed workbook is one file: the copy leaves the log behind.
        copy.exec("PRAGMA journal_mode = DELETE");
        const std::string verdict = copy.execAndGet("PRAGMA integrity_check(1)").getString();
        if (verdict != "ok") throw SQLite::Exception("the copy is damaged: " + verdict, SQLITE_CORRUPT);
    });
}

void syncOrThrow(const std::string& path, int flags) {
    const int file = open(path.c_str(), flags | O_CLOEXEC);
    const bool synced = file >= 0 && fsync(file) == 0;
    if (file >= 0) close(file);
    if (!synced) throw StoreError(StoreErrorKind::Io, 0, path, "the copy could not be brought to the disk");
}

} // namespace

void backUp(Connection& source, const std::string& target) {
    refuseUnlessFree(source.path(), target);
    const std::string partial = target + "-partial";
    removeQuietly(partial);
    try {
        copyInto(source, partial);
        syncOrThrow(partial, O_RDONLY);
        std::error_code error;
        fs::rename(partial, target, error);
        if (error)
            throw StoreError(StoreErrorKind::Io, 0, target,
                             "the copy could not be named: " + error.message());
        syncOrThrow(fs::absolute(target).parent_path().string(), O_RDONLY | O_DIRECTORY);
    } catch (...) {
        for (const char* beside : {"", "-wal", "-journal", "-shm"})
            removeQuietly(partial + beside);
        throw;
    }
}

} // namespace stillroom::store
