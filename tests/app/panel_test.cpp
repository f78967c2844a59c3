#include "tests/app/run_program.h"
#include "tests/support/catch.h"

#include <nlohmann/json.hpp>

// The sample's three blind sessions: one closed, one pouring, one planned.

using namespace stillroom::tests;
using nlohmann::json;

namespace {

struct Sample {
    TemporaryFolder folder;
    std::string path = folder.path("sample.stillroom");
    Sample() { REQUIRE(runProgram({"new", path, "--sample"}).exitCode == 0); }
    std::string text(std::vector<std::string> arguments) const {
        arguments.insert(arguments.begin(), {"panel", path});
        const ProgramRun run = runProgram(arguments);
        INFO(run.err);
        REQUIRE(run.exitCode == 0);
        return run.out;
    }
    json of(std::vector<std::string> arguments) const {
        arguments.push_back("--json");
        return json::parse(text(arguments));
    }
};

bool holds(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("panel lists the sessions and where they stand", "[app][panel]") {
    const Sample sample;
    const json list = sample.of({})["panels"];
    REQUIRE(list.size() == 3);
    CHECK(list[0]["name"] == "Quill Point, old or new");
    CHECK(list[0]["state"] == "designed");
    CHECK(list[1]["kind"] == "ranking");
    CHECK(list[1]["answered"] == 3);
    CHECK(list[2]["closed"] == "2026-11-22T21:05:00+01:00");
    CHECK(holds(sample.text({}), "The spine under the smoke"));
    CHECK(holds(sample.text({}), "closed, 12 of 12 in"));
}

TEST_CASE("panel says the verdict of a closed session with its numbers", "[app][panel]") {
    const Sample sample;
    const json closed = sample.of({"--name", "the spine under the SMOKE"});
    CHECK(closed["verdict"] == "They can tell them apart.");
    CHECK(closed["products"] == json::array({"Ox Skerry r3", "Ox Skerry r4"}));
    CHECK(closed["choice"]["count"] == 8);
    CHECK(closed["choice"]["needed"] == 8);
    CHECK(closed["choice"]["chance"].get<double>() == Approx(0.01876).margin(0.00001));
    CHECK(closed["choice"]["finding"] == "shown");
    REQUIRE(closed["answers"].size() == 12);
    CHECK(closed["answers"][0]["right"] == true);
    CHECK(closed["answers"][2]["right"] == false);
    CHECK(closed["answers"][0]["cups"].size() == 3);
    const std::string text = sample.text({"--name", "The spine under the smoke"});
    CHECK(holds(text, "8 of 12 found the odd one; 8 are needed at 5 %: a difference is shown."));
    CHECK(holds(text, "Ilsa Brannock: chose "));
}

TEST_CASE("panel reveals nothing of an open session but by its key", "[app][panel]") {
    const Sample sample;
    for (const char* name : {"Which opens the set", "Quill Point, old or new"}) {
        const std::string shown = sample.of({"--name", name}).dump() + sample.text({"--name", name}) +
                                  sample.text({"--name", name, "--sheets"});
        for (const char* product : {"Ox Skerry", "Hallan", "Maiden", " r1", " r2", " r4"})
            CHECK_FALSE(holds(shown, product));
        const std::string key = sample.text({"--name", name, "--key"});
        CHECK(holds(key, "Not for anyone who tastes"));
        CHECK(holds(key, "Quill Point r2"));
    }
    const json open = sample.of({"--name", "Which opens the set"});
    REQUIRE(open["sheets"].size() == 8);
    CHECK(open["sheets"][2]["standing"] == "whole");
    CHECK(open["sheets"][3]["standing"] == "missing");
    CHECK(open["sheets"][0]["codes"].size() == 4);
}

TEST_CASE("panel refuses a session that is not there and a key of none", "[app][panel]") {
    const Sample sample;
    const ProgramRun nobody = runProgram({"panel", sample.path, "--name", "Nobody's"});
    CHECK(nobody.exitCode == 1);
    CHECK(holds(nobody.err, "no session \"Nobody's\""));
    CHECK(runProgram({"panel", sample.path, "--key"}).exitCode == 2);
    CHECK(runProgram({"panel", sample.path + "x"}).exitCode == 1);
}
