#include "core/store/migrator.h"
#include "core/store/opening.h"
#include "tests/core/store/store_support.h"
#include "tests/support/catch.h"

#include <algorithm>
#include <fstream>
#include <sstream>

using namespace stillroom;
using namespace stillroom::test;
using store::CheckSort;
using store::OpenOutcome;
using store::Workbook;

namespace {

const base::FixedClock kClock{kEvening};

std::string contentOf(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    std::ostringstream out;
    out << in.rdbuf();
    return out.str();
}

bool finds(const store::CheckReport& report, const std::string& where, const std::string& what,
           CheckSort sort) {
    return std::any_of(report.problems.begin(), report.problems.end(),
                       [&](const store::CheckProblem& problem) {
                           return problem.where == where && problem.what.find(what) != std::string::npos &&
                                  problem.sort == sort;
                       });
}

} // namespace

TEST_CASE("a negative price and an impossible yield are named by check", "[store]") {
    TempFolder folder;
    const std::string path = folder.file("book.stillroom");
    {
        const auto book = Workbook::create(path, lowLamp(), kClock);
        auto gin = bottleOf("harbour gin 47", 47);
        gin.packs = {{base::PackId::random(), {-100, {}}, 700.0, {}, {}, "2026-02-30"}};
        gin.usableShare = 0;
        gin.lotInUse = base::LotId::random();
        book->saveIngredient(gin);
    }
    const auto report = store::check(path);
    CHECK(report.problems.size() == 4);
    CHECK(finds(report, "harbour gin 47", "price is below zero", CheckSort::Doubtful));
    CHECK(finds(report, "harbour gin 47", "2026-02-30", CheckSort::Doubtful));
    CHECK(finds(report, "harbour gin 47", "the share of it that is used", CheckSort::Doubtful));
    CHECK(finds(report, "harbour gin 47", "the lot in use is not there", CheckSort::Doubtful));
}

TEST_CASE("what is got from itself is named once with the way round", "[store]") {
    TempFolder folder;
    const std::string path = folder.file("book.stillroom");
    const std::vector<std::string> names{"harbour limes", "harbour juice", "harbour cordial"};
    {
        const auto book = Workbook::create(path, lowLamp(), kClock);
        std::vector<larder::Ingredient> circle;
        for (const std::string& name : names)
            circle.push_back(bottleOf(name, 0));
        for (std::size_t i = 0; i < circle.size(); ++i)
            circle[i].gotFrom = larder::GotFrom{circle[(i + 1) % circle.size()].id, {}, {}, 1, 1};
        auto besides = bottleOf("harbour peel", 0); // hangs on the circle, is none of it
        besides.gotFrom = larder::GotFrom{circle[0].id, {}, {}, 1, 0};
        circle.push_back(besides);
        book->saveIngredients(circle);
    }
    const auto report = store::check(path);
    REQUIRE(report.problems.size() == 1);
    CHECK(report.problems[0].sort == CheckSort::Doubtful);
    for (const std::string& name : names)
        CHECK_THAT(report.problems[0].what, Catch::Contains(name));
    CHECK_THAT(report.problems[0].what, !Catch::Contains("harbour peel"));
}

TEST_CASE("an exchange rate that is none is named by check", "[store]") {
    TempFolder folder;
    const std::string path = folder.file("book.stillroom");
    {
        const auto book = Workbook::create(path, lowLamp(), kClock);
        auto settings = book->settings();
        settings.rules.rates = {
            {*quantity::Currency::fromCode("GBP"), settings.rules.currency, 1, "2026-11-01"}};
        book->saveSettings(settings);
    }
    CHECK(store::check(path).problems.empty());
    RawFile(path).run("UPDATE exchange_rate SET per_unit = '-1'");
    const auto report = store::check(path);
    REQUIRE(report.problems.size() == 1);
    CHECK_THAT(report.problems[0].what, Catch::Contains("not above zero"));
}

TEST_CASE("a list of uses that is off is derived and put right by the next edit", "[store]") {
    TempFolder folder;
    const std::string path = folder.file("book.stillroom");
    const auto gin = bottleOf("harbour gin 47", 47);
    base::DraftId draft;
    {
        const auto book = Workbook::create(path, lowLamp(), kClock);
        book->saveIngredient(gin);
        draft = book->addDrink(drinkNamed("Ox Skerry"), sour(22, gin.id)).id;
    }
    RawFile(path).run("DELETE FROM draft_use");
    const auto report = store::check(path);
    REQUIRE(report.problems.size() == 1);
    CHECK(report.problems[0].sort == CheckSort::Derived);
    {
        const auto book = Workbook::open(path, store::OpenMode::ReadWrite, kClock);
        CHECK(book->usesOf(gin.id).empty());
        book->saveDraft(draft, sour(23, gin.id));
        CHECK(book->usesOf(gin.id).size() == 1);
    }
    CHECK(store::check(path).problems.empty());
}

TEST_CASE("a newer workbook that can be read is checked and said to be newer", "[store]") {
    TempFolder folder;
    const std::string path = folder.file("book.stillroom");
    Workbook::create(path, lowLamp(), kClock).reset();
    CHECK(store::check(path).outcome == OpenOutcome::Current);
    RawFile(path).run("PRAGMA user_version = 1000");
    const auto report = store::check(path);
    CHECK(report.outcome == OpenOutcome::NewerCompatible);
    CHECK(report.problems.empty());
}

TEST_CASE("a workbook of the first schema is checked as it will be and stays as it is", "[store]") {
    TempFolder folder;
    const std::string path = folder.file("old.stillroom");
    std::ifstream dump(STILLROOM_SOURCE_DIR "/tests/core/store/fixtures/v0001.sql");
    std::ostringstream sql;
    sql << dump.rdbuf();
    std::ofstream(path).flush();
    {
        RawFile raw(path);
        raw.run(sql.str());
        raw.run("PRAGMA application_id = " + std::to_string(store::kApplicationId) +
                "; PRAGMA user_version = 1");
    }
    SECTION("with its log brought in") {
        RawFile(path).run("PRAGMA journal_mode = DELETE");
    }
    SECTION("in write-ahead mode") {
        RawFile(path).run("PRAGMA journal_mode = WAL");
    }
    SECTION("marked read-only") {
        std::filesystem::permissions(path, std::filesystem::perms::owner_read);
    }
    const std::string before = contentOf(path);
    const auto report = store::check(path);
    for (const auto& problem : report.problems)
        FAIL_CHECK(problem.where << ": " << problem.what);
    CHECK(report.outcome == OpenOutcome::Upgraded);
    CHECK(report.drinks == 2);
    CHECK(report.revisions == 2);
    CHECK(contentOf(path) == before);
    const auto files = std::filesystem::directory_iterator(std::filesystem::path(path).parent_path());
    CHECK(std::distance(begin(files), end(files)) == 1); // no copy, no log beside it
}
