#include "tests/app/run_program.h"
#include "tests/support/catch.h"

#include <cstdint>

using namespace stillroom::tests;

namespace {

const std::vector<std::pair<std::string, std::string>> kNoDisplay{
    {"DISPLAY", ""}, {"WAYLAND_DISPLAY", ""}, {"QT_QPA_PLATFORM", ""}};

// Width and height as a PNG's first chunk states them (ISO/IEC 15948).
std::pair<std::uint32_t, std::uint32_t> pngSize(const std::string& png) {
    REQUIRE(png.size() > 24);
    REQUIRE(png.compare(1, 3, "PNG") == 0);
    const auto number = [&](std::size_t at) {
        std::uint32_t value = 0;
        for (std::size_t i = at; i < at + 4; ++i)
            value = value << 8U | static_cast<unsigned char>(png[i]);
        return value;
    };
    return {number(16), number(20)};
}

} // namespace

TEST_CASE("render draws a view without a display and leaves the workbook alone", "[app]") {
    const TemporaryFolder folder;
    const std::string book = folder.path("sample.stillroom");
    REQUIRE(runProgram({"new", book, "--sample"}).exitCode == 0);
    const std::string before = contentOf(book);
    const std::string plain = folder.path("plain.png");
    const ProgramRun run = runProgram(
        {"render", "bench", "--workbook", book, "--drink", "ox skerry", "--out", plain, "--size", "1200x800"},
        "", kNoDisplay);
    INFO(run.out << run.err);
    REQUIRE(run.exitCode == 0);
    CHECK(run.err.empty());
    CHECK(pngSize(contentOf(plain)) == std::pair<std::uint32_t, std::uint32_t>(1200, 800));

    const std::string dark = folder.path("dark.png");
    const ProgramRun twice = runProgram({"render", "bench", "--workbook", book, "--drink", "Ox Skerry",
                                         "--out", dark, "--size", "1200x800", "--scale", "2", "--dark"},
                                        "", kNoDisplay);
    INFO(twice.out << twice.err);
    REQUIRE(twice.exitCode == 0);
    CHECK(pngSize(contentOf(dark)) == std::pair<std::uint32_t, std::uint32_t>(2400, 1600));
    CHECK(contentOf(book) == before);
}

TEST_CASE("render says what is wrong with its arguments or its workbook", "[app]") {
    const TemporaryFolder folder;
    const std::string out = folder.path("x.png");
    const std::string none = folder.path("none.stillroom");
    const std::vector<std::pair<std::vector<std::string>, int>> cases{
        {{"render"}, 2},
        {{"render", "cellar", "--workbook", none, "--out", out}, 2},
        {{"render", "bench", "--out", out}, 2},
        {{"render", "bench", "--workbook", none}, 2},
        {{"render", "bench", "--workbook", none, "--out", out, "--size", "wide"}, 2},
        {{"render", "bench", "--workbook", none, "--out", out, "--size", "99999x10"}, 2},
        {{"render", "bench", "--workbook", none, "--out", out, "--scale", "0"}, 2},
        {{"render", "bench", "--workbook", none, "--out", out}, 1},
    };
    for (const auto& [arguments, code] : cases) {
        const ProgramRun run = runProgram(arguments, "", kNoDisplay);
        INFO(run.err);
        CHECK(run.signal == 0);
        CHECK(run.exitCode == code);
        CHECK_FALSE(run.err.empty());
        CHECK(contentOf(out).empty());
    }
}
