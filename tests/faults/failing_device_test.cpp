#include "core/store/opening.h"
#include "tests/faults/fault_device.h"
#include "tests/faults/scenario.h"
#include "tests/support/catch.h"

#include <iostream>

using namespace stillroom;
using namespace stillroom::test;
using store::OpenMode;
using store::Workbook;

namespace {

struct Fault {
    FaultKind kind;
    bool forEver;
};
const std::vector<Fault> kFaults{{FaultKind::IoError, false},    {FaultKind::IoError, true},
                                 {FaultKind::DiskFull, false},   {FaultKind::DiskFull, true},
                                 {FaultKind::ShortWrite, false}, {FaultKind::ShortWrite, true}};

// Runs `once(at, operations)` with the first operation failing, then the second (or, by the stride, a later
// one), and so on until a run ends before its failure comes. Returns how many runs failed.
template <class Run>
int forEveryOperation(const Fault& fault, Run&& once) {
    int runs = 0;
    for (int at = 1 + static_cast<int>(fault.kind) % kFaultStride;; at += kFaultStride) {
        CAPTURE(at, static_cast<int>(fault.kind), fault.forEver);
        int operations = 0;
        once(at, operations);
        if (operations < at) return runs;
        ++runs;
    }
}

std::string joined(const std::vector<std::string>& problems) {
    std::string text;
    for (const auto& problem : problems)
        text += problem + "\n";
    return text;
}

} // namespace

TEST_CASE("whatever operation fails no acknowledged work is lost and nothing is half done", "[faults]") {
    const auto place = GENERATE(store::Place::Detect, store::Place::NetworkOrSynced);
    TempFolder folder;
    const Template prepared;
    int runs = 0;
    for (const Fault& fault : kFaults) {
        // The rollback journal has more than twice the operations; half the faults keep the time in bounds.
        if (place == store::Place::NetworkOrSynced && fault.forEver != (fault.kind == FaultKind::DiskFull))
            continue;
        runs += forEveryOperation(fault, [&](int at, int& operations) {
            const std::string path = prepared.copyTo(folder.file("book.stillroom"));
            Sitting sitting = prepared.sitting();
            {
                FaultDevice device;
                device.failAt(at, fault.kind, fault.forEver);
                try {
                    const auto book = Workbook::open(path, OpenMode::ReadWrite, kFaultClock, place);
                    sitting.work(*book, false);
                } catch (const store::StoreError&) { // it did not even open
                }
                operations = device.operations();
            }
            REQUIRE(joined(sitting.problems(path, false)) == "");
            store::removeFile(path);
        });
    }
    CHECK(runs > 300 / kFaultStride);
    std::cout << "failing device, a sitting: " << runs << " runs\n";
}

TEST_CASE("whatever operation fails a new workbook is there or it is not", "[faults]") {
    TempFolder folder;
    const std::string path = folder.file("new.stillroom");
    int runs = 0;
    for (const Fault& fault : kFaults)
        runs += forEveryOperation(fault, [&](int at, int& operations) {
            bool made = false;
            {
                FaultDevice device;
                device.failAt(at, fault.kind, fault.forEver);
                try {
                    const auto book = Workbook::create(path, lowLamp(), kFaultClock);
                    made = true;
                } catch (const store::StoreError&) {
                }
                operations = device.operations();
            }
            REQUIRE((made || operations >= at)); // where nothing failed it was made
            if (made) {
                REQUIRE(store::check(path).problems.empty());
                REQUIRE(Workbook::open(path, OpenMode::ReadWrite, kFaultClock)->settings().name ==
                        "The Low Lamp");
            } else {
                REQUIRE_FALSE(std::filesystem::exists(path));
                REQUIRE_FALSE(std::filesystem::exists(path + "-wal"));
            }
            store::removeFile(path);
        });
    CHECK(runs > 50 / kFaultStride);
    std::cout << "failing device, creating: " << runs << " runs\n";
}

TEST_CASE("whatever operation fails an upgrade has happened whole or not at all", "[faults]") {
    TempFolder folder;
    const Template prepared;
    const auto migrations = withNextSchema();
    int runs = 0;
    for (const Fault& fault : kFaults)
        runs += forEveryOperation(fault, [&](int at, int& operations) {
            const std::string path = prepared.copyTo(folder.file("old.stillroom"));
            bool upgraded = false;
            {
                FaultDevice device;
                device.failAt(at, fault.kind, fault.forEver);
                try {
                    upgraded = store::openFile(path, OpenMode::ReadWrite, migrations).outcome ==
                               store::OpenOutcome::Upgraded;
                } catch (const store::StoreError&) {
                }
                operations = device.operations();
            }
            REQUIRE((upgraded || operations >= at)); // where nothing failed it was upgraded
            REQUIRE(joined(upgradeProblems(path, upgraded)) == "");
            const std::string backup = upgradeBackupOf(path);
            std::filesystem::remove(backup);
            REQUIRE_FALSE(std::filesystem::exists(backup + "-partial"));
        });
    CHECK(runs > 50 / kFaultStride);
    std::cout << "failing device, upgrading: " << runs << " runs\n";
}

TEST_CASE("whatever operation fails a copy is whole or the old one stays", "[faults]") {
    TempFolder folder;
    const Template prepared;
    const std::string path = prepared.copyTo(folder.file("book.stillroom"));
    const std::string target = folder.file("copy.stillroom");
    const auto first = Workbook::open(path, OpenMode::ReadWrite, kFaultClock);
    first->saveCopy(target);
    auto settings = first->settings();
    settings.name = "newer";
    first->saveSettings(settings);
    int runs = 0;
    for (const Fault& fault : kFaults)
        runs += forEveryOperation(fault, [&](int at, int& operations) {
            bool copied = false;
            {
                // The open book keeps its own file system; only the copy meets the failing device.
                FaultDevice device;
                device.failAt(at, fault.kind, fault.forEver);
                try {
                    first->saveCopy(target);
                    copied = true;
                } catch (const store::StoreError&) {
                }
                operations = device.operations();
            }
            REQUIRE((copied || operations >= at)); // where nothing failed it was copied
            REQUIRE(store::check(target).problems.empty());
            const std::string name = Workbook::open(target, OpenMode::ReadOnly, kFaultClock)->settings().name;
            REQUIRE(name == (copied ? "newer" : "The Low Lamp"));
            if (copied) prepared.copyTo(target);
        });
    CHECK(runs > 50 / kFaultStride);
    std::cout << "failing device, copying: " << runs << " runs\n";
}
