#include "tests/app/run_program.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

using namespace stillroom::tests;
using nlohmann::json;

TEST_CASE("search finds by words with slips and leaves the workbook as it is", "[app][search]") {
    TemporaryFolder folder;
    const std::string path = folder.path("sample.stillroom");
    REQUIRE(runProgram({"new", path, "--sample"}).exitCode == 0);
    const std::string before = contentOf(path);

    const ProgramRun text = runProgram({"search", path, "hony", "smoke"});
    CHECK(text.exitCode == 0);
    CHECK(text.out.find("\"hony\" is not in the book; looked for honey.") != std::string::npos);
    CHECK(text.out.find("Ox Skerry\n  brief: [Smoke] first, then [honey].") != std::string::npos);

    const ProgramRun run = runProgram({"search", path, "hony", "smoke", "--json"});
    REQUIRE(run.exitCode == 0);
    const json answer = json::parse(run.out);
    CHECK(answer["total"] == 1);
    CHECK(answer["unread"] == 0);
    CHECK(answer["words"][0]["read_as"] == json::array({"honey"}));
    REQUIRE(answer["drinks"].size() == 1);
    CHECK(answer["drinks"][0]["name"] == "Ox Skerry");
    CHECK(answer["drinks"][0]["field"] == "brief");
    CHECK(answer["drinks"][0]["revision"].is_null());
    CHECK(answer["drinks"][0]["found"] == json::array({"Smoke", "honey"}));

    const ProgramRun nothing = runProgram({"search", path, "xylophonequartz"});
    CHECK(nothing.exitCode == 1);
    CHECK(nothing.out == "No drink has all of these words.\n");
    CHECK(runProgram({"search", path}).exitCode == 2);
    for (const char* marks : {"%", "\"", "-", "🍋", ""}) {
        const ProgramRun none = runProgram({"search", path, "--", marks});
        CHECK(none.exitCode == 1);
        CHECK(none.out == "There is no word to look for: marks, signs and pictures are not searched.\n");
    }
    CHECK(contentOf(path) == before);
}
