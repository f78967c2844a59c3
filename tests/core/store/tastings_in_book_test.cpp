#include "core/store/tasting_repository.h"
#include "tests/core/store/store_support.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using store::StoreError;
using tasting::ScaleKind;

namespace {

struct Tasted {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    std::string path = folder.file("low-lamp.stillroom");
    std::unique_ptr<store::Workbook> book = store::Workbook::create(path, lowLamp(), clock);
    tasting::Tasting tasting;

    Tasted() {
        const auto draft = book->addDrink(drinkNamed("Ox Skerry"), sour(22));
        tasting.revision = book->keep(draft.id, "one")->id;
        tasting.taster = book->addPerson("M. Halloran", "MH");
    }
};

} // namespace

TEST_CASE("a tasting carries every scale and how the drink was met", "[store][tasting]") {
    Tasted t;
    t.tasting.scores.byScale = {{"sweet", {9, ScaleKind::FifteenPoint}},
                                {"liking", {7, ScaleKind::NinePoint}},
                                {"body_2", {4, ScaleKind::JustAboutRight}}};
    t.tasting.circumstances.glassAgeMinutes = 12;
    t.tasting.circumstances.place = "the back bar, by the door";
    t.tasting.circumstances.measured.volume = quantity::Volume::fromMl(112.5);
    t.tasting.circumstances.measured.weight = quantity::Mass::fromGrams(113.2);
    t.tasting.circumstances.measured.temperature = quantity::Temperature::fromCelsius(-2.5);
    t.tasting.circumstances.measured.brixRead = quantity::MassFraction::fromPercent(14.2);
    const auto added = t.book->addTasting(t.tasting);
    t.book.reset();
    CHECK(store::check(t.path).problems.empty());
    t.book = store::Workbook::open(t.path, store::OpenMode::ReadWrite, t.clock);
    CHECK(t.book->tastings(t.tasting.revision).at(0) == added);
    CHECK(*t.book->findTasting(added.id) == added);

    SECTION("a score off its scale or a glass a month old is refused") {
        auto wrong = t.tasting;
        wrong.scores.byScale["liking"].value = 10;
        CHECK_THROWS_AS(t.book->addTasting(wrong), StoreError);
        wrong = t.tasting;
        wrong.circumstances.glassAgeMinutes = 50000;
        CHECK_THROWS_AS(t.book->addTasting(wrong), StoreError);
        CHECK(t.book->tastings(t.tasting.revision).size() == 1);
    }
    SECTION("an amended one is found by its id alone") {
        auto second = added;
        second.id = {};
        second.amends = added.id;
        second.note = "and thin";
        t.book->addTasting(second);
        CHECK(t.book->tastings(t.tasting.revision).size() == 1);
        CHECK(t.book->findTasting(added.id) == added);
    }
}

TEST_CASE("what an older tasting says has the content it always had", "[store][tasting]") {
    tasting::Tasting old;
    old.when = {1793649600000, 60};
    old.scores = tasting::Scores::ofFirst({9, 0, std::nullopt, 15, 3});
    old.note = "bright";
    const std::string zeros(32, '0');
    // As schema 1 wrote it, key by key.
    CHECK(store::canonicalTasting(old) ==
          R"({"amends":null,"note":"bright","revision":")" + zeros +
              R"(","scores":{"bitter":15,"length":3,"sour":0,"sweet":9},"taster":")" + zeros +
              R"(","try_next":"","verdict":"none","when":{"offset_minutes":60,"utc_ms":1793649600000}})");
}

TEST_CASE("the book's own scales are a setting and a faulty set is refused", "[store][tasting]") {
    Tasted t;
    CHECK(t.book->settings().scales == tasting::ScaleSet::defaults());
    auto settings = t.book->settings();
    settings.scales.scales.push_back({"smoke", "smoke", ScaleKind::JustAboutRight});
    t.book->saveSettings(settings);
    CHECK(t.book->settings().scales == settings.scales);
    auto wrong = settings;
    wrong.scales.scales.push_back({"smoke", "more smoke", ScaleKind::FifteenPoint});
    CHECK_THROWS_AS(t.book->saveSettings(wrong), StoreError);
    CHECK(t.book->settings().scales == settings.scales);
}
