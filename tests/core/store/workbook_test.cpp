#include "core/store/workbook.h"

#include "tests/core/store/store_support.h"
#include "tests/support/catch.h"

#include <fstream>
#include <iterator>

using namespace stillroom;
using namespace stillroom::test;
using store::OpenMode;
using store::StoreErrorKind;
using store::Workbook;

namespace {

struct Book {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    std::string path = folder.file("low-lamp.stillroom");
    std::unique_ptr<Workbook> book = Workbook::create(path, lowLamp(), clock);

    void reopen() {
        book.reset();
        book = Workbook::open(path, OpenMode::ReadWrite, clock);
    }
};

} // namespace

TEST_CASE("a new workbook knows its settings and holds nothing", "[store]") {
    Book b;
    CHECK(b.book->settings().name == "The Low Lamp");
    CHECK(b.book->summaries().empty());
    CHECK(b.book->people().empty());
    CHECK(b.book->outcome() == store::OpenOutcome::Current);
    b.reopen();
    CHECK(b.book->settings().name == "The Low Lamp");
    CHECK(b.book->settings().rules.measures == quantity::HouseMeasures::defaults());
    CHECK(b.book->settings().rules.currency == lowLamp().rules.currency);
}

TEST_CASE("settings come back as they were saved", "[store]") {
    Book b;
    store::BookSettings settings = b.book->settings();
    settings.name = "The Low Lamp, upstairs";
    settings.zone = "Atlantic/Faroe";
    settings.region = "GB";
    settings.rules.currency = *quantity::Currency::fromCode("JPY");
    settings.rules.standardDrinkGrams = 12.7;
    settings.rules.measures.volumesMl[quantity::Measure::Dash].typical = 0.62;
    b.book->saveSettings(settings);
    b.reopen();
    const auto stored = b.book->settings();
    CHECK(stored.name == settings.name);
    CHECK(stored.zone == settings.zone);
    CHECK(stored.region == settings.region);
    CHECK(stored.rules.currency == settings.rules.currency);
    CHECK(stored.rules.standardDrinkGrams == settings.rules.standardDrinkGrams);
    CHECK(stored.rules.measures == settings.rules.measures);
}

TEST_CASE("a drink and its draft are the same after the file is reopened", "[store]") {
    Book b;
    history::Drink drink = drinkNamed("Ox Skerry");
    drink.notes = "Zest “only” – naïve?\n二";
    drink.credit = "after nobody in particular";
    const auto draft = b.book->addDrink(drink, sour(22));
    CHECK_FALSE(draft.id.isNull());
    CHECK(draft.version == 1);
    b.clock.advanceMs(5000);
    b.book->saveDraft(draft.id, sour(20));
    b.reopen();

    const auto stored = b.book->drink(draft.drink);
    REQUIRE(stored);
    drink.id = draft.drink;
    drink.created = kEvening;
    CHECK(*stored == drink);
    const auto drafts = b.book->drafts(draft.drink);
    REQUIRE(drafts.size() == 1);
    CHECK(drafts[0].spec == sour(20));
    CHECK(drafts[0].version == 2);
    CHECK(drafts[0].saved.utcMs == kEvening.utcMs + 5000);
    CHECK(b.book->draft(draft.id) == drafts[0]);
}

TEST_CASE("every field of a drink can be changed, and only a change is written", "[store]") {
    Book b;
    const auto draft = b.book->addDrink(drinkNamed("Ox Skerry"), sour(22));
    const auto kept = b.book->keep(draft.id, "first");
    REQUIRE(kept);
    auto drink = *b.book->drink(draft.drink);
    drink.name = "Ox Skerry Light";
    drink.brief = "shorter";
    drink.notes = "less ice";
    drink.menuName = "";
    drink.credit = "the house";
    drink.house = kept->id;
    drink.binned = true;
    b.book->saveDrink(drink);
    b.reopen();
    CHECK(b.book->drink(draft.drink) == drink);
    b.book.reset();
    CHECK(RawFile(b.path).text("SELECT group_concat(name_version || words_version || menu_version ||"
                               " house_version || binned_version) FROM drink") == "22222");
}

