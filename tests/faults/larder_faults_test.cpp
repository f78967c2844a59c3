#include "core/base/hash.h"
#include "core/store/opening.h"
#include "tests/faults/fault_device.h"
#include "tests/faults/scenario.h"
#include "tests/support/catch.h"

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <fstream>
#include <iostream>
#include <map>
#include <numeric>
#include <sstream>

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
            for (int at = 1 + static_cast<int>(kind) % kFaultStride;; at += kFaultStride) {
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
    int killed = 0;
    for (int at = 1;; at += kFaultStride) {
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
        if (ended) return killed;
        ++killed;
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
    CHECK(runs > 100 / kFaultStride);
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
    CHECK(killed > 20 / kFaultStride);
    std::cout << "killed in an edit of everything: " << killed << " times\n";
}

namespace {

// A book of the first schema in a folder of its own, and what was found wrong with it after each upgrade that
// was broken off.
class FirstSchemaBook {
  public:
    FirstSchemaBook() { writeFirstSchema(m_template); }
    const std::string& path() const { return m_path; }
    void putBack() {
        for (const auto& entry : std::filesystem::directory_iterator(m_folder.file("")))
            std::filesystem::remove(entry.path());
        std::filesystem::copy_file(m_template, m_path);
    }
    // Most faults leave the same files with, once SQLite has put a log or journal back, the same bytes, as
    // they should: those are looked at once.
    std::string problems(bool acknowledged) {
        auto [found, isNew] = m_problems.try_emplace({left(), acknowledged});
        if (isNew) found->second = joined(firstSchemaProblems(m_path, acknowledged));
        return found->second;
    }
    std::size_t differentEnds() const { return m_problems.size(); }

  private:
    // The name of every file in the folder, and the bytes of each database after SQLite's own recovery of a
    // copy: what the program makes of the log or journal is for `problems` to say.
    std::map<std::string, std::string> left() const {
        std::map<std::string, std::string> files;
        TempFolder copies;
        for (const auto& entry : std::filesystem::directory_iterator(m_folder.file(""))) {
            const auto name = entry.path().filename().string();
            files[name];
            std::filesystem::copy_file(entry.path(), copies.file(name));
        }
        const auto isLog = [](const std::string& name) {
            return name.find("-wal") != std::string::npos || name.find("-journal") != std::string::npos ||
                   name.find("-shm") != std::string::npos;
        };
        for (auto& [name, digest] : files) {
            if (isLog(name)) continue;
            try {
                RawFile(copies.file(name)).text("PRAGMA wal_checkpoint(TRUNCATE)");
            } catch (const std::runtime_error&) { // half a copy is no database: its bytes are what they are
            }
            std::ifstream file(copies.file(name), std::ios::binary);
            std::ostringstream bytes;
            bytes << file.rdbuf();
            digest = base::sha256Hex(bytes.str());
        }
        return files;
    }

    TempFolder m_templates;
    TempFolder m_folder;
    std::string m_template = m_templates.file("first.stillroom");
    std::string m_path = m_folder.file("old.stillroom");
    std::map<std::pair<std::map<std::string, std::string>, bool>, std::string> m_problems;
};

} // namespace

TEST_CASE("whatever operation fails a book of the first schema is upgraded whole or not at all", "[faults]") {
    FirstSchemaBook old;
    old.putBack();
    const int runs = failingEverywhere(
        [&] {
            return Workbook::open(old.path(), OpenMode::ReadWrite, kFaultClock)->outcome() ==
                   store::OpenOutcome::Upgraded;
        },
        [&](bool acknowledged) {
            REQUIRE(old.problems(acknowledged) == "");
            old.putBack();
        });
    CHECK(runs > 100 / kFaultStride);
    std::cout << "failing device, upgrading the first schema: " << runs << " runs, " << old.differentEnds()
              << " different ends\n";
}

TEST_CASE("a process killed while upgrading the first schema leaves a whole book", "[faults][kill]") {
    FirstSchemaBook old;
    old.putBack();
    const int killed = killedEverywhere([&] { Workbook::open(old.path(), OpenMode::ReadWrite, kFaultClock); },
                                        [&](bool acknowledged) {
                                            REQUIRE(old.problems(acknowledged) == "");
                                            old.putBack();
                                        });
    CHECK(killed > 20 / kFaultStride);
    std::cout << "killed in an upgrade of the first schema: " << killed << " times, " << old.differentEnds()
              << " different ends\n";
}
