#include "core/store/opening.h"

#include "core/store/holder.h"
#include "core/store/migrator.h"
#include "tests/core/store/store_support.h"
#include "tests/support/catch.h"

#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <fstream>
#include <sstream>

using namespace stillroom;
using namespace stillroom::test;
using store::Migration;
using store::OpenMode;
using store::OpenOutcome;
using store::StoreErrorKind;
using store::Workbook;

namespace fs = std::filesystem;

namespace {

const base::FixedClock kClock{kEvening};

std::string makeBook(const TempFolder& folder, const std::string& name = "low-lamp.stillroom") {
    const std::string path = folder.file(name);
    const auto book = Workbook::create(path, lowLamp(), kClock);
    const auto draft = book->addDrink(drinkNamed("Ox Skerry"), sour(22));
    REQUIRE(book->keep(draft.id, "one"));
    return path;
}

std::string bytesOf(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

std::optional<StoreErrorKind> openingError(const std::string& path, OpenMode mode = OpenMode::ReadWrite) {
    return storeErrorOf([&] { Workbook::open(path, mode, kClock); });
}

std::vector<std::string> filesIn(const TempFolder& folder) {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(folder.file("")))
        names.push_back(entry.path().filename().string());
    std::sort(names.begin(), names.end());
    return names;
}

std::vector<Migration> withNext(std::string_view sql) {
    auto migrations = store::schemaMigrations();
    migrations.push_back({migrations.back().version + 1, sql});
    return migrations;
}

} // namespace

TEST_CASE("a closed workbook is one file", "[store]") {
    TempFolder folder;
    makeBook(folder);
    CHECK(filesIn(folder) == std::vector<std::string>{"low-lamp.stillroom"});
}

TEST_CASE("creating refuses to take another file's place", "[store]") {
    TempFolder folder;
    const std::string path = folder.file("notes.txt");
    std::ofstream(path) << "not ours";
    CHECK(storeErrorOf([&] { Workbook::create(path, lowLamp(), kClock); }) == StoreErrorKind::AlreadyExists);
    CHECK(bytesOf(path) == "not ours");
    try {
        Workbook::create(folder.file("no/folder/x"), lowLamp(), kClock);
        FAIL("made");
    } catch (const store::StoreError& error) {
        CHECK(error.kind() == StoreErrorKind::Io);
        CHECK_THAT(error.what(), Catch::Contains("there is no folder " + folder.file("no/folder")));
    }
}

TEST_CASE("a missing file and a folder are told apart", "[store]") {
    TempFolder folder;
    CHECK(openingError(folder.file("nowhere.stillroom")) == StoreErrorKind::NotFound);
    CHECK(openingError(folder.file("")) == StoreErrorKind::NotAWorkbook);
    CHECK(filesIn(folder).empty());
}

TEST_CASE("a file that is no database is refused and left alone", "[store]") {
    TempFolder folder;
    const std::string path = folder.file("letter.stillroom");
    const std::string letter(GENERATE(1U, 99U, 511U, 5000U, 70000U), 'x');
    std::ofstream(path, std::ios::binary) << letter;
    const auto mode = GENERATE(OpenMode::ReadWrite, OpenMode::ReadOnly);
    CHECK(openingError(path, mode) == StoreErrorKind::NotADatabase);
    CHECK(bytesOf(path) == letter);
    CHECK(filesIn(folder) == std::vector<std::string>{"letter.stillroom"});
}

TEST_CASE("an empty file is no workbook and stays empty", "[store]") {
    TempFolder folder;
    const std::string path = folder.file("empty.stillroom");
    std::ofstream(path).flush();
    try {
        Workbook::open(path, OpenMode::ReadWrite, kClock);
        FAIL("opened");
    } catch (const store::StoreError& error) {
        CHECK(error.kind() == StoreErrorKind::NotADatabase);
        CHECK_THAT(error.what(), Catch::Contains("the file is empty"));
    }
    CHECK(fs::file_size(path) == 0);
}

TEST_CASE("another program's database is refused and left alone", "[store]") {
    TempFolder folder;
    const std::string path = folder.file("other.db");
    std::ofstream(path).flush();
    RawFile(path).run("CREATE TABLE t (x); INSERT INTO t VALUES (1); PRAGMA user_version = 1;");
    const std::string before = bytesOf(path);
    CHECK(openingError(path) == StoreErrorKind::NotAWorkbook);
    CHECK(bytesOf(path) == before);
    CHECK(filesIn(folder) == std::vector<std::string>{"other.db"});
}