TEST_CASE("the house revision must be one of the drink's own", "[store]") {
    Book b;
    const auto first = b.book->addDrink(drinkNamed("Ox Skerry"), sour(22));
    const auto second = b.book->addDrink(drinkNamed("Lantern Ness"), sour(25));
    const auto kept = b.book->keep(first.id, "first");
    auto other = *b.book->drink(second.drink);
    other.house = kept->id;
    CHECK(storeErrorOf([&] { b.book->saveDrink(other); }) == StoreErrorKind::Refused);
    CHECK_FALSE(b.book->drink(second.drink)->house);
}

TEST_CASE("a kept revision is the same after the file is reopened", "[store]") {
    Book b;
    const auto gin = bottleOf("harbour gin 47", 47);
    b.book->saveIngredient(gin);
    const auto draft = b.book->addDrink(drinkNamed("Ox Skerry"), sour(22, gin.id));
    const auto first = b.book->keep(draft.id, "a first try");
    REQUIRE(first);
    CHECK(first->number == 1);
    CHECK_FALSE(first->parent);
    CHECK(first->hash == first->contentHash());
    CHECK(b.book->draft(draft.id)->basedOn == first->id);

    b.clock.advanceMs(60000);
    b.book->saveDraft(draft.id, sour(20, gin.id));
    const auto second = b.book->keep(draft.id, "less sour");
    REQUIRE(second);
    CHECK(second->number == 2);
    CHECK(second->parent == first->id);
    CHECK(second->facts.states.at(gin.id) == gin.facts.hash());

    b.reopen();
    const auto revisions = b.book->revisions(draft.drink);
    REQUIRE(revisions.size() == 2);
    CHECK(revisions[0] == *first);
    CHECK(revisions[1] == *second);
    CHECK(b.book->revision(second->id) == *second);
    CHECK(b.book->factState(gin.facts.hash()) == gin.facts);
}

TEST_CASE("keeping without a difference keeps nothing", "[store]") {
    Book b;
    const auto gin = bottleOf("harbour gin 47", 47);
    b.book->saveIngredient(gin);
    const auto draft = b.book->addDrink(drinkNamed("Ox Skerry"), sour(22, gin.id));
    REQUIRE(b.book->keep(draft.id, "a first try"));
    const auto again = b.book->keep(draft.id, "another reason is no difference");
    REQUIRE_FALSE(again);
    CHECK(again.error() == store::KeepRefusal::NothingChanged);
    CHECK(b.book->revisions(draft.drink).size() == 1);

    SECTION("a changed fact is a difference") {
        auto stronger = gin;
        stronger.facts.abvPercent = fact(50);
        b.book->saveIngredient(stronger);
        const auto kept = b.book->keep(draft.id, "the new label says 50");
        REQUIRE(kept);
        CHECK(kept->facts.states.at(gin.id) == stronger.facts.hash());
        CHECK(b.book->revisions(draft.drink)[0].facts.states.at(gin.id) == gin.facts.hash());
    }
    SECTION("changed house measures are a difference") {
        auto settings = b.book->settings();
        settings.rules.measures.volumesMl[quantity::Measure::Dash].typical = 0.62;
        b.book->saveSettings(settings);
        CHECK(b.book->keep(draft.id, "our dashes were measured"));
    }
    SECTION("a price is none") {
        auto priced = gin;
        priced.packs = {{base::PackId::random(), {2150, {}}, 700.0, {}, {}, "2026-11-02"}};
        b.book->saveIngredient(priced);
        CHECK_FALSE(b.book->keep(draft.id, "costed"));
    }
}

