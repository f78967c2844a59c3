#include "tests/core/store/store_support.h"
#include "tests/core/tasting/photo_support.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;

namespace {

// A closed workbook with one of everything that may never change.
struct Kept {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    std::string path = folder.file("low-lamp.stillroom");

    Kept() {
        const auto book = store::Workbook::create(path, lowLamp(), clock);
        const auto gin = bottleOf("harbour gin 47", 47);
        book->saveIngredient(gin);
        const auto draft = book->addDrink(drinkNamed("Ox Skerry"), sour(22, gin.id));
        const auto kept = book->keep(draft.id, "one");
        tasting::Tasting tasting;
        tasting.revision = kept->id;
        tasting.taster = book->addPerson("M. Halloran", "MH");
        tasting.note = "bright";
        book->addTasting(tasting);
    }
};

// And what came with photos and panels.
struct KeptMore : Kept {
    KeptMore() {
        const auto book = store::Workbook::open(path, store::OpenMode::ReadWrite, clock);
        tasting::PanelDesign design;
        design.kind = tasting::PanelKind::PairedPreference;
        design.tasters = {book->people().at(0).id};
        design.products = {book->revisions(book->summaries().at(0).id).at(0).id};
        book->attachPhoto(design.products[0], jpegOf(40, 30));
        const auto other = book->addDrink(drinkNamed("Gannet Stack"), sour(19));
        design.products.push_back(book->keep(other.id, "one")->id);
        const auto panel = book->addPanel("which", *tasting::designPanel(design)).value();
        REQUIRE(book->startPouring(panel));
        tasting::Answer answer;
        answer.chosen = book->panel(panel)->servings.at(0).cups.at(0).code;
        REQUIRE(book->addAnswer(panel, design.tasters[0], answer));
    }
};

} // namespace

TEST_CASE("history cannot be changed or deleted or replaced by any statement", "[store]") {
    KeptMore k;
    const std::string table =
        GENERATE("revision", "revision_fact", "fact_state", "measure_state", "tasting", "photo", "photo_link",
                 "panel", "panel_product", "panel_step", "panel_answer");
    CAPTURE(table);
    {
        RawFile raw(k.path);
        const std::string rows = raw.text("SELECT count(*) FROM " + table);
        REQUIRE(rows != "0");
        const std::string column =
            raw.text("SELECT name FROM pragma_table_info('" + table + "') ORDER BY pk LIMIT 1");
        CHECK_THROWS_WITH(raw.run("UPDATE " + table + " SET " + column + " = " + column),
                          Catch::Contains("never change"));
        CHECK_THROWS_WITH(raw.run("DELETE FROM " + table), Catch::Contains("never disappear"));
        CHECK_THROWS_WITH(raw.run("INSERT OR REPLACE INTO " + table + " SELECT * FROM " + table),
                          Catch::Contains("never replaced"));
        CHECK_THROWS_WITH(raw.run("INSERT INTO " + table + " SELECT * FROM " + table +
                                  " WHERE true ON CONFLICT DO UPDATE SET " + column + " = " + column),
                          Catch::Contains("never"));
        CHECK(raw.text("SELECT count(*) FROM " + table) == rows);
    }
    CHECK(store::check(k.path).problems.empty());
}

TEST_CASE("a foreign key or a wrong type is refused by the schema", "[store]") {
    Kept k;
    RawFile raw(k.path);
    raw.run("PRAGMA foreign_keys = ON");
    CHECK_THROWS(raw.run("UPDATE draft SET drink = zeroblob(16)"));
    CHECK_THROWS(raw.run("UPDATE drink SET house = zeroblob(16)"));
    CHECK_THROWS(raw.run("UPDATE draft SET saved_ms = 'yesterday'"));
    CHECK_THROWS(raw.run("UPDATE draft SET id = zeroblob(15)"));
    CHECK_THROWS(raw.run("UPDATE drink SET form = 'sandwich'"));
}

