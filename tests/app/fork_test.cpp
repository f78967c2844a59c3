#include "tests/app/run_program.h"
#include "tests/support/catch.h"

#include <fstream>
#include <nlohmann/json.hpp>

using namespace stillroom::tests;
using nlohmann::json;

TEST_CASE("a new drink is begun from a revision and shown in its line", "[app][fork]") {
    TemporaryFolder folder;
    const std::string path = folder.path("sample.stillroom");
    REQUIRE(runProgram({"new", path, "--sample"}).exitCode == 0);
    const ProgramRun run =
        runProgram({"fork", path, "Second Light", "--from", "ox skerry", "--revision", "2"});
    CHECK(run.exitCode == 0);
    CHECK(run.out == "Second Light begins as Ox Skerry, r2 is.\n");
    const json mine = json::parse(runProgram({"show", path, "--drink", "Second Light", "--json"}).out);
    CHECK(mine["credit_line"] == "after Ox Skerry, r2");
    CHECK(mine["changed_since"] == "no change");
    const json from = json::parse(runProgram({"show", path, "--drink", "Ox Skerry", "--json"}).out);
    REQUIRE_FALSE(from["came_after"].empty());
    CHECK(from["came_after"].back()["name"] == "Second Light");
    CHECK(from["came_after"].back()["revision"] == 2);
    const ProgramRun text = runProgram({"show", path, "--drink", "Ox Skerry"});
    CHECK(text.out.find("Came after it\n  Second Light, after r2: no change\n") != std::string::npos);
    CHECK(runProgram({"check", path}).exitCode == 0);

    const std::string before = contentOf(path);
    CHECK(runProgram({"fork", path, "Second Light", "--from", "Ox Skerry"}).exitCode == 1); // taken
    CHECK(runProgram({"fork", path, "Third Light", "--from", "Ox Skerry", "--revision", "99"}).exitCode == 1);
    CHECK(runProgram({"fork", path, "Third Light", "--from", "Nowhere"}).exitCode == 1);
    CHECK(runProgram({"fork", path, " ", "--from", "Ox Skerry"}).exitCode == 1);
    CHECK(runProgram({"fork", path, "Third Light"}).exitCode != 0);
    CHECK(contentOf(path) == before);
}

TEST_CASE("show names what is published, set aside and how a drink was tasted", "[app][fork]") {
    TemporaryFolder folder;
    const std::string source = folder.path("book.json");
    {
        std::ofstream out(source);
        out << R"({"format": "stillroom-book/1", "name": "Shed", "currency": "EUR",
            "people": [{"initials": "MK", "name": "Mara Kell"}],
            "drinks": [{"name": "Tern", "revisions": [
                {"text": ["50 ml London dry gin", "20 ml lemon juice"], "when": "2026-11-06T21:10:00+00:00",
                 "reason": "first", "house": true, "published": true,
                 "tastings": [{"by": "MK", "when": "2026-11-06T21:20:00+00:00", "note": "thin",
                               "circumstances": {"glass_age_min": 4, "place": "the back bar"}}]},
                {"text": ["50 ml London dry gin", "25 ml lemon juice"], "when": "2026-11-06T21:30:00+00:00",
                 "reason": "second", "set_aside": "too sharp"}]}]})";
    }
    const std::string path = folder.path("book.stillroom");
    const ProgramRun made = runProgram({"import", source, path});
    INFO(made.err);
    REQUIRE(made.exitCode == 0);
    const std::string text = runProgram({"show", path, "--drink", "Tern"}).out;
    CHECK(text.find("house  published") != std::string::npos);
    CHECK(text.find("set aside: too sharp") != std::string::npos);
    CHECK(text.find("4 min old, the back bar: thin") != std::string::npos);
    const json shown = json::parse(runProgram({"show", path, "--drink", "Tern", "--json"}).out);
    CHECK(shown["revisions"][0]["published"] == true);
    CHECK(shown["revisions"][0]["set_aside"].is_null());
    CHECK(shown["revisions"][1]["set_aside"] == "too sharp");
    CHECK(shown["revisions"][0]["tastings"][0]["glass_age_min"] == 4);
    CHECK(shown["revisions"][0]["tastings"][0]["place"] == "the back bar");
}
