#include "core/store/opening.h"
#include "tests/faults/fault_device.h"
#include "tests/faults/scenario.h"
#include "tests/support/catch.h"

#include <iostream>
#include <optional>

using namespace stillroom;
using namespace stillroom::test;

namespace {

struct Cuts {
    int runs = 0;
    int withLoss = 0;
    std::string firstLoss;
};

// Cuts the power at every operation of a sitting, each with several random remains.
Cuts cutEverywhere(store::Place place, bool lyingDisk) {
    const unsigned remainsPerCut = place == store::Place::NetworkOrSynced ? 2 : 4;
    TempFolder folder;
    const Template prepared;
    Cuts cuts;
    bool reached = true;
    for (int at = 1; reached; at += kFaultStride) {
        for (unsigned seed = 0; seed < remainsPerCut; ++seed) {
            const std::string path = prepared.copyTo(folder.file("book.stillroom"));
            Sitting sitting = prepared.sitting();
            std::optional<FaultDevice> device(std::in_place);
            device->cutPowerAt(at);
            if (lyingDisk) device->lieAboutSyncs();
            try {
                const auto book = store::Workbook::open(path, store::OpenMode::ReadWrite, kFaultClock, place);
                sitting.work(*book, true);
            } catch (const store::StoreError&) {
            }
            reached = device->isDead();
            if (!reached) break;
            std::mt19937 random(static_cast<unsigned>(at) * 1009U + seed);
            device->leaveWhatThePowerCutLeft(random);
            device.reset(); // looked at through a disk that works again
            ++cuts.runs;
            const auto problems = sitting.problems(path, true);
            if (!problems.empty()) {
                ++cuts.withLoss;
                if (cuts.firstLoss.empty()) cuts.firstLoss = problems.front();
            }
            store::removeFile(path);
        }
    }
    return cuts;
}

} // namespace

TEST_CASE("a power cut at any moment loses no revision and no tasting and no bottle", "[faults]") {
    const auto place = GENERATE(store::Place::Detect, store::Place::NetworkOrSynced);
    const Cuts cuts = cutEverywhere(place, false);
    CHECK(cuts.runs > 200 / kFaultStride);
    CHECK(cuts.firstLoss == "");
    CHECK(cuts.withLoss == 0);
    std::cout << "power cut: " << cuts.runs << " runs\n";
}

TEST_CASE("the power cut test notices a disk that lies about its syncs", "[faults]") {
    const Cuts cuts = cutEverywhere(store::Place::Detect, true);
    CHECK(cuts.withLoss > cuts.runs / 10);
    std::cout << "power cut on a lying disk: " << cuts.withLoss << " of " << cuts.runs
              << " runs lost something\n";
}

TEST_CASE("a power cut during an upgrade leaves the old workbook or the new one", "[faults]") {
    TempFolder folder;
    const Template prepared;
    int runs = 0;
    bool reached = true;
    for (int at = 1; reached; at += kFaultStride) {
        CAPTURE(at);
        const std::string path = prepared.copyTo(folder.file("old.stillroom"));
        bool upgraded = false;
        std::optional<FaultDevice> device(std::in_place);
        device->cutPowerAt(at);
        try {
            const auto file = store::openFile(path, store::OpenMode::ReadWrite, withNextSchema());
            upgraded = file.outcome == store::OpenOutcome::Upgraded && !device->isDead();
        } catch (const store::StoreError&) {
        }
        reached = device->isDead();
        if (reached) {
            std::mt19937 random(static_cast<unsigned>(at));
            device->leaveWhatThePowerCutLeft(random);
        }
        device.reset();
        const auto problems = upgradeProblems(path, upgraded);
        REQUIRE((problems.empty() ? std::string() : problems.front()) == "");
        std::filesystem::remove(upgradeBackupOf(path));
        ++runs;
    }
    CHECK(runs > 20 / kFaultStride);
}
