#include "core/store/empty_bin.h"

#include "core/store/backup.h"
#include "core/store/bin_contents.h"
#include "core/store/opening.h"
#include "core/store/settings_repository.h"
#include "core/store/workbook.h"

#include <fmt/format.h>

#include <fcntl.h>
#include <unistd.h>

#include <filesystem>

namespace stillroom::store {

namespace {

namespace fs = std::filesystem;

StoreError ioError(const std::string& path, const std::string& what) {
    return {StoreErrorKind::Io, 0, path, what};
}

std::string freeName(const std::string& path) {
    std::string name = path + "-before-emptying";
    for (int n = 2; fs::exists(fs::symlink_status(name)); ++n)
        name = fmt::format("{}-before-emptying-{}", path, n);
    return name;
}

void sync(const std::string& path, int flags) {
    const int file = open(path.c_str(), flags | O_CLOEXEC);
    const bool synced = file >= 0 && fsync(file) == 0;
    if (file >= 0) close(file);
    if (!synced) throw ioError(path, "the new file could not be brought to the disk");
}

void refuseUnlessWhole(const std::string& path) {
    for (const CheckProblem& problem : check(path).problems)
        if (problem.sort == CheckSort::Damage)
            throw StoreError(StoreErrorKind::Damaged, 0, path,
                             "the file without the bin would not be whole: " + problem.where + " " +
                                 problem.what);
}

// The old file gets a second name before the new one takes its first: at every moment the path names a whole
// workbook.
void exchangeFiles(const std::string& fresh, const std::string& path, const std::string& backup) {
    sync(fresh, O_RDONLY);
    std::error_code error;
    fs::create_hard_link(path, backup, error);
    if (error) { // not every file system has them
        error.clear();
        fs::copy_file(path, backup, error);
        if (error) throw ioError(backup, "the old file could not be kept: " + error.message());
        sync(backup, O_RDONLY);
    }
    fs::rename(fresh, path, error);
    if (error) {
        std::error_code ignored;
        fs::remove(backup, ignored);
        throw ioError(path, "the new file could not take its place: " + error.message());
    }
    sync(fs::absolute(path).parent_path().string(), O_RDONLY | O_DIRECTORY);
}

void takeOut(const std::string& fresh, base::BookId id, const base::Clock& clock, EmptiedBin& report) {
    Connection copy(fresh, Access::Writable);
    copy.prepareForWriting(Journal::Rollback);
    Book book{copy, id, clock};
    BinTaker taker(book);
    copy.change("emptying the bin", Durability::Kept, [&] { taker.takeOut(report); });
    copy.guarded("emptying the bin", [&] { copy.exec("VACUUM"); });
}

} // namespace

EmptiedBin emptyBin(const std::string& path, const base::Clock& clock) {
    // Held until the end, so that nobody writes to the file that is about to be replaced.
    OpenedFile old = openFile(path, OpenMode::ReadWrite, schemaMigrations());
    if (old.readOnly)
        throw StoreError(StoreErrorKind::ReadOnly, 0, path,
                         "emptying the bin: the workbook cannot be written");
    const auto id = old.connection->guarded("reading the workbook's id",
                                            [&] { return SettingsRepository::bookId(*old.connection); });
    EmptiedBin report;
    const std::string fresh = path + "-emptied";
    removeFile(fresh); // left by an emptying that was killed; nobody else has the book open
    try {
        backUp(*old.connection, fresh);
        takeOut(fresh, id, clock, report);
        if (report.drinks + report.drafts + report.panels + report.photos + report.ingredients == 0) {
            removeFile(fresh);
            return report;
        }
        refuseUnlessWhole(fresh);
        // One file without a log from here on: what has the path's name can be renamed.
        old.connection->prepareForWriting(Journal::Rollback);
        const std::string backup = freeName(path);
        exchangeFiles(fresh, path, backup);
        report.backup = backup;
    } catch (...) {
        removeFile(fresh);
        throw;
    }
    return report;
}

} // namespace stillroom::store