TEST_CASE("a branch starts from its revision and numbers on", "[store]") {
    Book b;
    const auto draft = b.book->addDrink(drinkNamed("Ox Skerry"), sour(22));
    const auto first = b.book->keep(draft.id, "one");
    b.book->saveDraft(draft.id, sour(20));
    REQUIRE(b.book->keep(draft.id, "two"));
    const auto branch = b.book->branch(first->id);
    CHECK(branch.spec == sour(22));
    CHECK(branch.basedOn == first->id);
    b.book->saveDraft(branch.id, sour(30));
    const auto third = b.book->keep(branch.id, "the other way");
    REQUIRE(third);
    CHECK(third->number == 3);
    CHECK(third->parent == first->id);
    CHECK(b.book->drafts(draft.drink).size() == 2);
    CHECK(b.book->drafts(draft.drink)[0].id == draft.id);
}

TEST_CASE("tastings come back, and an amended one gives way", "[store]") {
    Book b;
    const auto draft = b.book->addDrink(drinkNamed("Ox Skerry"), sour(22));
    const auto kept = b.book->keep(draft.id, "one");
    const auto person = b.book->addPerson("M. Halloran", "MH");
    tasting::Tasting tasting;
    tasting.revision = kept->id;
    tasting.taster = person;
    tasting.scores = tasting::Scores::ofFirst({9, 0, std::nullopt, 15, 3});
    tasting.note = "bright, thin\nin the middle";
    tasting.verdict = tasting::Verdict::Change;
    tasting.tryNext = "2 ml more syrup";
    const auto first = b.book->addTasting(tasting);
    CHECK_FALSE(first.id.isNull());
    CHECK(first.when == kEvening);
    auto correction = tasting;
    correction.amends = first.id;
    correction.scores.byScale["sour"] = {8, tasting::ScaleKind::FifteenPoint};
    const auto second = b.book->addTasting(correction);
    b.reopen();
    const auto tastings = b.book->tastings(kept->id);
    REQUIRE(tastings.size() == 1);
    CHECK(tastings[0] == second);
    REQUIRE(b.book->people().size() == 1);
    CHECK(b.book->people()[0] == tasting::Person{person, "M. Halloran", "MH"});
    b.book->renamePerson(person, "", "–");
    CHECK(b.book->people()[0] == tasting::Person{person, "", "–"});
}

TEST_CASE("a tasting that cannot be is refused whole", "[store]") {
    Book b;
    const auto draft = b.book->addDrink(drinkNamed("Ox Skerry"), sour(22));
    const auto kept = b.book->keep(draft.id, "one");
    const auto person = b.book->addPerson("M. Halloran", "MH");
    tasting::Tasting tasting;
    tasting.revision = kept->id;
    tasting.taster = person;
    const auto refused = [&] { return storeErrorOf([&] { b.book->addTasting(tasting); }); };
    SECTION("a score above the scale") {
        tasting.scores.byScale["sweet"] = {16, tasting::ScaleKind::FifteenPoint};
        CHECK(refused() == StoreErrorKind::Refused);
    }
    SECTION("an unknown revision") {
        tasting.revision = base::RevisionId::random();
        CHECK(refused() == StoreErrorKind::Refused);
    }
    SECTION("an unknown taster") {
        tasting.taster = base::PersonId::random();
        CHECK(refused() == StoreErrorKind::Refused);
    }
    SECTION("amending a tasting of nothing") {
        tasting.amends = base::TastingId::random();
        CHECK(refused() == StoreErrorKind::Refused);
    }
    CHECK(b.book->tastings(kept->id).empty());
    CHECK(b.book->addPerson("still working", "SW") != person);
}

