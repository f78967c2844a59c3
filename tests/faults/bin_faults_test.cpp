#include "core/store/empty_bin.h"
#include "tests/faults/everywhere.h"

#include <iostream>

using namespace stillroom;
using namespace stillroom::test;
using store::OpenMode;
using store::Workbook;

// Emptying the bin, broken off: under the book's name stands all of it or all but the bin, and in that case
// the file as it was stands beside it.

namespace {

const auto kStays = base::DrinkId::random();
const auto kGoes = base::DrinkId::random();

void writeBook(const std::string& path) {
    const auto book = Workbook::create(path, lowLamp(), kFaultClock);
    for (const auto id : {kStays, kGoes}) {
        auto drink = drinkNamed(id == kStays ? "Ox Skerry" : "Gannet Stack");
        drink.id = id;
        const auto draft = book->addDrink(drink, sour(22));
        const auto kept = book->keep(draft.id, "a first try");
        tasting::Tasting said;
        said.revision = kept->id;
        said.taster = book->addPerson("M. Halloran", "MH");
        said.note = "as bright as it was meant to be";
        book->addTasting(said);
    }
    while (book->search({}, 0).unread > 0)
        continue;
    auto goes = *book->drink(kGoes);
    goes.binned = true;
    book->saveDrink(goes);
}

std::vector<std::string> wholeBookProblems(const std::string& path, bool withBin, const std::string& which) {
    std::vector<std::string> found;
    const auto must = [&](bool holds, const std::string& what) {
        if (!holds) found.push_back(which + ": " + what);
    };
    for (const auto& problem : store::check(path).problems)
        found.push_back(which + ": " + problem.where + " " + problem.what);
    const auto book = Workbook::open(path, OpenMode::ReadWrite, kFaultClock);
    must(book->drink(kStays).has_value(), "what stays is gone");
    must(book->revisions(kStays).size() == 1, "a revision is gone");
    must(book->tastingsOf(kStays).size() == 1, "a tasting is gone");
    must(book->drink(kGoes).has_value() == withBin, "the bin is there in part");
    must(book->revisions(kGoes).size() == (withBin ? 1U : 0U), "revisions of the bin are there in part");
    must(!book->search({"skerry", {}}).hits.empty(), "it cannot be searched");
    return found;
}

std::vector<std::string> emptyingProblems(const std::string& path, bool acknowledged) {
    const std::string backup = path + "-before-emptying";
    try {
        bool isEmptied = false;
        {
            const auto book = Workbook::open(path, OpenMode::ReadWrite, kFaultClock);
            isEmptied = !book->drink(kGoes);
        }
        auto found = wholeBookProblems(path, !isEmptied, "the book");
        if (acknowledged && !isEmptied) found.emplace_back("an emptying that was reported is undone");
        if (isEmptied && !std::filesystem::exists(backup)) found.emplace_back("emptied without a copy");
        if (std::filesystem::exists(backup)) {
            const auto copy = wholeBookProblems(backup, true, "the copy");
            found.insert(found.end(), copy.begin(), copy.end());
        }
        if (isEmptied || !found.empty()) return found;
        // And it can be emptied from here.
        store::emptyBin(path, kFaultClock);
        return wholeBookProblems(path, false, "emptied once more");
    } catch (const std::exception& error) {
        return {std::string("the workbook does not open: ") + error.what()};
    }
}

} // namespace

TEST_CASE("whatever operation fails the bin is emptied whole or not at all", "[faults][bin]") {
    BrokenOff book(writeBook, emptyingProblems);
    // Each run writes and checks a whole file: not every fault at every place, but every kind.
    const int runs = failingEverywhere(
        [&] { return !store::emptyBin(book.path(), kFaultClock).backup.empty(); },
        [&](bool acknowledged) {
            REQUIRE(book.problems(acknowledged) == "");
            book.putBack();
        },
        {{FaultKind::IoError, false}, {FaultKind::DiskFull, true}, {FaultKind::ShortWrite, false}});
    CHECK(runs > 100 / kFaultStride);
    std::cout << "failing device, emptying the bin: " << runs << " runs, " << book.differentEnds()
              << " different ends\n";
}

TEST_CASE("a process killed while emptying the bin leaves a whole book", "[faults][kill][bin]") {
    BrokenOff book(writeBook, emptyingProblems);
    const int killed = killedEverywhere([&] { store::emptyBin(book.path(), kFaultClock); },
                                        [&](bool acknowledged) {
                                            REQUIRE(book.problems(acknowledged) == "");
                                            book.putBack();
                                        });
    CHECK(killed > 20 / kFaultStride);
    std::cout << "killed in an emptying of the bin: " << killed << " times, " << book.differentEnds()
              << " different ends\n";
}

TEST_CASE("a bin whose book cannot be kept as it was is not emptied", "[faults][bin]") {
    TempFolder folder;
    // The new file's name fits into the 255 bytes of a name, the copy's does not.
    const std::string path = folder.file(std::string(236, 'b') + ".stillroom");
    writeBook(path);
    CHECK_THROWS_AS(store::emptyBin(path, kFaultClock), store::StoreError);
    CHECK(wholeBookProblems(path, true, "the book").empty());
    CHECK_FALSE(std::filesystem::exists(path + "-emptied"));
}
