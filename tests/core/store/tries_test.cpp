#include "core/history/lineage.h"
#include "core/store/lineage_of_book.h"
#include "tests/core/store/store_support.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using store::StoreError;

namespace {

struct Open {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    std::string path = folder.file("low-lamp.stillroom");
    std::unique_ptr<store::Workbook> book = store::Workbook::create(path, lowLamp(), clock);
    history::Draft draft = book->addDrink(drinkNamed("Ox Skerry"), sour(22));

    void reopen() {
        book.reset();
        book = store::Workbook::open(path, store::OpenMode::ReadWrite, clock);
    }
};

} // namespace

TEST_CASE("a drink has several named tries at once", "[store][tries]") {
    Open o;
    const auto kept = o.book->keep(o.draft.id, "one");
    const auto honey = o.book->branch(kept->id, "with honey");
    CHECK(honey.name == "with honey");
    CHECK(honey.basedOn == kept->id);
    const auto loose = o.book->addDraft(o.draft.drink, std::nullopt, sour(30), "from nothing");
    o.book->renameDraft(loose.id, "sharp");
    o.reopen();
    auto drafts = o.book->drafts(o.draft.drink);
    REQUIRE(drafts.size() == 3);
    CHECK(drafts[0].name.empty());
    CHECK(drafts[1] == honey);
    CHECK(drafts[2].name == "sharp");
    CHECK(drafts[2].spec == sour(30));
    CHECK(o.book->summaries().at(0).drafts == 3);

    SECTION("one set aside stands last and comes back to its place") {
        o.book->setDraftAside(o.draft.id, true);
        drafts = o.book->drafts(o.draft.drink);
        CHECK(drafts[2].id == o.draft.id);
        CHECK(drafts[2].setAside);
        o.book->setDraftAside(o.draft.id, false);
        CHECK(o.book->drafts(o.draft.drink)[0].id == o.draft.id);
    }
    SECTION("one in the bin is not among them and comes back whole") {
        o.book->binDraft(honey.id, true);
        CHECK(o.book->drafts(o.draft.drink).size() == 2);
        REQUIRE(o.book->bin().drafts.size() == 1);
        CHECK(o.book->bin().drafts[0].name == "with honey");
        o.book->binDraft(honey.id, false);
        CHECK(o.book->drafts(o.draft.drink)[1] == honey);
        CHECK(o.book->bin().drafts.empty());
    }
    SECTION("the last one cannot be binned") {
        o.book->binDraft(honey.id, true);
        o.book->binDraft(loose.id, true);
        CHECK_THROWS_AS(o.book->binDraft(o.draft.id, true), StoreError);
        CHECK(o.book->drafts(o.draft.drink).size() == 1);
    }
    SECTION("a draft cannot be based on a revision of another drink") {
        const auto other = o.book->addDrink(drinkNamed("Gannet Stack"), sour(20));
        CHECK_THROWS_AS(o.book->addDraft(other.drink, kept->id, sour(20), ""), StoreError);
    }
    o.book.reset();
    CHECK(store::check(o.path).problems.empty());
}

TEST_CASE("a binned drink lies in the bin with its drafts and comes back", "[store][tries]") {
    Open o;
    auto drink = *o.book->drink(o.draft.drink);
    drink.binned = true;
    o.book->saveDrink(drink);
    REQUIRE(o.book->bin().drinks.size() == 1);
    CHECK(o.book->bin().drinks[0].id == drink.id);
    CHECK(o.book->bin().drafts.empty());
    drink.binned = false;
    o.book->saveDrink(drink);
    CHECK(o.book->bin().drinks.empty());
}

TEST_CASE("a revision is set aside beside itself and keeps its hash", "[store][tries]") {
    Open o;
    const auto kept = *o.book->keep(o.draft.id, "one");
    o.book->setRevisionAside(kept.id, true, "too thin");
    o.reopen();
    const auto aside = o.book->setAside(o.draft.drink);
    REQUIRE(aside.size() == 1);
    CHECK(aside[0].revision == kept.id);
    CHECK(aside[0].why == "too thin");
    CHECK(*o.book->revision(kept.id) == kept);
    o.book->setRevisionAside(kept.id, false);
    CHECK(o.book->setAside(o.draft.drink).empty());
    CHECK_THROWS_AS(o.book->setRevisionAside(base::RevisionId::random(), true), StoreError);
}