TEST_CASE("only the name of a panel and what hides a photo may change", "[store]") {
    KeptMore k;
    {
        RawFile raw(k.path);
        for (const char* column : {"plan", "plan_hash", "id", "created_ms", "author"})
            CHECK_THROWS_WITH(raw.run(std::string("UPDATE panel SET ") + column + " = " + column),
                              Catch::Contains("never changes"));
        for (const char* column : {"photo", "revision", "tasting", "caption", "linked_ms"})
            CHECK_THROWS_WITH(raw.run(std::string("UPDATE photo_link SET ") + column + " = " + column),
                              Catch::Contains("never changes"));
        raw.run("UPDATE panel SET name = 'another'");
        raw.run("UPDATE photo_link SET hidden = 1");
        const std::string copied =
            "INSERT INTO panel_answer SELECT NULL, randomblob(16), panel, taster, given_ms,"
            " given_offset, author, content_hash, answer FROM panel_answer";
        raw.run(
            "INSERT INTO panel_step SELECT panel, 'closed', step_ms, step_offset, author FROM panel_step");
        CHECK_THROWS_WITH(raw.run(copied), Catch::Contains("only while it is poured"));
    }
    CHECK(store::check(k.path).problems.empty());
}

TEST_CASE("check says how many of each it has read", "[store]") {
    KeptMore k;
    {
        const auto book = store::Workbook::open(k.path, store::OpenMode::ReadWrite, k.clock);
        const auto drink = book->summaries().at(1).id;
        const auto revision = book->revisions(book->summaries().at(0).id).at(0).id;
        const auto other = book->revisions(drink).at(0).id;
        auto first = book->tastings(book->tastings(revision).empty() ? other : revision).at(0);
        tasting::Tasting better = first;
        better.id = {};
        better.amends = first.id;
        better.note = "brighter";
        book->addTasting(better);
        book->attachPhoto(other, jpegOf(40, 30)); // the same picture in another place
        tasting::Answer taken;
        book->addAnswer(book->panels().at(0).id, first.taster, taken); // takes the first one back
    }
    const auto report = store::check(k.path);
    CHECK(report.problems.empty());
    CHECK(report.drinks == 2);
    CHECK(report.revisions == 2);
    CHECK(report.tastings == 2);
    CHECK(report.amendments == 1);
    CHECK(report.panels == 1);
    CHECK(report.answers == 2);
    CHECK(report.photos == 1);
    CHECK(report.photoLinks == 2);
    CHECK(report.photoBytes == static_cast<std::int64_t>(jpegOf(40, 30).size()));
}

TEST_CASE("check finds photos and panels that are not what was written", "[store]") {
    KeptMore k;
    REQUIRE(store::check(k.path).problems.empty());
    const auto tamper = [&](const std::string& trigger, const std::string& sql) {
        {
            RawFile raw(k.path);
            const std::string definition =
                raw.text("SELECT sql FROM sqlite_schema WHERE name = '" + trigger + "'");
            raw.run("DROP TRIGGER " + trigger);
            raw.run(sql);
            raw.run(definition);
        }
        return store::check(k.path).problems;
    };
    SECTION("a byte of a photo") {
        const auto found =
            tamper("photo_no_update", "UPDATE photo SET bytes = CAST(substr(bytes, 1, size - 3)"
                                      " || x'00FFD9' AS BLOB)");
        REQUIRE(found.size() == 1);
        CHECK_THAT(found[0].where, Catch::StartsWith("photo"));
    }
    SECTION("a plan") {
        const auto found =
            tamper("panel_no_update", "UPDATE panel SET plan = replace(plan, 'preference', 'difference')");
        REQUIRE(found.size() == 1);
        CHECK(found[0].where == "panel which");
    }
    SECTION("an answer") {
        const auto found = tamper("panel_answer_no_update", "UPDATE panel_answer SET answer = '{}'");
        REQUIRE(found.size() == 1);
        CHECK(found[0].where == "panel which");
    }
    SECTION("who is said to have answered") {
        const auto found =
            tamper("panel_answer_no_update", "UPDATE panel_answer SET given_ms = given_ms + 1");
        REQUIRE(found.size() == 1);
        CHECK(found[0].where == "panel which");
    }
    SECTION("one of two tastings that nobody can read") {
        tamper("tasting_no_update", "UPDATE tasting SET scores = '{'");
        const auto report = store::check(k.path);
        REQUIRE(report.problems.size() == 1);
        CHECK_THAT(report.problems[0].where, Catch::StartsWith("tasting"));
        CHECK(report.panels == 1); // the rest was read all the same
        CHECK(report.photos == 1);
    }
    SECTION("what a tasting was measured with") {
        const auto found =
            tamper("tasting_no_update", "UPDATE tasting SET circumstances = '{\"weight_g\":\"90\"}'");
        REQUIRE(found.size() == 1);
        CHECK_THAT(found[0].where, Catch::StartsWith("tasting"));
    }
    SECTION("the drinks a panel is listed with") {
        const auto found =
            tamper("panel_product_no_delete",
                   "DELETE FROM panel_product WHERE revision = (SELECT min(revision) FROM panel_product)");
        REQUIRE(found.size() == 1);
    }
}

