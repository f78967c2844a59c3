#include "tests/app/run_program.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

// What people and other programs may put into a book that no form would have let through, or that forms
// forget.

using namespace stillroom::tests;
using nlohmann::json;

namespace {

const std::string kName =
    "\xD7\xA9\xD7\x95\xD7\xA8\xD7\xA9 \xF0\x9F\xA5\x83 O\xE2\x80\x99Neil"; // right to left, emoji
const std::string kOverride = "\xE2\x80\xAE"
                              "gnp.exe"; // turns what follows around on a screen

json bookWith(const json& tasting) {
    return {{"format", "stillroom-book/1"},
            {"name", "Shed"},
            {"currency", "EUR"},
            {"people", {{{"initials", "SO"}, {"name", kName}}, {{"initials", "XX"}, {"name", kOverride}}}},
            {"drinks",
             {{{"name", "Tern"},
               {"revisions",
                {{{"text", {"50 ml London dry gin", "Method: Stir with ice, strain."}},
                  {"when", "2026-11-02T20:00:00+00:00"},
                  {"reason", "first"},
                  {"tastings", {tasting}}}}}}}}};
}

json tastingOf(const std::string& note) {
    return {{"by", "SO"}, {"when", "2026-11-02T20:15:00+00:00"}, {"note", note}};
}

} // namespace

TEST_CASE("a note of a megabyte is kept whole and found again", "[app][bad]") {
    const TemporaryFolder folder;
    std::string note = "zephyrous ";
    while (note.size() < 1000000)
        note += "thin, then warm; ";
    note += "at the very end";
    const std::string in = folder.path("in.json"), book = folder.path("book.stillroom");
    writeFile(in, bookWith(tastingOf(note)).dump());
    const ProgramRun made = runProgram({"import", in, book});
    INFO(made.err);
    REQUIRE(made.exitCode == 0);
    CHECK(runProgram({"check", book}).exitCode == 0);
    const json shown = json::parse(runProgram({"show", book, "--drink", "Tern", "--json"}).out);
    CHECK(shown["revisions"][0]["tastings"][0]["note"] == note);
    const json found = json::parse(runProgram({"search", book, "zephyrous", "--json"}).out);
    CHECK(found["total"] == 1);
    CHECK(found["drinks"][0]["field"] == "tasting");
    // And out and in once more.
    const std::string again = folder.path("again.stillroom"), out = folder.path("out.json");
    REQUIRE(runProgram({"export", book, "--out", out}).exitCode == 0);
    REQUIRE(runProgram({"import", out, again}).exitCode == 0);
    CHECK(json::parse(runProgram({"show", again, "--drink", "Tern", "--json"}).out) == shown);
}

TEST_CASE("a taster's name from right to left with an emoji is told as it is and turns nothing around",
          "[app][bad]") {
    const TemporaryFolder folder;
    const std::string in = folder.path("in.json"), book = folder.path("book.stillroom");
    json tasting = tastingOf("bright");
    writeFile(in, bookWith(tasting).dump());
    REQUIRE(runProgram({"import", in, book}).exitCode == 0);
    const json shown = json::parse(runProgram({"show", book, "--drink", "Tern", "--json"}).out);
    const std::string by = shown["revisions"][0]["tastings"][0]["by"];
    CHECK((by == kName || by == "SO"));
    const json whole = json::parse(runProgram({"export", book}).out);
    std::vector<std::string> names;
    for (const json& person : whole["people"])
        names.push_back(person["name"]);
    CHECK(names == std::vector<std::string>{kName, kOverride});
    // What turns text around stays escaped on a terminal.
    CHECK(runProgram({"export", book}).out.find("\xE2\x80\xAE") == std::string::npos);
}

