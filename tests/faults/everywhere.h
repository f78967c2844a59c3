#pragma once

#include "tests/faults/fault_device.h"
#include "tests/faults/scenario.h"
#include "tests/support/catch.h"

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <functional>
#include <map>
#include <string>
#include <utility>
#include <vector>

// Work on a workbook that is broken off at every place where it can be.
namespace stillroom::test {

std::string joined(const std::vector<std::string>& problems); // one to a line

struct Fault {
    FaultKind kind = FaultKind::IoError;
    bool forEver = false; // that operation and all after it
};
inline const std::vector<Fault> kEveryFault{{FaultKind::IoError, false},    {FaultKind::IoError, true},
                                            {FaultKind::DiskFull, false},   {FaultKind::DiskFull, true},
                                            {FaultKind::ShortWrite, false}, {FaultKind::ShortWrite, true}};

// Makes every operation of `work` fail in turn. `work` returns whether it was acknowledged; `after` looks at
// what is left. Returns how many runs met a fault.
template <class Work, class After>
int failingEverywhere(Work&& work, After&& after, const std::vector<Fault>& faults = kEveryFault) {
    int runs = 0;
    for (const auto& [kind, forEver] : faults)
        for (int at = 1 + static_cast<int>(kind) % kFaultStride;; at += kFaultStride) {
            CAPTURE(at);
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
                // Nothing failed in this run: otherwise none of the others says much.
                REQUIRE(acknowledged);
                break;
            }
            ++runs;
        }
    return runs;
}

// Lets a process of its own do `work` and die at its first operation on the device, then at its second, and
// so on until one comes to its end. `after` looks at what each left. Returns how many were killed.
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

// A book in a folder of its own that is put back after each try. Most faults leave the same files with, once
// SQLite has put a log or journal back, the same bytes, as they should: each different end is looked at once.
class BrokenOff {
  public:
    using Problems = std::function<std::vector<std::string>(const std::string& path, bool acknowledged)>;
    // `make` writes the book to start from; `problems` says what is wrong with what was left.
    BrokenOff(const std::function<void(const std::string& path)>& make, Problems problems);

    const std::string& path() const { return m_path; }
    void putBack();
    std::string problems(bool acknowledged);
    std::size_t differentEnds() const { return m_known.size(); }

  private:
    std::map<std::string, std::string> left() const;

    TempFolder m_templates;
    TempFolder m_folder;
    std::string m_template = m_templates.file("template.stillroom");
    std::string m_path = m_folder.file("book.stillroom");
    Problems m_problems;
    std::map<std::pair<std::map<std::string, std::string>, bool>, std::string> m_known;
};

} // namespace stillroom::test