TEST_CASE("a workbook whose version reads as nothing is damaged and not new", "[store]") {
    TempFolder folder;
    const std::string path = makeBook(folder);
    const int version = GENERATE(0, -3);
    RawFile(path).run("PRAGMA user_version = " + std::to_string(version));
    const std::string before = bytesOf(path);
    CHECK(openingError(path) == StoreErrorKind::Damaged);
    CHECK(bytesOf(path) == before);
}

TEST_CASE("a damaged file is refused or reported and never mended silently", "[store]") {
    TempFolder folder;
    const std::string path = makeBook(folder);
    SECTION("the schema's page is overwritten") {
        std::fstream file(path, std::ios::binary | std::ios::in | std::ios::out);
        file.seekp(100);
        file << std::string(3000, '\xFF');
        file.close();
        CHECK(openingError(path) == StoreErrorKind::Damaged);
    }
    SECTION("a page in the middle is overwritten") {
        std::fstream file(path, std::ios::binary | std::ios::in | std::ios::out);
        file.seekp(static_cast<std::streamoff>(fs::file_size(path) / 2));
        file << std::string(4096, '\x5A');
        file.close();
        CHECK_FALSE(store::check(path).problems.empty());
    }
    SECTION("the end is cut off") {
        fs::resize_file(path, fs::file_size(path) / 2);
        bool told = false;
        try {
            told = !store::check(path).problems.empty();
        } catch (const store::StoreError& error) {
            told = error.kind() == StoreErrorKind::Damaged;
        }
        CHECK(told);
    }
}

TEST_CASE("a newer workbook that we can still read opens for reading only", "[store]") {
    TempFolder folder;
    const std::string path = makeBook(folder);
    const int newer = store::schemaMigrations().back().version + 1;
    RawFile(path).run("PRAGMA user_version = " + std::to_string(newer) +
                      "; ALTER TABLE drink ADD COLUMN mood TEXT");
    const std::string before = bytesOf(path);
    {
        const auto book = Workbook::open(path, OpenMode::ReadWrite, kClock);
        CHECK(book->outcome() == OpenOutcome::NewerCompatible);
        CHECK(book->isReadOnly());
        REQUIRE(book->summaries().size() == 1);
        CHECK(storeErrorOf([&] { book->addPerson("M. Halloran", "MH"); }) == StoreErrorKind::ReadOnly);
    }
    CHECK(bytesOf(path) == before);
}

TEST_CASE("a newer workbook that we would misread is refused", "[store]") {
    TempFolder folder;
    const std::string path = makeBook(folder);
    const int newer = store::schemaMigrations().back().version + 1;
    SECTION("because it says so") {
        RawFile(path).run("PRAGMA user_version = " + std::to_string(newer) +
                          "; UPDATE book SET readable_from = " + std::to_string(newer));
    }
    SECTION("because it no longer says anything we understand") {
        RawFile(path).run("PRAGMA user_version = " + std::to_string(newer) + "; DROP TABLE book");
    }
    const std::string before = bytesOf(path);
    CHECK(openingError(path) == StoreErrorKind::NewerIncompatible);
    CHECK(openingError(path, OpenMode::ReadOnly) == StoreErrorKind::NewerIncompatible);
    CHECK(bytesOf(path) == before);
}

TEST_CASE("an older workbook is copied and then upgraded", "[store]") {
    TempFolder folder;
    const std::string path = makeBook(folder);
    const auto migrations = withNext("CREATE TABLE lamp (row INTEGER PRIMARY KEY) STRICT; -- a; b\n"
                                     "INSERT INTO lamp VALUES (9);");
    std::string backup;
    {
        const auto file = store::openFile(path, OpenMode::ReadWrite, migrations);
        CHECK(file.outcome == OpenOutcome::Upgraded);
        REQUIRE(file.backup);
        backup = *file.backup;
    }
    CHECK(RawFile(path).text("SELECT row FROM lamp") == "9");
    CHECK(RawFile(path).text("PRAGMA user_version") == std::to_string(migrations.back().version));
    CHECK(store::check(backup).problems.empty()); // the copy is as before, and whole
    CHECK(Workbook::open(backup, OpenMode::ReadOnly, kClock)->summaries().size() == 1);
    CHECK(store::openFile(path, OpenMode::ReadWrite, migrations).outcome == OpenOutcome::Current);
}