TEST_CASE("an ingredient comes back with aliases and facts and packs", "[store]") {
    Book b;
    auto gin = bottleOf("harbour gin 47", 47);
    gin.aliases = {"the blue one", "HG"};
    gin.packs = {{base::PackId::random(), {2150, {}}, 700.0, {}, {}, "2026-10-02"},
                 {base::PackId::random(), {2310, {}}, 700.0, {}, {}, "2026-11-02"}};
    larder::Ingredient kind;
    kind.id = base::IngredientId::random();
    kind.name = "harbour gin";
    kind.houseBottle = gin.id;
    gin.kind = kind.id;
    b.book->saveIngredient(kind);
    b.book->saveIngredient(gin);
    b.book->rememberName("Our Gin", kind.id);
    b.reopen();
    const auto larder = b.book->larder();
    REQUIRE(larder.find(gin.id));
    CHECK(*larder.find(gin.id) == gin);
    REQUIRE(larder.find(kind.id));
    CHECK(*larder.find(kind.id) == kind);
    REQUIRE(larder.poured(kind.id));
    CHECK(larder.poured(kind.id)->id == gin.id);
    CHECK(larder.match("our gin").ingredient == kind.id);
    CHECK(larder.match("our gin").quality == larder::MatchQuality::Remembered);
}

TEST_CASE("a name is remembered until it is forgotten", "[store]") {
    Book b;
    const auto gin = bottleOf("harbour gin 47", 47);
    b.book->saveIngredient(gin);
    b.book->rememberName("The Usual", gin.id);
    CHECK(b.book->larder().match("the usual").quality == larder::MatchQuality::Remembered);
    b.reopen();
    CHECK(b.book->larder().match("the usual").ingredient == gin.id);
    b.book->forgetName("THE usual");
    CHECK(b.book->larder().remembered().empty());
    b.reopen();
    CHECK(b.book->larder().match("the usual").quality == larder::MatchQuality::None);
    b.book->forgetName("never heard of"); // nothing to do, and no error
}

TEST_CASE("a revision pins the bottle that was poured and the facts it had", "[store]") {
    Book b;
    auto gin = bottleOf("harbour gin 47", 47);
    const auto other = bottleOf("harbour gin 40", 40);
    larder::Ingredient kind;
    kind.id = base::IngredientId::random();
    kind.name = "harbour gin";
    kind.houseBottle = gin.id;
    gin.kind = kind.id;
    b.book->saveIngredient(kind);
    b.book->saveIngredient(gin);
    b.book->saveIngredient(other);
    const auto draft = b.book->addDrink(drinkNamed("Ox Skerry"), sour(22, kind.id));
    const auto kept = b.book->keep(draft.id, "one");
    REQUIRE(kept);
    CHECK(kept->facts.pours.at(kind.id) == gin.id);
    CHECK(kept->facts.states.at(kind.id) == gin.facts.hash());

    kind.houseBottle = other.id;
    b.book->saveIngredient(kind);
    gin.facts.abvPercent = fact(41);
    b.book->saveIngredient(gin);
    const auto then = b.book->larderOf(*b.book->revision(kept->id));
    REQUIRE(then.poured(kind.id));
    CHECK(then.poured(kind.id)->id == gin.id);
    CHECK(then.poured(kind.id)->facts.abvPercent == fact(47));
    CHECK(b.book->larder().poured(kind.id)->id == other.id);
    CHECK(spec::evaluate(kept->spec, then, b.book->settings().rules) == kept->readings);
}

TEST_CASE("a revision is read again at the prices of its day", "[store]") {
    Book b;
    auto gin = bottleOf("harbour gin 47", 47);
    gin.packs = {{base::PackId::random(), {2100, {}}, 700.0, {}, {}, "2026-10-02"}};
    b.book->saveIngredient(gin);
    const auto draft = b.book->addDrink(drinkNamed("Ox Skerry"), sour(22, gin.id));
    b.clock.advanceMs(1000);
    const auto kept = b.book->keep(draft.id, "one");
    b.clock.advanceMs(1000);
    const auto before = gin.packs;
    gin.packs[0].price.minor = 2800;
    b.book->saveIngredient(gin);
    CHECK(b.book->larder().find(gin.id)->packs == gin.packs);
    CHECK(b.book->larderOf(*kept).find(gin.id)->packs == before);
}

