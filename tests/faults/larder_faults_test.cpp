#include "core/store/opening.h"
#include "tests/faults/everywhere.h"

#include <iostream>

using namespace stillroom;
using namespace stillroom::test;
using store::OpenMode;
using store::Workbook;

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
