#include "core/store/opening.h"

#include "core/store/backup.h"
#include "core/store/holder.h"
#include "core/store/migrator.h"

#include <SQLiteCpp/Backup.h>
#include <sqlite3.h>

#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>

namespace stillroom::store {

namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t kSmallestPage = 512; // sqlite.org/fileformat2.html, 1.3.2
constexpr auto kNotSqlite = "the file is not a workbook, nor any SQLite file";

// Marked read-only counts even for a user who could write all the same. The folder matters as well: the
// log stands beside the file.
bool isWritable(const std::string& path) {
    struct stat info {};
    if (stat(path.c_str(), &info) != 0 || (info.st_mode & 0222U) == 0) return false;
    return access(path.c_str(), W_OK) == 0 && access(fs::absolute(path).parent_path().c_str(), W_OK) == 0;
}

bool hasLogBeside(const std::string& path) {
    for (const char* beside : {"-wal", "-journal"}) {
        std::error_code error;
        const auto size = fs::file_size(fs::weakly_canonical(path).string() + beside, error);
        if (!error && size > 0) return true;
    }
    return false;
}

Access readingAccess(const std::string& path) {
    // Where the folder allows it, a log left by a killed process is brought in and no litter stays behind.
    if (isWritable(path)) return Access::Guarded;
    return hasLogBeside(path) ? Access::ReadOnly : Access::Immutable;
}

std::unique_ptr<Connection> connect(const std::string& path, Access access) {
    try {
        return std::make_unique<Connection>(path, access);
    } catch (const StoreError& error) {
        if (error.kind() == StoreErrorKind::Locked)
            throw StoreError(StoreErrorKind::Locked, error.sqliteCode(), path, lockedBy(path));
        if (access == Access::ReadOnly && error.kind() == StoreErrorKind::Io)
            throw StoreError(
                StoreErrorKind::ReadOnly, error.sqliteCode(), path,
                "the workbook was not closed, and its folder cannot be written to bring its log in");
        if (error.kind() == StoreErrorKind::NotADatabase)
            throw StoreError(StoreErrorKind::NotADatabase, error.sqliteCode(), path, kNotSqlite);
        throw;
    }
}

Journal journalFor(const std::string& path, Place place) {
    return place == Place::NetworkOrSynced || isOnNetwork(path) ? Journal::Rollback : Journal::WriteAhead;
}

void upgrade(OpenedFile& file, int from, const std::vector<Migration>& migrations) {
    const std::string target = backupPathFor(file.connection->path(), migrations.back().version);
    backUp(*file.connection, target);
    file.backup = target;
    migrate(*file.connection, from, migrations);
}

void refuseUnlessFile(const std::string& path) {
    std::error_code error;
    if (!fs::exists(path, error))
        throw StoreError(StoreErrorKind::NotFound, 0, path, "there is no such file");
    if (!fs::is_regular_file(path, error))
        throw StoreError(StoreErrorKind::NotAWorkbook, 0, path, "this is not a file");
    // SQLite takes so short a file for an empty one and would write over it.
    const auto size = fs::file_size(path, error);
    if (!error && size == 0 && !hasLogBeside(path))
        throw StoreError(StoreErrorKind::NotADatabase, 0, path,
                         "the file is empty, and so it is not a workbook");
    if (!error && size > 0 && size < kSmallestPage)
        throw StoreError(StoreErrorKind::NotADatabase, 0, path, kNotSqlite);
}

// As it would be after an upgrade; the file stays as it is.
std::unique_ptr<Connection> upgradedInMemory(Connection& old, int from,
                                             const std::vector<Migration>& migrations) {
    auto copy = std::make_unique<Connection>(":memory:", Access::Create);
    old.guarded("reading the workbook", [&] {
        SQLite::Backup backup(copy->database(), old.database());
        const int code = backup.executeStep();
        if (code != SQLITE_DONE) throw SQLite::Exception("the file could not be read to its end", code);
    });
    migrate(*copy, from, migrations);
    return copy;
}

} // namespace

std::unique_ptr<Connection> createFile(const std::string& path, Place place) {
    std::error_code ignored;
    if (fs::exists(fs::symlink_status(path, ignored)))
        throw StoreError(StoreErrorKind::AlreadyExists, 0, path,
                         "something of this name stands there already");
    if (const auto folder = fs::absolute(path).parent_path(); !fs::is_directory(folder, ignored))
        throw StoreError(StoreErrorKind::Io, 0, path, "there is no folder " + folder.string());
    try {
        auto connection = std::make_unique<Connection>(path, Access::Create);
        connection->prepareForWriting(journalFor(path, place));
        return connection;
    } catch (...) {
        removeFile(path);
        throw;
    }
}

void removeFile(const std::string& path) noexcept {
    for (const char* beside : {"", "-wal", "-journal", "-shm"}) {
        std::error_code ignored;
        fs::remove(path + beside, ignored);
    }
}

OpenedFile openFile(const std::string& path, OpenMode mode, const std::vector<Migration>& migrations,
                    Place place) {
    refuseUnlessFile(path);
    OpenedFile file;
    file.readOnly = mode == OpenMode::ReadOnly || !isWritable(path);
    file.connection = connect(path, file.readOnly ? readingAccess(path) : Access::Writable);
    const Standing standing = standingOf(*file.connection, migrations);
    file.outcome = standing.outcome;
    if (standing.outcome == OpenOutcome::Upgraded && file.readOnly)
        throw StoreError(StoreErrorKind::ReadOnly, 0, path,
                         "the workbook is of an older version and cannot be upgraded where it stands");
    if (standing.outcome == OpenOutcome::NewerCompatible && !file.readOnly) {
        file.connection.reset();
        file.connection = connect(path, Access::Guarded);
        file.readOnly = true;
    }
    if (file.readOnly) return file;

    file.connection->prepareForWriting(journalFor(path, place));
    if (standing.outcome == OpenOutcome::Upgraded) upgrade(file, standing.version, migrations);
    return file;
}

OpenedFile openForCheck(const std::string& path, const std::vector<Migration>& migrations) {
    refuseUnlessFile(path);
    OpenedFile file;
    file.readOnly = true;
    file.connection = connect(path, readingAccess(path));
    const Standing standing = standingOf(*file.connection, migrations);
    file.outcome = standing.outcome;
    if (standing.outcome == OpenOutcome::Upgraded)
        file.connection = upgradedInMemory(*file.connection, standing.version, migrations);
    return file;
}

} // namespace stillroom::store