TEST_CASE("summaries tell strength and differences and order", "[store]") {
    Book b;
    const auto gin = bottleOf("harbour gin 47", 47);
    b.book->saveIngredient(gin);
    auto later = drinkNamed("Zeal Point");
    const auto zeal = b.book->addDrink(later, sour(22, gin.id));
    const auto skerry = b.book->addDrink(drinkNamed("Ox Skerry"), sour(22, gin.id));
    auto binned = drinkNamed("A First Idea");
    binned.binned = true;
    b.book->addDrink(binned, sour(10));

    auto summaries = b.book->summaries();
    REQUIRE(summaries.size() == 3);
    CHECK(summaries[0].name == "Ox Skerry");
    CHECK(summaries[1].name == "Zeal Point");
    CHECK(summaries[2].binned);
    CHECK(summaries[0].draftDiffers);
    CHECK(summaries[0].revisions == 0);

    const auto kept = b.book->keep(skerry.id, "one");
    summaries = b.book->summaries();
    CHECK_FALSE(summaries[0].draftDiffers);
    CHECK(summaries[0].revisions == 1);
    CHECK(summaries[0].servedStrength == kept->readings[spec::Stage::Served][spec::Quantity::Strength]);
    CHECK(summaries[1].servedStrength == summaries[0].servedStrength); // the same spec, still a draft

    b.book->saveDraft(skerry.id, sour(60, gin.id));
    CHECK(b.book->summaries()[0].draftDiffers);
    CHECK(b.book->summaries()[0].servedStrength == summaries[0].servedStrength); // what is kept counts
    b.book->saveDraft(zeal.id, sour(60, gin.id));
    CHECK(b.book->summaries()[1].servedStrength ==
          spec::evaluate(sour(60, gin.id), b.book->larder(),
                         b.book->settings().rules)[spec::Stage::Served][spec::Quantity::Strength]);

    const auto second = b.book->keep(skerry.id, "two");
    auto drink = *b.book->drink(skerry.drink);
    CHECK(b.book->summaries()[0].servedStrength ==
          second->readings[spec::Stage::Served][spec::Quantity::Strength]);
    CHECK_FALSE(b.book->summaries()[0].hasHouse);
    drink.house = kept->id;
    b.book->saveDrink(drink);
    CHECK(b.book->summaries()[0].servedStrength == summaries[0].servedStrength);
    CHECK(b.book->summaries()[0].hasHouse);
    CHECK_FALSE(b.book->summaries()[1].hasHouse);
}

TEST_CASE("what changes nothing writes nothing", "[store]") {
    Book b;
    auto gin = bottleOf("harbour gin 47", 47);
    gin.packs = {{base::PackId::random(), {2100, {}}, 700.0, {}, {}, "2026-10-02"}};
    b.book->saveIngredient(gin);
    const auto draft = b.book->addDrink(drinkNamed("Ox Skerry"), sour(22, gin.id));
    REQUIRE(b.book->keep(draft.id, "one"));
    const auto person = b.book->addPerson("M. Halloran", "MH");
    b.book->rememberName("Our Gin", gin.id);
    // Every write goes to the log: while its bytes stay the same, nothing was written.
    const auto logBytes = [&] {
        std::ifstream log(b.path + "-wal", std::ios::binary);
        return std::string(std::istreambuf_iterator<char>(log), {});
    };
    const auto version = b.book->draft(draft.id)->version;
    const auto before = logBytes();
    b.clock.advanceMs(5000);
    b.book->saveDraft(draft.id, sour(22, gin.id));
    b.book->saveDrink(*b.book->drink(draft.drink));
    b.book->saveIngredient(gin);
    b.book->saveSettings(b.book->settings());
    b.book->renamePerson(person, "M. Halloran", "MH");
    b.book->rememberName("our  GIN", gin.id);
    CHECK_FALSE(b.book->keep(draft.id, "nothing"));
    CHECK((logBytes() == before));
    CHECK(b.book->draft(draft.id)->version == version);
    b.book->saveDraft(draft.id, sour(23, gin.id));
    CHECK((logBytes() != before));
}

