#include "core/store/opening.h"
#include "tests/faults/fault_device.h"
#include "tests/faults/scenario.h"
#include "tests/support/catch.h"

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <iostream>
#include <numeric>

using namespace stillroom;
using namespace stillroom::test;
using store::OpenMode;
using store::Workbook;

namespace {

constexpr std::array kKinds{FaultKind::IoError, FaultKind::DiskFull, FaultKind::ShortWrite};

std::string joined(const std::vector<std::string>& problems) {
    return std::accumulate(
        problems.begin(), problems.end(), std::string(),
        [](std::string all, const std::string& one) { return std::move(all) + one + "\n"; });
}

// Makes every operation of `work` fail in turn, once and for ever. `work` returns whether it was
// acknowledged; `after` looks at what is left.
template <class Work, class After>
int failingEverywhere(Work&& work, After&& after) {
    int runs = 0;
    for (const FaultKind kind : kKinds)
        for (const bool forEver : {false, true})
            for (int at = 1;; ++at) {
                CAPTURE(at, static_cast<int>(kind), forEver);
                bool acknowledged = false;
                int operations = 0;
                {
                    FaultDevice device;
                    device.failAt(at, kind, forEver);
                    try {
                        acknowledged = work();
                    } catch (const store::StoreError&) {
                    }
                    operations = device.operations();
                }
                after(acknowledged);
                if (operations < at) {
                    REQUIRE(
                        acknowledged); // nothing failed in this run: otherwise none of the others says much
                    break;
                }
                ++runs;
            }
    return runs;
}

// Lets a process of its own do `work` and die at its first operation on the device, then at its second, and
// so on until one comes to its end. `after` looks at what each left.
template <class Work, class After>
int killedEverywhere(Work&& work, After&& after) {
    for (int at = 1;; ++at) {
        CAPTURE(at);
        const pid_t child = fork();
        REQUIRE(child >= 0);
        if (child == 0) {
            FaultDevice device;
            device.failAt(at, FaultKind::Kill, false);
            try {
                work();
            } catch (...) {
                _exit(1);
            }
            _exit(0);
        }
        int status = 0;
        REQUIRE(waitpid(child, &status, 0) == child);
        const bool ended = WIFEXITED(status);
        REQUIRE((ended ? WEXITSTATUS(status) == 0 : WTERMSIG(status) == SIGKILL));
        after(ended);
        if (ended) return at - 1;
    }
}

} // namespace

TEST_CASE("an edit of everything happens whole or not at all whatever operation fails", "[faults]") {
    TempFolder folder;
    const ManyUses many;
    const auto edited = many.edited();
    const std::string path = many.copyTo(folder.file("many.stillroom"));
    const int runs = failingEverywhere(
        [&] {
            const auto book = Workbook::open(path, OpenMode::ReadWrite, kFaultClock);
            book->saveIngredients(edited);
            return true;
        },
        [&](bool acknowledged) {
            REQUIRE(joined(many.problems(path, acknowledged)) == "");
            store::removeFile(path);
            many.copyTo(path);
        });
    CHECK(runs > 100);
    std::cout << "failing device, an edit of everything: " << runs << " runs\n";
}

TEST_CASE("an edit of everything happens whole or not at all when the process is killed", "[faults][kill]") {
    TempFolder folder;
    const ManyUses many;
    const auto edited = many.edited();
    const std::string path = many.copyTo(folder.file("many.stillroom"));
    const int killed = killedEverywhere(
        [&] {
            auto book = Workbook::open(path, OpenMode::ReadWrite, kFaultClock);
            book->saveIngredients(edited);
        },
        [&](bool acknowledged) {
            REQUIRE(joined(many.problems(path, acknowledged)) == "");
            store::removeFile(path);
            many.copyTo(path);
        });
    CHECK(killed > 20);
    std::cout << "killed in an edit of everything: " << killed << " times\n";
}

TEST_CASE("whatever operation fails a book of the first schema is upgraded whole or not at all", "[faults]") {
    TempFolder folder;
    const std::string path = folder.file("old.stillroom");
    writeFirstSchema(path);
    const int runs = failingEverywhere(
        [&] {
            return Workbook::open(path, OpenMode::ReadWrite, kFaultClock)->outcome() ==
                   store::OpenOutcome::Upgraded;
        },
        [&](bool acknowledged) {
            REQUIRE(joined(firstSchemaProblems(path, acknowledged)) == "");
            for (const auto& entry : std::filesystem::directory_iterator(folder.file("")))
                std::filesystem::remove(entry.path());
            writeFirstSchema(path);
        });
    CHECK(runs > 100);
    std::cout << "failing device, upgrading the first schema: " << runs << " runs\n";
}

TEST_CASE("a process killed while upgrading the first schema leaves a whole book", "[faults][kill]") {
    TempFolder folder;
    const std::string path = folder.file("old.stillroom");
    writeFirstSchema(path);
    const int killed =
        killedEverywhere([&] { Workbook::open(path, OpenMode::ReadWrite, kFaultClock); },
                         [&](bool acknowledged) {
                             REQUIRE(joined(firstSchemaProblems(path, acknowledged)) == "");
                             for (const auto& entry : std::filesystem::directory_iterator(folder.file("")))
                                 std::filesystem::remove(entry.path());
                             writeFirstSchema(path);
                         });
    CHECK(killed > 20);
    std::cout << "killed in an upgrade of the first schema: " << killed << " times\n";
}
