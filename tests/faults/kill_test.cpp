#include "tests/core/store/store_support.h"
#include "tests/support/catch.h"

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdlib>
#include <iostream>
#include <random>
#include <sstream>

using namespace stillroom;
using namespace stillroom::test;

namespace {

// What a killed child had promised.
struct Promises {
    int draft = 0; // the last acknowledged amount; 0: none in this run
    std::vector<std::pair<base::RevisionId, std::string>> revisions;
    std::vector<std::pair<base::TastingId, base::RevisionId>> tastings;
    std::vector<std::pair<base::IngredientId, std::string>> bottles;

    void hear(const std::string& line) {
        std::istringstream in(line);
        std::string what, first, second;
        in >> what >> first >> second;
        if (what == "draft") draft = std::atoi(first.c_str());
        if (what == "revision") revisions.emplace_back(*base::RevisionId::fromText(first), second);
        if (what == "tasting")
            tastings.emplace_back(*base::TastingId::fromText(first), *base::RevisionId::fromText(second));
        if (what == "bottle") bottles.emplace_back(*base::IngredientId::fromText(first), second);
    }
};

// Starts the child, lets it acknowledge a random number of edits, kills it, and hears out what it had told.
Promises editUntilKilled(const std::string& path, std::mt19937& random, int& acknowledged) {
    std::array<int, 2> ends{};
    REQUIRE(pipe(ends.data()) == 0);
    const std::string seed = std::to_string(random());
    const pid_t child = fork();
    if (child == 0) {
        dup2(ends[1], STDOUT_FILENO);
        close(ends[0]);
        close(ends[1]);
        execl(STILLROOM_KILL_CHILD, STILLROOM_KILL_CHILD, path.c_str(), seed.c_str(), nullptr);
        _exit(127);
    }
    close(ends[1]);
    Promises promises;
    const auto enough = static_cast<unsigned>(1 + random() % 400);
    const auto moment = static_cast<useconds_t>(
        random() % 1500); // so that the kill falls inside a write, a sync, a checkpoint
    bool killed = false;
    unsigned heard = 0;
    std::string rest;
    std::array<char, 4096> buffer{};
    for (ssize_t count = 0; (count = read(ends[0], buffer.data(), buffer.size())) > 0;) {
        rest.append(buffer.data(), static_cast<std::size_t>(count));
        for (std::size_t end = 0; (end = rest.find('\n')) != std::string::npos; rest.erase(0, end + 1)) {
            promises.hear(rest.substr(0, end));
            ++heard;
        }
        if (!killed && heard >= enough) {
            usleep(moment);
            kill(child, SIGKILL);
            killed = true;
        }
    }
    close(ends[0]);
    int status = 0;
    REQUIRE(waitpid(child, &status, 0) == child);
    REQUIRE(killed); // otherwise the child ended by itself, and stderr says why
    REQUIRE(WIFSIGNALED(status));
    acknowledged += static_cast<int>(heard);
    return promises;
}

void everyPromiseHolds(const std::string& path, const Promises& promises, const base::Clock& clock) {
    const auto report = store::check(path);
    for (const auto& problem : report.problems)
        FAIL_CHECK(problem.where << ": " << problem.what);
    const auto book = store::Workbook::open(path, store::OpenMode::ReadWrite, clock);
    const auto drink = book->summaries().at(0).id;
    const auto draft = book->drafts(drink).at(0);
    // The one edit under way may have happened without being acknowledged.
    CHECK((draft.spec == sour(promises.draft) || draft.spec == sour(promises.draft + 1)));
    for (const auto& [id, hash] : promises.revisions) {
        const auto revision = book->revision(id);
        REQUIRE(revision);
        CHECK(revision->hash == hash);
    }
    for (const auto& [id, revision] : promises.tastings) {
        const auto tastings = book->tastings(revision);
        CHECK(std::any_of(tastings.begin(), tastings.end(), [&](const auto& t) { return t.id == id; }));
    }
    const auto larder = book->larder();
    for (const auto& [id, hash] : promises.bottles) {
        REQUIRE(larder.find(id));
        CHECK(larder.find(id)->facts.hash() == hash);
    }
}

} // namespace

TEST_CASE("a killed process loses no acknowledged edit", "[faults][kill]") {
    const char* wanted = std::getenv("STILLROOM_KILL_RUNS");
    const int runs = wanted != nullptr ? std::atoi(wanted) : 25;
    REQUIRE(runs > 0);
    const unsigned seed = std::random_device{}();
    CAPTURE(seed);
    std::mt19937 random(seed);
    const base::SystemClock clock;
    TempFolder folder;
    const std::string path = folder.file("killed.stillroom");
    {
        const auto book = store::Workbook::create(path, lowLamp(), clock);
        const auto draft = book->addDrink(drinkNamed("Ox Skerry"), sour(1));
        REQUIRE(book->keep(draft.id, "a first try"));
        book->addPerson("M. Halloran", "MH");
    }
    int acknowledged = 0;
    for (int run = 0; run < runs; ++run) {
        CAPTURE(run);
        const Promises promises = editUntilKilled(path, random, acknowledged);
        everyPromiseHolds(path, promises, clock);
    }
    CHECK(acknowledged >= runs);
    std::cout << "killed " << runs << " times, " << acknowledged << " acknowledged edits, none lost\n";
}
