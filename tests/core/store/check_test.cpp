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

TEST_CASE("rows that no hash covers are held against each other by check", "[store][check]") {
    TempFolder folder;
    const std::string path = folder.file("book.stillroom");
    {
        const auto book = Workbook::create(path, lowLamp(), kClock);
        const auto mara = book->addPerson("Mara Kell", "MK");
        const auto tom = book->addPerson("Tom Orr", "TO");
        const auto ox = book->addDrink(drinkNamed("Ox Skerry"), sour(20));
        const auto first = book->keep(ox.id, "first");
        book->saveDraft(ox.id, sour(25));
        const auto second = book->keep(ox.id, "second");
        REQUIRE((first && second));
        auto quill = drinkNamed("Quill Point");
        quill.after.drink = ox.drink;
        quill.after.revision = first->id;
        REQUIRE(book->keep(book->addDrink(quill, sour(30)).id, "a riff"));
        for (const char* note : {"thin", "better", "good"}) {
            tasting::Tasting tasting;
            tasting.revision = first->id;
            tasting.taster = mara;
            tasting.note = note;
            book->addTasting(tasting);
        }
        tasting::PanelDesign design;
        design.kind = tasting::PanelKind::Triangle;
        design.products = {first->id, second->id};
        design.tasters = {mara, tom};
        const auto panel = tasting::designPanel(design);
        const auto id = book->addPanel("can one tell", *panel);
        REQUIRE(id);
        REQUIRE(book->startPouring(*id));
        for (std::size_t i = 0; i < 2; ++i) {
            tasting::Answer answer;
            answer.chosen = panel->servings[i].cups[0].code;
            REQUIRE(book->addAnswer(*id, design.tasters[i], answer));
        }
        REQUIRE(book->closePanel(*id));
    }
    REQUIRE(store::check(path).problems.empty());
    const std::string whole = contentOf(path);
    // The triggers that refuse such a change go for as long as it takes, as whoever does it by hand would do.
    int copies = 0;
    const auto broken = [&](const std::string& table, const std::string& sql) {
        const auto copy = folder.file("broken " + std::to_string(++copies) + ".stillroom");
        std::ofstream(copy, std::ios::binary | std::ios::trunc) << whole;
        {
            RawFile file(copy);
            std::vector<std::string> triggers;
            for (;;) {
                const auto name =
                    file.text("SELECT name FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = '" +
                              table + "' ORDER BY name LIMIT 1");
                if (name.empty()) break;
                triggers.push_back(file.text("SELECT sql FROM sqlite_schema WHERE name = '" + name + "'"));
                file.run("DROP TRIGGER " + name);
            }
            file.run(sql);
            for (const auto& trigger : triggers)
                file.run(trigger);
        }
        return store::check(copy);
    };
    const std::string ox = "(SELECT id FROM drink WHERE name = 'Ox Skerry')";
    const std::string quill = "(SELECT id FROM drink WHERE name = 'Quill Point')";
    CHECK(finds(broken("revision", "UPDATE revision SET number = 7 WHERE number = 2"),
                "revision 7 of Ox Skerry", "stands where revision 2 was kept", CheckSort::Damage));
    CHECK(finds(broken("revision", "UPDATE revision SET author = zeroblob(16) WHERE number = 2"),
                "the revisions", "one of them has another author", CheckSort::Damage));
    CHECK(finds(broken("panel_answer", "DELETE FROM panel_answer WHERE row = 1"), "the answers of panels",
                "one is missing", CheckSort::Damage));
    CHECK(finds(broken("tasting", "DELETE FROM tasting WHERE row = 2"), "the tastings", "one is missing",
                CheckSort::Damage));
    CHECK(finds(broken("panel_step", "DELETE FROM panel_step WHERE state = 'pouring'"), "panel can one tell",
                "never poured", CheckSort::Damage));
    CHECK(finds(broken("drink", "UPDATE drink SET house = (SELECT id FROM revision WHERE drink = " + quill +
                                    ") WHERE id = " + ox),
                "Ox Skerry", "its house revision is one of Quill Point", CheckSort::Damage));
    CHECK(finds(broken("drink", "UPDATE drink SET published = (SELECT id FROM revision WHERE drink = " +
                                    quill + ") WHERE id = " + ox),
                "Ox Skerry", "its published revision is one of Quill Point", CheckSort::Damage));
    CHECK(finds(broken("drink", "UPDATE drink SET after_drink = id, after_revision = NULL"), "Ox Skerry",
                "comes after itself", CheckSort::Damage));
    const auto circle = broken("drink", "UPDATE drink SET after_drink = " + quill + " WHERE id = " + ox);
    CHECK(std::count_if(circle.problems.begin(), circle.problems.end(), [](const auto& problem) {
              return problem.what.find("comes after itself by way of") != std::string::npos;
          }) == 1);
    CHECK(finds(broken("drink", "UPDATE drink SET after_revision = (SELECT id FROM revision WHERE drink = " +
                                    quill + ") WHERE id = " + quill),
                "Quill Point", "not of the drink it comes after", CheckSort::Damage));
    for (const char* tags : {"winter", "{}", "[1]", "[\"a\""})
        CHECK(finds(broken("drink", std::string("UPDATE drink SET tags = '") + tags + "' WHERE id = " + ox),
                    "Ox Skerry", "its tags are no list", CheckSort::Damage));
    CHECK(finds(broken("draft", "UPDATE draft SET based_on = (SELECT id FROM revision WHERE drink = " +
                                    quill + ") WHERE drink = " + ox),
                "a draft of Ox Skerry", "another drink", CheckSort::Damage));
    // What nothing later tells of is beyond it, as check's help says.
    CHECK(broken("panel_answer", "DELETE FROM panel_answer WHERE row = 2").problems.empty());
    CHECK(broken("panel_step", "DELETE FROM panel_step WHERE state = 'closed'").problems.empty());
}