TEST_CASE("an older workbook that may only be read says that it must be upgraded", "[store]") {
    TempFolder folder;
    const std::string path = makeBook(folder);
    const auto migrations = withNext("CREATE TABLE lamp (row INTEGER PRIMARY KEY) STRICT;");
    const std::string before = bytesOf(path);
    CHECK(storeErrorOf([&] { store::openFile(path, OpenMode::ReadOnly, migrations); }) ==
          StoreErrorKind::ReadOnly);
    CHECK(bytesOf(path) == before);
}

TEST_CASE("an upgrade that fails leaves the file as it was", "[store]") {
    TempFolder folder;
    const std::string path = makeBook(folder);
    const std::string content = RawFile(path).text("SELECT spec FROM draft");
    auto migrations = withNext("CREATE TABLE lamp (row INTEGER PRIMARY KEY) STRICT; DELETE FROM draft;");
    SECTION("at a statement of the last of two files") {
        migrations.push_back({migrations.back().version + 1, "CREATE TABLE lamp (row INTEGER PRIMARY KEY);"});
        CHECK(storeErrorOf([&] { store::openFile(path, OpenMode::ReadWrite, migrations); }).has_value());
    }
    SECTION("because history would have changed") {
        migrations.push_back({migrations.back().version + 1, "DELETE FROM revision;"});
        CHECK(storeErrorOf([&] { store::openFile(path, OpenMode::ReadWrite, migrations); }) ==
              StoreErrorKind::Refused);
    }
    SECTION("because references would dangle") {
        migrations.push_back({migrations.back().version + 1,
                              "PRAGMA defer_foreign_keys = ON; UPDATE drink SET house = "
                              "zeroblob(16);"});
        CHECK(storeErrorOf([&] { store::openFile(path, OpenMode::ReadWrite, migrations); }) ==
              StoreErrorKind::Refused);
    }
    CHECK(store::check(path).problems.empty());
    CHECK(RawFile(path).text("PRAGMA user_version") ==
          std::to_string(store::schemaMigrations().back().version));
    CHECK(RawFile(path).text("SELECT spec FROM draft") == content);
    const auto book = Workbook::open(path, OpenMode::ReadWrite, kClock);
    CHECK(book->outcome() == OpenOutcome::Current);
}

TEST_CASE("migrations are numbered from one without holes", "[store]") {
    int expected = 0;
    for (const Migration& migration : store::schemaMigrations())
        CHECK(migration.version == ++expected);
    CHECK(expected >= 1);
}

TEST_CASE("a workbook that is open says who holds it", "[store]") {
    TempFolder folder;
    const std::string path = makeBook(folder);
    const auto book = Workbook::open(path, OpenMode::ReadWrite, kClock);
    const auto holder = store::readHolder(path);
    REQUIRE(holder);
    CHECK(holder->pid == getpid());
    const auto mode = GENERATE(OpenMode::ReadWrite, OpenMode::ReadOnly);
    try {
        Workbook::open(path, mode, kClock);
        FAIL("a second opener got in");
    } catch (const store::StoreError& error) {
        CHECK(error.kind() == StoreErrorKind::Locked);
        CHECK_THAT(error.what(), Catch::Contains("already open in this program"));
    }
    CHECK(storeErrorOf([&] { store::check(path); }) == StoreErrorKind::Locked);
    // The refused opener has not loosened the hold of the first.
    book->addDrink(drinkNamed("Lantern Ness"), sour(25));
    CHECK(openingError(path) == StoreErrorKind::Locked);
}

TEST_CASE("another process that holds the workbook is named", "[store]") {
    TempFolder folder;
    const std::string path = makeBook(folder);
    int ready[2];
    int leave[2];
    REQUIRE(pipe(ready) == 0);
    REQUIRE(pipe(leave) == 0);
    const pid_t child = fork();
    if (child == 0) {
        const auto held = Workbook::open(path, OpenMode::ReadWrite, kClock);
        char byte = 1;
        const bool told = write(ready[1], &byte, 1) == 1;
        close(leave[1]);
        const bool asked = read(leave[0], &byte, 1) >= 0;
        _exit(told && asked ? 0 : 1); // as if killed: nothing is closed
    }
    char byte = 0;
    REQUIRE(read(ready[0], &byte, 1) == 1);
    try {
        Workbook::open(path, OpenMode::ReadWrite, kClock);
        FAIL("a second process got in");
    } catch (const store::StoreError& error) {
        CHECK(error.kind() == StoreErrorKind::Locked);
        CHECK_THAT(error.what(), Catch::Contains("process " + std::to_string(child)));
    }
    close(leave[0]);
    close(leave[1]);
    int status = 0;
    REQUIRE(waitpid(child, &status, 0) == child);
    CHECK(status == 0);
    // Its note is still there, but stale: SQLite's lock went with the process.
    REQUIRE(store::readHolder(path));
    const auto book = Workbook::open(path, OpenMode::ReadWrite, kClock);
    CHECK(store::readHolder(path)->pid == getpid());
    CHECK_THAT(store::lockedBy(path), Catch::Contains("already open in this program"));
    for (const int end : {ready[0], ready[1]})
        close(end);
}

