#include "tests/faults/everywhere.h"

#include <fstream>
#include <iostream>
#include <sstream>

using namespace stillroom;
using namespace stillroom::test;
using store::OpenMode;
using store::Workbook;

// Upgrades of the books of earlier schemas that stand in tests/core/store/fixtures, broken off.

namespace {

// A table that came with the schema after it.
const char* nextTableOf(int version) {
    return version == 1 ? "draft_use" : "search_due";
}

void writeOldSchema(const std::string& path, int version) {
    std::ifstream dump(STILLROOM_SOURCE_DIR "/tests/core/store/fixtures/v000" + std::to_string(version) +
                       ".sql");
    REQUIRE(dump);
    std::ostringstream sql;
    sql << dump.rdbuf();
    std::ofstream(path, std::ios::trunc).flush();
    RawFile raw(path);
    raw.run(sql.str());
    raw.run("PRAGMA application_id = " + std::to_string(store::kApplicationId) +
            "; PRAGMA user_version = " + std::to_string(version));
}

// Of the old version or today's, whole, and the same content either way.
std::vector<std::string> upgradeProblems(const std::string& path, int old, bool mustBeNew) {
    std::vector<std::string> found;
    const auto must = [&found](bool holds, const char* what) {
        if (!holds) found.emplace_back(what);
    };
    try {
        int version = 0;
        {
            RawFile raw(path);
            version = std::stoi(raw.text("PRAGMA user_version"));
            const std::string has = "SELECT count(*) FROM sqlite_schema WHERE name = '";
            must((raw.text(has + nextTableOf(old) + "'") == "0") == (version == old),
                 "the upgrade happened in part");
            must(raw.text("SELECT count(*) FROM revision") == "2", "a revision is missing");
            must(raw.text("SELECT count(*) FROM tasting") == "2", "a tasting is missing");
        }
        const int newest = store::schemaMigrations().back().version;
        must(version == old || version == newest, "the version is neither the old nor the new");
        must(version == newest || !mustBeNew, "an upgrade that was reported is undone");
        const auto report = store::check(path); // compares the schema and every hash, upgraded or not
        for (const auto& problem : report.problems)
            found.push_back(problem.where + ": " + problem.what);
        must(report.drinks == 2 && report.revisions == 2 && report.tastings == 2, "content is missing");
        const std::string backup = path + "-before-v" + std::to_string(newest);
        must(version == old || std::filesystem::exists(backup), "upgraded without a copy");
        if (std::filesystem::exists(backup))
            must(store::check(backup).problems.empty(), "the copy is damaged");
        // And it can be upgraded and worked on from here.
        const auto book = Workbook::open(path, OpenMode::ReadWrite, kFaultClock);
        const auto kind = book->larder().match("our gin").ingredient;
        must(book->usesOf(kind).size() == 2, "uses are missing");
        must(!book->search({"skerry", {}}).hits.empty(), "it cannot be searched");
    } catch (const std::exception& error) {
        found.push_back(std::string("the workbook does not open: ") + error.what());
    }
    return found;
}

BrokenOff oldBook(int version) {
    return BrokenOff([version](const std::string& path) { writeOldSchema(path, version); },
                     [version](const std::string& path, bool acknowledged) {
                         return upgradeProblems(path, version, acknowledged);
                     });
}

void failUpgradeOf(int version) {
    auto old = oldBook(version);
    const int runs = failingEverywhere(
        [&] {
            return Workbook::open(old.path(), OpenMode::ReadWrite, kFaultClock)->outcome() ==
                   store::OpenOutcome::Upgraded;
        },
        [&](bool acknowledged) {
            REQUIRE(old.problems(acknowledged) == "");
            old.putBack();
        });
    CHECK(runs > 100 / kFaultStride);
    std::cout << "failing device, upgrading schema " << version << ": " << runs << " runs, "
              << old.differentEnds() << " different ends\n";
}

void killUpgradeOf(int version) {
    auto old = oldBook(version);
    const int killed = killedEverywhere([&] { Workbook::open(old.path(), OpenMode::ReadWrite, kFaultClock); },
                                        [&](bool acknowledged) {
                                            REQUIRE(old.problems(acknowledged) == "");
                                            old.putBack();
                                        });
    CHECK(killed > 20 / kFaultStride);
    std::cout << "killed in an upgrade of schema " << version << ": " << killed << " times, "
              << old.differentEnds() << " different ends\n";
}

} // namespace

TEST_CASE("whatever operation fails a book of the first schema is upgraded whole or not at all",
          "[faults][upgrade]") {
    failUpgradeOf(1);
}

TEST_CASE("whatever operation fails a book of the second schema is upgraded whole or not at all",
          "[faults][upgrade]") {
    failUpgradeOf(2);
}

TEST_CASE("a process killed while upgrading the first schema leaves a whole book",
          "[faults][kill][upgrade]") {
    killUpgradeOf(1);
}

TEST_CASE("a process killed while upgrading the second schema leaves a whole book",
          "[faults][kill][upgrade]") {
    killUpgradeOf(2);
}