TEST_CASE("house and published revisions and the drink one comes after are remembered", "[store][tries]") {
    Open o;
    const auto first = *o.book->keep(o.draft.id, "one");
    o.book->saveDraft(o.draft.id, sour(20));
    const auto second = *o.book->keep(o.draft.id, "two");
    auto drink = *o.book->drink(o.draft.drink);
    CHECK_FALSE(history::isStale(drink, first.id)); // nothing to be behind
    drink.house = second.id;
    CHECK(history::isStale(drink, first.id));
    drink.published = first.id;
    CHECK_FALSE(history::isStale(drink, first.id));
    CHECK(history::isStale(drink, second.id));
    drink.tags = {"winter", "Straight Up"};
    drink.credit = "with thanks to the morning shift";
    o.book->saveDrink(drink);

    auto child = drinkNamed("Little Skerry");
    child.after.drink = drink.id;
    child.after.revision = first.id;
    child.after.source = {"M. Halloran", "the Low Lamp", "2019", ""};
    const auto draft = o.book->addDrink(child, sour(18));
    o.reopen();
    CHECK(*o.book->drink(drink.id) == drink);
    const auto stored = *o.book->drink(draft.drink);
    CHECK(stored.after == child.after);
    CHECK(history::creditInWords(stored, drink.name) ==
          "after Ox Skerry; after M. Halloran, the Low Lamp, 2019");
    CHECK(history::creditInWords(drink, "") == "with thanks to the morning shift");
    CHECK(o.book->summaries().at(1).hasPublished);
    CHECK(o.book->summaries().at(1).tags == drink.tags);

    SECTION("a drink never comes after itself by any way") {
        drink.after.drink = stored.id;
        CHECK_THROWS_AS(o.book->saveDrink(drink), StoreError);
    }
    SECTION("a revision that is another drink's is refused") {
        auto wrong = stored;
        wrong.published = first.id;
        CHECK_THROWS_AS(o.book->saveDrink(wrong), StoreError);
        wrong = stored;
        wrong.after.drink = std::nullopt;
        CHECK_THROWS_AS(o.book->saveDrink(wrong), StoreError);
        CHECK(*o.book->drink(stored.id) == stored);
    }
}

TEST_CASE("the reason proposed for a draft says what changed", "[store][tries]") {
    Open o;
    CHECK(o.book->proposedReason(o.draft.id).empty()); // nothing before it
    const auto kept = o.book->keep(o.draft.id, "one");
    CHECK(o.book->proposedReason(o.draft.id).empty());
    o.book->saveDraft(o.draft.id, sour(20));
    CHECK(o.book->proposedReason(o.draft.id) == "lemon juice 22 → 20 ml");
}

TEST_CASE("a person taken out of the book leaves the tastings", "[store][tries]") {
    Open o;
    tasting::Tasting said;
    said.revision = o.book->keep(o.draft.id, "one")->id;
    said.taster = o.book->addPerson("محمد ☂️ Halloran", "MH");
    said.note = "bright";
    o.book->addTasting(said);
    CHECK(o.book->people().at(0).name == "محمد ☂️ Halloran");
    o.book->removePerson(said.taster);
    CHECK(o.book->people().at(0).name.empty());
    CHECK(o.book->tastings(said.revision).at(0).note == "bright");
}

TEST_CASE("a new drink begins from a revision and its line is told from there", "[store][tries][fork]") {
    Open o;
    const auto first = o.book->keep(o.draft.id, "one");
    o.book->saveDraft(o.draft.id, sour(25));
    REQUIRE(o.book->keep(o.draft.id, "two"));
    const auto fork = store::newDrinkFrom(*o.book, first->id, "Second Light");
    CHECK(fork.spec == first->spec);
    CHECK_FALSE(fork.basedOn); // a drink of its own, with revisions of its own
    auto second = *o.book->drink(fork.drink);
    CHECK(second.name == "Second Light");
    CHECK(second.after.drink == o.draft.drink);
    CHECK(second.after.revision == first->id);
    CHECK(second.brief.empty());
    CHECK(store::creditOf(*o.book, second) == "after Ox Skerry, r1");
    CHECK(store::changedSince(*o.book, second) == "no change");
    o.book->saveDraft(fork.id, sour(30));
    CHECK(store::changedSince(*o.book, second) == "lemon juice 22 → 30 ml"); // of the draft: nothing is kept
    const auto kept = o.book->keep(fork.id, "sharper");
    o.book->saveDraft(fork.id, sour(35));
    CHECK(store::changedSince(*o.book, second) == "lemon juice 22 → 30 ml"); // of what is kept
    const auto third = store::newDrinkFrom(*o.book, kept->id, "Third Light");
    const auto other = store::newDrinkFrom(*o.book, first->id, "Another Light");
    o.reopen();
    const auto line = store::cameAfter(*o.book, o.draft.drink);
    REQUIRE(line.size() == 3);
    CHECK(line[0] == store::CameAfter{other.drink, "Another Light", 1, 1, "no change", false});
    CHECK(line[1] == store::CameAfter{fork.drink, "Second Light", 1, 1, "lemon juice 22 → 30 ml", false});
    CHECK(line[2] == store::CameAfter{third.drink, "Third Light", 2, 1, "no change", false});
    CHECK(store::cameAfter(*o.book, third.drink).empty());
    CHECK(store::changedSince(*o.book, *o.book->drink(o.draft.drink)).empty());
    CHECK_THROWS_AS(store::newDrinkFrom(*o.book, base::RevisionId::random(), "None"), StoreError);
}
