#include "core/tasting/panel_result.h"
#include "core/tasting/panel_sheets.h"
#include "tests/core/store/store_support.h"
#include "tests/core/tasting/panel_support.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using tasting::Answer;
using tasting::PanelError;
using tasting::PanelKind;
using tasting::PanelState;

namespace {

// A book with two revisions and twelve people, and a triangle panel of them.
struct Session {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    std::string path = folder.file("low-lamp.stillroom");
    std::unique_ptr<store::Workbook> book = store::Workbook::create(path, lowLamp(), clock);
    tasting::PanelDesign design;
    base::PanelId id;

    Session() {
        const auto draft = book->addDrink(drinkNamed("Ox Skerry"), sour(22));
        design.products.push_back(book->keep(draft.id, "one")->id);
        book->saveDraft(draft.id, sour(18));
        design.products.push_back(book->keep(draft.id, "two")->id);
        for (int i = 0; i < 12; ++i)
            design.tasters.push_back(book->addPerson("taster " + std::to_string(i), "T"));
        design.seed = 77;
        id = book->addPanel("which has more lemon", *tasting::designPanel(design)).value();
    }
    void reopen() {
        book.reset();
        CHECK(store::check(path).problems.empty());
        book = store::Workbook::open(path, store::OpenMode::ReadWrite, clock);
    }
    Answer right(std::size_t taster) const {
        Answer answer;
        answer.chosen = tasting::test::rightCode(*book->panel(id), taster, 0);
        return answer;
    }
};

} // namespace

TEST_CASE("a triangle panel of twelve is opened and answered and closed and read again", "[store][panel]") {
    Session s;
    CHECK(s.book->panel(s.id) == *tasting::designPanel(s.design));
    CHECK(s.book->addAnswer(s.id, s.design.tasters[0], {}).error() == PanelError::WrongState);
    CHECK(s.book->closePanel(s.id).error() == PanelError::WrongState);
    REQUIRE(s.book->startPouring(s.id));
    CHECK(s.book->startPouring(s.id).error() == PanelError::WrongState);
    for (std::size_t i = 0; i < 10; ++i)
        REQUIRE(s.book->addAnswer(s.id, s.design.tasters[i], s.right(i)));
    s.reopen(); // closed in the middle of the session: nothing is lost
    CHECK(s.book->panels().at(0).state == PanelState::Pouring);
    CHECK(s.book->panels().at(0).answered == 10);
    REQUIRE(s.book->addAnswer(s.id, s.design.tasters[9], {})); // taken back
    CHECK(s.book->panels().at(0).answered == 9);
    Answer unknown;
    unknown.chosen = 1;
    CHECK(s.book->addAnswer(s.id, s.design.tasters[9], unknown).error() == PanelError::UnknownCup);
    CHECK(s.book->addAnswer(s.id, base::PersonId::random(), {}).error() == PanelError::UnknownTaster);
    s.clock.advanceMs(60'000);
    REQUIRE(s.book->closePanel(s.id));
    CHECK(s.book->addAnswer(s.id, s.design.tasters[9], {}).error() == PanelError::WrongState);
    s.reopen();
    const auto closed = *s.book->panel(s.id);
    CHECK(closed.state == PanelState::Closed);
    const auto found = *tasting::result(closed);
    CHECK(found.whole == 9);
    CHECK(found.missing == 3);
    CHECK(std::get<tasting::ChoiceResult>(found.found).count == 9);
    CHECK(s.book->panels().at(0).closed == base::Instant{kEvening.utcMs + 60'000, 60});
}

TEST_CASE("the summary of a panel says nothing that would reveal a cup", "[store][panel]") {
    Session s;
    REQUIRE(s.book->startPouring(s.id));
    const auto summary = s.book->panels().at(0);
    CHECK(summary.id == s.id);
    CHECK(summary.name == "which has more lemon");
    CHECK(summary.kind == PanelKind::Triangle);
    CHECK(summary.tasters == 12);
    CHECK_FALSE(summary.closed);
    // In the order of the revisions, whatever the design said.
    CHECK(summary.products == s.design.products);
    auto swapped = s.design;
    std::swap(swapped.products[0], swapped.products[1]);
    const auto other = s.book->addPanel("again", *tasting::designPanel(swapped)).value();
    CHECK(s.book->panels().at(0).id == other);
    CHECK(s.book->panels().at(0).products == s.design.products);
    CHECK(s.book->panelsOf(s.design.products[1]).size() == 2);
    CHECK(s.book->panelsOf(base::RevisionId::random()).empty());
}

TEST_CASE("a panel is renamed and binned but never changed", "[store][panel]") {
    Session s;
    s.book->renamePanel(s.id, "lemon, blind");
    s.book->binPanel(s.id, true);
    s.reopen();
    CHECK(s.book->panels().at(0).name == "lemon, blind");
    CHECK(s.book->panels().at(0).binned);
    CHECK(s.book->panel(s.id) == *tasting::designPanel(s.design));
    s.book->binPanel(s.id, false);
    CHECK_FALSE(s.book->panels().at(0).binned);
    CHECK_THROWS_AS(s.book->renamePanel(base::PanelId::random(), "none"), store::StoreError);
}

TEST_CASE("a panel of people or drinks that are not in the book is refused whole", "[store][panel]") {
    Session s;
    auto strangers = s.design;
    strangers.tasters[3] = base::PersonId::random();
    CHECK_THROWS_AS(s.book->addPanel("strangers", *tasting::designPanel(strangers)), store::StoreError);
    auto unknown = s.design;
    unknown.products[1] = base::RevisionId::random();
    CHECK_THROWS_AS(s.book->addPanel("unknown", *tasting::designPanel(unknown)), store::StoreError);
    auto poured = *tasting::startPouring(*tasting::designPanel(s.design));
    CHECK(s.book->addPanel("poured", poured).error() == PanelError::WrongState);
    CHECK(s.book->panels().size() == 1);
}
