#include "core/store/photos_taken_off.h"
#include "tests/core/store/store_support.h"
#include "tests/core/tasting/photo_support.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using tasting::PhotoError;

namespace {

struct WithTasting {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    std::string path = folder.file("low-lamp.stillroom");
    std::unique_ptr<store::Workbook> book = store::Workbook::create(path, lowLamp(), clock);
    base::RevisionId revision;
    tasting::Tasting tasting;

    WithTasting() {
        const auto draft = book->addDrink(drinkNamed("Ox Skerry"), sour(22));
        revision = book->keep(draft.id, "one")->id;
        tasting.revision = revision;
        tasting.taster = book->addPerson("M. Halloran", "MH");
        tasting = book->addTasting(tasting);
    }
};

} // namespace

TEST_CASE("a photo is stored once and stands beside a revision and a tasting", "[store][photo]") {
    WithTasting w;
    const std::string bytes = jpegOf(1200, 900);
    const auto first = w.book->attachPhoto(w.revision, bytes, "in the window");
    REQUIRE(first);
    const auto second = w.book->attachPhoto(w.tasting.id, bytes);
    REQUIRE(second);
    CHECK(w.book->photoTally().photos == 1);
    CHECK(w.book->photoTally().bytes == static_cast<std::int64_t>(bytes.size()));
    w.book.reset();
    const auto report = store::check(w.path);
    CHECK(report.problems.empty());
    CHECK(report.photos == 1);
    w.book = store::Workbook::open(w.path, store::OpenMode::ReadWrite, w.clock);
    REQUIRE(w.book->photosOf(w.revision).size() == 1);
    CHECK(w.book->photosOf(w.revision)[0] == *first);
    CHECK(w.book->photosOf(w.tasting.id).at(0) == *second);
    CHECK(*w.book->photoBytes(first->info.hash) == bytes);
    CHECK_FALSE(w.book->photoBytes(std::string(64, '0')));

    SECTION("a tasting that amends another shows its photos too") {
        auto amending = w.tasting;
        amending.id = {};
        amending.amends = w.tasting.id;
        amending = w.book->addTasting(amending);
        CHECK(w.book->photosOf(amending.id).size() == 1);
    }
    SECTION("one on the wrong revision is taken off and put back") {
        w.book->hidePhoto(first->id, true);
        CHECK(w.book->photosOf(w.revision).empty());
        CHECK(w.book->photosOf(w.tasting.id).size() == 1);
        const auto off = store::photosTakenOff(*w.book, w.revision);
        REQUIRE(off.size() == 1);
        CHECK(off[0].id == first->id);
        CHECK(store::photosTakenOff(*w.book, w.tasting.id).empty());
        w.book->hidePhoto(first->id, false);
        CHECK(w.book->photosOf(w.revision).size() == 1);
    }
}

TEST_CASE("a photo that is too large or cut short leaves the book as it was", "[store][photo]") {
    WithTasting w;
    CHECK(w.book->attachPhoto(w.revision, jpegOf(10000, 6000)).error() == PhotoError::TooManyPixels);
    const std::string whole = jpegOf(1200, 900);
    CHECK(w.book->attachPhoto(w.revision, whole.substr(0, whole.size() / 2)).error() == PhotoError::CutShort);
    CHECK_THROWS_AS(w.book->attachPhoto(base::RevisionId::random(), whole), store::StoreError);
    CHECK(w.book->photoTally().photos == 0);
    CHECK(w.book->photosOf(w.revision).empty());
}
