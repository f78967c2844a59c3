#include "tests/app/run_program.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

#include <filesystem>
#include <fstream>

using namespace stillroom::tests;
using nlohmann::json;

TEST_CASE("a workbook is exported, made again and shows the same", "[app]") {
    const TemporaryFolder folder;
    const std::string sample = folder.path("sample.stillroom");
    REQUIRE(runProgram({"new", sample, "--sample"}).exitCode == 0);
    const std::string out = folder.path("book.json");
    const ProgramRun written = runProgram({"export", sample, "--out", out});
    INFO(written.err);
    REQUIRE(written.exitCode == 0);
    const json book = json::parse(contentOf(out));
    CHECK(book["format"] == "stillroom-book/1");
    CHECK(book["drinks"].size() == 12);
    CHECK(json::parse(runProgram({"export", sample}).out) == book);
    // Never over what stands there.
    const ProgramRun twice = runProgram({"export", sample, "--out", out});
    CHECK(twice.exitCode == 1);
    CHECK(twice.err.find("there already") != std::string::npos);

    const std::string again = folder.path("again.stillroom");
    const ProgramRun made = runProgram({"import", out, again});
    INFO(made.err);
    REQUIRE(made.exitCode == 0);
    CHECK(runProgram({"check", again}).exitCode == 0);
    const auto shown = [](const std::string& path) { return runProgram({"show", path}).out; };
    CHECK(shown(again) == shown(sample));
    CHECK(runProgram({"import", out, again}).exitCode == 1); // it is there
}

TEST_CASE("what is no book is refused and leaves nothing", "[app]") {
    const TemporaryFolder folder;
    const std::string bad = folder.path("bad.json");
    const std::string made = folder.path("made.stillroom");
    for (const char* text : {"", "{}", "[[[[", "{\"format\": \"stillroom-book/1\"}"}) {
        std::ofstream(bad) << text;
        const ProgramRun run = runProgram({"import", bad, made});
        INFO(text);
        CHECK(run.exitCode == 1);
        CHECK(run.err.find("Nothing was made") != std::string::npos);
        CHECK_FALSE(std::filesystem::exists(made));
    }
}
