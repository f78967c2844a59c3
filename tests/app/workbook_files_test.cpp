#include "tests/app/run_program.h"
#include "tests/support/catch.h"

#include <sqlite3.h>

#include <filesystem>
#include <functional>

using namespace stillroom::tests;
namespace fs = std::filesystem;

namespace {

// A plain connection, as a hand that does not go through the program would have.
class Database {
  public:
    explicit Database(const std::string& path) {
        REQUIRE(sqlite3_open(path.c_str(), &m_handle) == SQLITE_OK);
    }
    ~Database() { sqlite3_close(m_handle); }
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;
    void run(const char* sql) {
        INFO(sql);
        const int code = sqlite3_exec(m_handle, sql, nullptr, nullptr, nullptr);
        INFO(sqlite3_errmsg(m_handle));
        REQUIRE(code == SQLITE_OK);
    }
    bool refuses(const char* sql) {
        return sqlite3_exec(m_handle, sql, nullptr, nullptr, nullptr) != SQLITE_OK;
    }
    int changes() const { return sqlite3_changes(m_handle); }

  private:
    sqlite3* m_handle = nullptr;
};

std::string sampleIn(const TemporaryFolder& folder) {
    const std::string path = folder.path("sample.stillroom");
    const ProgramRun made = runProgram({"new", path, "--sample"});
    INFO(made.err);
    REQUIRE(made.exitCode == 0);
    return path;
}

// Both `show` and `check` refuse the file with 1, say so in these words, and leave it as it is.
void refusedInWords(const std::string& path, const std::string& words) {
    const std::string before = contentOf(path);
    for (const char* command : {"show", "check"}) {
        const ProgramRun run = runProgram({command, path});
        INFO(command << ": " << run.out << run.err);
        CHECK(run.signal == 0);
        CHECK(run.exitCode == 1);
        CHECK(run.err.find(path) != std::string::npos);
        CHECK(run.err.find(words) != std::string::npos);
    }
    CHECK(contentOf(path) == before);
}

} // namespace

TEST_CASE("a revision changed behind the program's back is found by check", "[app]") {
    const TemporaryFolder folder;
    const std::string path = sampleIn(folder);
    {
        Database database(path);
        CHECK(database.refuses("UPDATE revision SET reason = 'better' WHERE row = 3"));
        database.run("DROP TRIGGER revision_no_update");
        database.run("UPDATE revision SET spec = replace(spec, '\"45\"', '\"54\"') WHERE row ="
                     " (SELECT min(row) FROM revision WHERE spec LIKE '%\"45\"%')");
        REQUIRE(database.changes() == 1);
    }
    const ProgramRun run = runProgram({"check", path});
    INFO(run.out << run.err);
    CHECK(run.exitCode == 1);
    CHECK(run.err.find("revision") != std::string::npos);
    CHECK(run.err.find(" of ") != std::string::npos);
}

TEST_CASE("a tasting changed behind the program's back is found by check", "[app]") {
    const TemporaryFolder folder;
    const std::string path = sampleIn(folder);
    {
        Database database(path);
        CHECK(database.refuses("DELETE FROM tasting"));
        database.run("DROP TRIGGER tasting_no_update");
        database.run("UPDATE tasting SET note = 'Perfect.' WHERE row = 1");
        REQUIRE(database.changes() == 1);
    }
    const ProgramRun run = runProgram({"check", path});
    INFO(run.out << run.err);
    CHECK(run.exitCode == 1);
    CHECK(run.err.find("tasting") != std::string::npos);
}

TEST_CASE("a file that is no workbook is refused in words and left alone", "[app]") {
    const TemporaryFolder folder;
    writeFile(folder.path("notes.stillroom"),
              "gin, lemon, and a good deal of writing that is no database at all\n");
    refusedInWords(folder.path("notes.stillroom"), "not a workbook");

    Database(folder.path("other.stillroom")).run("CREATE TABLE bird (name TEXT)");
    refusedInWords(folder.path("other.stillroom"), "another program");
}

TEST_CASE("a workbook of a newer program is refused in words and left alone", "[app]") {
    const TemporaryFolder folder;
    const std::string path = sampleIn(folder);
    Database(path).run("PRAGMA user_version = 1000000");
    // That one still lets this program read, only not write.
    CHECK(runProgram({"show", path}).exitCode == 0);
    Database(path).run("UPDATE book SET readable_from = 1000000");
    refusedInWords(path, "newer Stillroom");
}

TEST_CASE("a damaged workbook never ends in a crash", "[app]") {
    const TemporaryFolder folder;
    const std::string path = sampleIn(folder);
    const std::string whole = contentOf(path);
    constexpr std::size_t kPage = 4096;
    for (const std::size_t part : {whole.size() / 4, whole.size() / 2, whole.size() * 3 / 4}) {
        const std::size_t at = part - part % kPage; // the head of a page, never free space
        std::string damaged = whole;
        damaged.replace(at, 512, 512, '\x5A');
        writeFile(path, damaged);
        for (const char* command : {"show", "check"}) {
            const ProgramRun run = runProgram({
                command,
                path,
            });
            INFO(command << " at " << at << ": " << run.err);
            CHECK(run.signal == 0);
            CHECK((run.exitCode == 0 || run.exitCode == 1));
        }
        CHECK(runProgram({"check", path}).exitCode == 1);
        CHECK(contentOf(path) == damaged);
    }
    writeFile(path, whole.substr(0, whole.size() / 2));
    const ProgramRun cut = runProgram({"check", path});
    INFO(cut.err);
    CHECK(cut.signal == 0);
    CHECK(cut.exitCode == 1);
}

TEST_CASE("a read-only workbook can be shown and checked and read against", "[app]") {
    const TemporaryFolder folder;
    const std::string path = sampleIn(folder);
    fs::permissions(path, fs::perms::owner_read);
    const std::string before = contentOf(path);
    CHECK(runProgram({"show", path}).exitCode == 0);
    CHECK(runProgram({"check", path}).exitCode == 0);
    CHECK(runProgram({"read", "--workbook", path}, "Pair\n\n45 ml gin\n20 ml lemon juice\n").exitCode == 0);
    CHECK(contentOf(path) == before);
}

TEST_CASE("a workbook that another program holds is refused in words", "[app]") {
    const TemporaryFolder folder;
    const std::string path = sampleIn(folder);
    Database other(path);
    other.run("PRAGMA locking_mode = EXCLUSIVE");
    other.run("BEGIN EXCLUSIVE");
    const ProgramRun run = runProgram({"show", path});
    INFO(run.out << run.err);
    CHECK(run.exitCode == 1);
    CHECK(run.err.find("has it open") != std::string::npos);
    other.run("ROLLBACK");
}