TEST_CASE("a panel with missing answers is closed with what there is and names who said nothing",
          "[app][bad]") {
    const TemporaryFolder folder;
    const std::string book = folder.path("sample.stillroom"), out = folder.path("out.json");
    REQUIRE(runProgram({"new", book, "--sample"}).exitCode == 0);
    REQUIRE(runProgram({"export", book, "--out", out}).exitCode == 0);
    json whole = json::parse(contentOf(out));
    json* triangle = nullptr;
    for (json& panel : whole["panels"])
        if (panel["name"] == "The spine under the smoke") triangle = &panel;
    REQUIRE(triangle != nullptr);
    // Two of the twelve never answered: the first, and one who took it back.
    json& said = (*triangle)["said"];
    const std::string first = said[0]["by"], second = said[1]["by"];
    said.erase(0);
    json taken = said[0];
    taken["id"] = "000102030405060708090a0b0c0d0e0f";
    taken["answer"] = json::object();
    said.push_back(taken);
    for (std::size_t at : {0U, 1U})
        (*triangle)["panel"]["answers"][at] = json::object();
    writeFile(out, whole.dump());
    const std::string again = folder.path("again.stillroom");
    const ProgramRun made = runProgram({"import", out, again});
    INFO(made.err);
    REQUIRE(made.exitCode == 0);
    CHECK(runProgram({"check", again}).exitCode == 0);
    const json closed =
        json::parse(runProgram({"panel", again, "--name", "The spine under the smoke", "--json"}).out);
    CHECK(closed["missing"] == 2);
    CHECK(closed["whole"] == 10);
    CHECK(closed["answers"].size() == 12);
    CHECK(closed["answers"][0]["standing"] == "missing");
    CHECK(closed["answers"][1]["standing"] == "missing");
    CHECK(closed["choice"]["answers"] == 10);
    CHECK(closed["choice"]["needed"] == 7); // 10 in a triangle at 5 %: ISO 4120, table
    const std::string text = runProgram({"panel", again, "--name", "The spine under the smoke"}).out;
    CHECK(text.find("no answer") != std::string::npos);
    // Answers that are not the ones said are no panel.
    (*triangle)["panel"]["answers"][2] = json::object();
    writeFile(out, whole.dump());
    const ProgramRun refused = runProgram({"import", out, folder.path("none.stillroom")});
    CHECK(refused.exitCode == 1);
    CHECK(refused.err.find("not the last that were said") != std::string::npos);
}

TEST_CASE("a photo of sixty megapixels and one cut short are each refused by name and leave no book",
          "[app][bad]") {
    const TemporaryFolder folder;
    const struct {
        const char* what;
        const char* hash;
        const char* base64;
        const char* named;
    } photos[] = {
        // A PNG whose header says 10,000 by 6,000 dots, and nothing after it that matters.
        {"sixty megapixels", "491e1b88e0f00080130858197ffdcc1be53de472e1c8cc4ca579a549313d5ab0",
         "iVBORw0KGgoAAAANSUhEUgAAJxAAABdwCAIAAAAAAAAAAAAAEklEQVRub3RoaW5nIHRvIGJlIHNlZW4AAAAAAAAAAElFTkQAAAA"
         "A",
         "more pixels than a book takes"},
        // The first bytes of a JPEG, up to the middle of its first segment.
        {"cut short", "3c4bae649b6c0fade21c149e6ee9773e734d620fda91248a44c58b11c71f3ba9", "/9j/4AAQSkZJRgAB",
         "its end is missing"},
    };
    for (const auto& photo : photos) {
        INFO(photo.what);
        json book = bookWith(tastingOf("bright"));
        book["photos"] = {{photo.hash, photo.base64}};
        book["drinks"][0]["revisions"][0]["photos"] = {{{"hash", photo.hash}}};
        const std::string in = folder.path("in.json"), made = folder.path("book.stillroom");
        writeFile(in, book.dump());
        const ProgramRun run = runProgram({"import", in, made});
        CHECK(run.exitCode == 1);
        INFO(run.err);
        CHECK(run.err.find(photo.named) != std::string::npos);
        CHECK(run.err.find("Tern, revision 1") != std::string::npos);
        CHECK(contentOf(made).empty());
    }
}