TEST_CASE("a stale note does not blame a process that is gone", "[store]") {
    TempFolder folder;
    const std::string path = folder.file("x.stillroom");
    const pid_t child = fork();
    if (child == 0) {
        const store::HolderNote note(path, kEvening);
        _exit(0);
    }
    int status = 0;
    REQUIRE(waitpid(child, &status, 0) == child);
    REQUIRE(store::readHolder(path));
    CHECK(store::lockedBy(path) == "the workbook is open in another program");
    std::ofstream(path + "-holder") << "-1\n";
    CHECK_FALSE(store::readHolder(path));
}

TEST_CASE("a file marked read-only opens for reading and refuses every change", "[store]") {
    TempFolder folder;
    const std::string path = makeBook(folder);
    const std::string before = bytesOf(path);
    fs::permissions(path, fs::perms::owner_read);
    {
        const auto book = Workbook::open(path, OpenMode::ReadWrite, kClock);
        CHECK(book->isReadOnly());
        CHECK(book->outcome() == OpenOutcome::Current);
        const auto drink = book->summaries().at(0).id;
        const auto draft = book->drafts(drink).at(0);
        const auto refused = [&](auto work) { CHECK(storeErrorOf(work) == StoreErrorKind::ReadOnly); };
        refused([&] { book->saveDraft(draft.id, sour(30)); });
        refused([&] { book->addDrink(drinkNamed("x"), sour(1)); });
        refused([&] { book->keep(draft.id, "no"); });
        refused([&] { book->saveSettings(lowLamp()); });
        refused([&] { book->saveIngredient(bottleOf("gin", 40)); });
        refused([&] { book->rememberName("gin", base::IngredientId::random()); });
        refused([&] { book->forgetName("gin"); });
        book->flush(); // nothing to bring in, and no error
        book->saveCopy(folder.file("copy.stillroom"));
    }
    CHECK(store::check(path).problems.empty());
    CHECK(store::check(folder.file("copy.stillroom")).problems.empty());
    CHECK(bytesOf(path) == before);
    CHECK(filesIn(folder) == std::vector<std::string>{"copy.stillroom", "low-lamp.stillroom"});
}

TEST_CASE("reading only changes no byte and leaves nothing behind", "[store]") {
    TempFolder folder;
    const std::string path = makeBook(folder, "with space & ? # %41.stillroom");
    const std::string before = bytesOf(path);
    if (GENERATE(false, true)) fs::permissions(path, fs::perms::owner_read); // also by the other way in
    {
        const auto book = Workbook::open(path, OpenMode::ReadOnly, kClock);
        CHECK(book->isReadOnly());
        CHECK(book->summaries().size() == 1);
        CHECK_FALSE(store::readHolder(path));
    }
    CHECK(bytesOf(path) == before);
    CHECK(filesIn(folder).size() == 1);
}

TEST_CASE("a workbook in a synced folder keeps no log beside it", "[store]") {
    TempFolder folder;
    const std::string path = folder.file("synced.stillroom");
    base::DraftId draft;
    {
        const auto book = Workbook::create(path, lowLamp(), kClock, store::Place::NetworkOrSynced);
        CHECK(book->usesRollbackJournal());
        draft = book->addDrink(drinkNamed("Ox Skerry"), sour(22)).id;
        book->saveDraft(draft, sour(24));
        CHECK_FALSE(fs::exists(path + "-wal"));
        CHECK(openingError(path) == StoreErrorKind::Locked);
        book->flush();
    }
    CHECK(filesIn(folder) == std::vector<std::string>{"synced.stillroom"});
    CHECK(Workbook::open(path, OpenMode::ReadOnly, kClock)->draft(draft)->spec == sour(24));
    // Moved to a plain folder and back, it changes its journal and keeps its content.
    CHECK_FALSE(Workbook::open(path, OpenMode::ReadWrite, kClock)->usesRollbackJournal());
    const auto again = Workbook::open(path, OpenMode::ReadWrite, kClock, store::Place::NetworkOrSynced);
    CHECK(again->usesRollbackJournal());
    CHECK(again->draft(draft)->spec == sour(24));
}