TEST_CASE("check finds what was changed behind the schema's back", "[store]") {
    Kept k;
    const auto report = store::check(k.path);
    CHECK(report.drinks == 1);
    CHECK(report.drafts == 1);
    CHECK(report.revisions == 1);
    CHECK(report.tastings == 1);
    CHECK(report.factStates == 1);
    REQUIRE(report.problems.empty());

    const auto tamper = [&](const std::string& trigger, const std::string& sql) {
        RawFile raw(k.path);
        const std::string definition =
            raw.text("SELECT sql FROM sqlite_schema WHERE name = '" + trigger + "'");
        raw.run("DROP TRIGGER " + trigger);
        raw.run(sql);
        raw.run(definition);
    };
    SECTION("a reason rewritten") {
        tamper("revision_no_update", "UPDATE revision SET reason = 'another'");
        const auto found = store::check(k.path).problems;
        REQUIRE(found.size() == 1);
        CHECK(found[0].where == "revision 1 of Ox Skerry");
    }
    SECTION("a fact altered") {
        tamper("fact_state_no_update", "UPDATE fact_state SET json = replace(json, '47', '57')");
        const auto found = store::check(k.path).problems;
        REQUIRE(found.size() == 1);
        CHECK_THAT(found[0].where, Catch::StartsWith("fact state"));
    }
    SECTION("a spec cut short") {
        tamper("revision_no_update", "UPDATE revision SET spec = substr(spec, 1, 40)");
        REQUIRE(store::check(k.path).problems.size() == 1);
        CHECK(store::check(k.path).problems[0].where == "revision 1 of Ox Skerry");
    }
    SECTION("a measured dilution nobody can read any more") {
        tamper("revision_no_update", "UPDATE revision SET spec = '{\"origin\":\"measured\"'");
        CHECK(store::Workbook::open(k.path, store::OpenMode::ReadOnly, k.clock)->measuredSpecs().empty());
    }
    SECTION("the strength that lists show altered") {
        tamper("revision_no_update", "UPDATE revision SET strength_value = strength_value + 40");
        REQUIRE(store::check(k.path).problems.size() == 1);
        CHECK(store::check(k.path).problems[0].where == "revision 1 of Ox Skerry");
    }
    SECTION("a tasting altered") {
        tamper("tasting_no_update", "UPDATE tasting SET note = 'dull'");
        REQUIRE(store::check(k.path).problems.size() == 1);
        CHECK_THAT(store::check(k.path).problems[0].where, Catch::StartsWith("tasting"));
    }
    SECTION("a draft that is no spec") {
        RawFile(k.path).run("UPDATE draft SET spec = '{}'");
        REQUIRE(store::check(k.path).problems.size() == 1);
        CHECK(store::check(k.path).problems[0].where == "draft 1 of Ox Skerry");
    }
    SECTION("a missing trigger") {
        RawFile(k.path).run("DROP TRIGGER revision_no_delete");
        REQUIRE(store::check(k.path).problems.size() == 1);
        CHECK(store::check(k.path).problems[0].what == "trigger revision_no_delete is missing");
    }
    SECTION("a reference to nothing") {
        RawFile(k.path).run("UPDATE draft SET drink = randomblob(16)");
        CHECK_FALSE(store::check(k.path).problems.empty());
    }
}