TEST_CASE("a draft is on the disk after flush", "[store]") {
    Book b;
    const auto draft = b.book->addDrink(drinkNamed("Ox Skerry"), sour(22));
    b.book->saveDraft(draft.id, sour(24));
    b.book->flush();
    // The main file alone, without its log, now holds the edit.
    const std::string alone = b.folder.file("alone.stillroom");
    std::filesystem::copy_file(b.path, alone);
    const auto copy = Workbook::open(alone, OpenMode::ReadOnly, b.clock);
    CHECK(copy->draft(draft.id)->spec == sour(24));
}

TEST_CASE("a draft without an end does not let the log grow without one", "[store]") {
    Book b;
    const auto draft = b.book->addDrink(drinkNamed("Ox Skerry"), sour(22));
    for (int i = 0; i < 6000; ++i)
        b.book->saveDraft(draft.id, sour(20 + i % 7));
    CHECK(std::filesystem::file_size(b.path + "-wal") < 20'000'000);
    CHECK(b.book->draft(draft.id)->spec == sour(20 + 5999 % 7));
}

TEST_CASE("a copy is a whole workbook and leaves the first one open", "[store]") {
    Book b;
    const auto draft = b.book->addDrink(drinkNamed("Ox Skerry"), sour(22));
    REQUIRE(b.book->keep(draft.id, "one"));
    const std::string target = b.folder.file("copy.stillroom");
    b.book->saveCopy(target);
    b.book->saveDraft(draft.id, sour(30));
    {
        const auto copy = Workbook::open(target, OpenMode::ReadWrite, b.clock);
        CHECK(copy->draft(draft.id)->spec == sour(22));
        CHECK(copy->revisions(draft.drink) == b.book->revisions(draft.drink));
        CHECK(storeErrorOf([&] { b.book->saveCopy(target); }) == StoreErrorKind::AlreadyExists);
    }
    b.book->saveCopy(target); // closed again: replaced by the newer state
    CHECK(Workbook::open(target, OpenMode::ReadOnly, b.clock)->draft(draft.id)->spec == sour(30));
    CHECK(storeErrorOf([&] { b.book->saveCopy(b.path); }) == StoreErrorKind::AlreadyExists);
    CHECK(storeErrorOf([&] { b.book->saveCopy(b.folder.file("no/such/folder")); }) == StoreErrorKind::Io);
    CHECK(store::check(target).problems.empty());
}

TEST_CASE("what is not there is named, and nothing changes", "[store]") {
    Book b;
    CHECK_FALSE(b.book->drink(base::DrinkId::random()));
    CHECK_FALSE(b.book->draft(base::DraftId::random()));
    CHECK_FALSE(b.book->revision(base::RevisionId::random()));
    CHECK_FALSE(b.book->factState(std::string(64, 'a')));
    CHECK(b.book->revisions(base::DrinkId::random()).empty());
    using base::DraftId;
    CHECK(storeErrorOf([&] { b.book->saveDraft(DraftId::random(), sour(1)); }) == StoreErrorKind::NotFound);
    CHECK(storeErrorOf([&] { b.book->keep(DraftId::random(), ""); }) == StoreErrorKind::NotFound);
    CHECK(storeErrorOf([&] { b.book->branch(base::RevisionId::random()); }) == StoreErrorKind::NotFound);
    CHECK(storeErrorOf([&] { b.book->saveDrink(drinkNamed("nobody")); }) == StoreErrorKind::NotFound);
    CHECK(storeErrorOf([&] { b.book->renamePerson(base::PersonId::random(), "", ""); }) ==
          StoreErrorKind::NotFound);
}
