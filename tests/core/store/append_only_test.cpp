#include "tests/core/store/store_support.h"
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

} // namespace

TEST_CASE("history cannot be changed or deleted or replaced by any statement", "[store]") {
    Kept k;
    const std::string table = GENERATE("revision", "revision_fact", "fact_state", "measure_state", "tasting");
    CAPTURE(table);
    {
        RawFile raw(k.path);
        REQUIRE(raw.text("SELECT count(*) FROM " + table) == "1");
        const std::string column =
            raw.text("SELECT name FROM pragma_table_info('" + table + "') WHERE pk = 0");
        CHECK_THROWS_WITH(raw.run("UPDATE " + table + " SET " + column + " = " + column),
                          Catch::Contains("never change"));
        CHECK_THROWS_WITH(raw.run("DELETE FROM " + table), Catch::Contains("never disappear"));
        CHECK_THROWS_WITH(raw.run("INSERT OR REPLACE INTO " + table + " SELECT * FROM " + table),
                          Catch::Contains("never replaced"));
        CHECK_THROWS_WITH(raw.run("INSERT INTO " + table + " SELECT * FROM " + table +
                                  " WHERE true ON CONFLICT DO UPDATE SET " + column + " = " + column),
                          Catch::Contains("never"));
        CHECK(raw.text("SELECT count(*) FROM " + table) == "1");
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
