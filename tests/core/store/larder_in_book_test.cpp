#include "tests/core/store/store_support.h"
#include "tests/support/catch.h"

#include <algorithm>

using namespace stillroom;
using namespace stillroom::test;
using store::OpenMode;
using store::Workbook;

namespace {

const base::FixedClock kClock{kEvening};

larder::Ingredient found(const Workbook& book, base::IngredientId id) {
    const auto larder = book.larder();
    const larder::Ingredient* ingredient = larder.find(id);
    REQUIRE(ingredient != nullptr);
    return *ingredient;
}

larder::Ingredient limes() {
    larder::Ingredient ingredient;
    ingredient.id = base::IngredientId::random();
    ingredient.name = "limes";
    larder::Pack crate;
    crate.id = base::PackId::random();
    crate.price = {1250, {}};
    crate.forPieces = 48;
    crate.supplier = "the harbour market";
    crate.taxPercent = *quantity::Rational::make(135, 10);
    ingredient.packs = {crate};
    ingredient.usableShare = *quantity::Rational::make(19, 20);
    return ingredient;
}

} // namespace

TEST_CASE("what a purchase is worth and what stands on the shelf come back as saved", "[store]") {
    TempFolder folder;
    const std::string path = folder.file("book.stillroom");
    const auto fruit = limes();
    auto juice = bottleOf("lime juice, pressed", 0);
    juice.maker = "pressed here";
    juice.gotFrom = larder::GotFrom{fruit.id, larder::PackUnit::Piece, larder::PackUnit::Ml,
                                    *quantity::Rational::make(57, 2), 1};
    juice.stock = {larder::OnShelf::Low, 350.5, larder::PackUnit::Ml, true, "2026-11-24"};
    juice.keepDays = 1;
    juice.facts.acidGPerL =
        larder::Fact{45.9, 39, 52.8, larder::SourceKind::Measured, "titrated", "2026-11-24"};
    {
        const auto book = Workbook::create(path, lowLamp(), kClock);
        book->saveIngredients({fruit, juice});
    }
    const auto book = Workbook::open(path, OpenMode::ReadWrite, kClock);
    CHECK(found(*book, fruit.id) == fruit);
    CHECK(found(*book, juice.id) == juice);
    auto changed = juice;
    changed.gotFrom.reset();
    changed.stock = {};
    changed.keepDays.reset();
    changed.maker.clear();
    book->saveIngredient(changed);
    CHECK(found(*book, juice.id) == changed);
}

TEST_CASE("a lot in use lends its figures and a revision pins it", "[store]") {
    TempFolder folder;
    const std::string path = folder.file("book.stillroom");
    auto book = Workbook::create(path, lowLamp(), kClock);
    auto gin = bottleOf("harbour gin 47", 47);
    larder::Lot lot;
    lot.id = base::LotId::random();
    lot.ingredient = gin.id;
    lot.on = "2026-11-20";
    lot.useBy = "2027-01-01";
    lot.abvPercent = larder::Fact{46.2, 46, 46.4, larder::SourceKind::Measured, "hydrometer", "2026-11-20"};
    lot.gotMl = 940;
    lot.note = "the last of the cask";
    gin.lotInUse = lot.id;
    book->saveIngredient(gin);
    book->saveLot(lot);
    CHECK(book->larder().lots(gin.id) == std::vector<larder::Lot>{lot});
    CHECK(book->larder().poured(gin.id)->facts.abvPercent->typical == 46.2);
    const auto draft = book->addDrink(drinkNamed("Ox Skerry"), sour(22, gin.id));
    const auto kept = book->keep(draft.id, "with the cask");
    REQUIRE(kept);
    CHECK(kept->facts.lots.at(gin.id) == lot.id);
    CHECK(*book->revision(kept->id) == *kept);
    lot.usedUp = true;
    book->saveLot(lot);
    gin.lotInUse.reset();
    book->saveIngredient(gin);
    CHECK(book->larder().poured(gin.id)->facts.abvPercent->typical == 47);
    // The revision is read as it was, with the figure the lot lent.
    CHECK(book->larderOf(*kept).poured(gin.id)->facts.abvPercent->typical == 46.2);
    book.reset();
    for (const auto& problem : store::check(path).problems)
        FAIL_CHECK(problem.where << ": " << problem.what);
}

TEST_CASE("an edit of the larder happens whole or not at all", "[store]") {
    TempFolder folder;
    auto book = Workbook::create(folder.file("book.stillroom"), lowLamp(), kClock);
    auto gin = bottleOf("harbour gin 47", 47);
    larder::Lot lot;
    lot.id = base::LotId::random();
    lot.ingredient = gin.id;
    lot.on = "2026-11-20";
    lot.abvPercent = larder::Fact::single(46.2, larder::SourceKind::Measured, "hydrometer");
    gin.lotInUse = lot.id;
    book->changeLarder({{gin}, {}, {lot}, {}});
    CHECK(book->larder().poured(gin.id)->facts.abvPercent->typical == 46.2);
    // What nobody knows cannot go to the bin: then the new price and the lot were not saved either.
    auto dearer = gin;
    dearer.maker = "another house";
    auto older = lot;
    older.note = "changed";
    CHECK(storeErrorOf([&] { book->changeLarder({{dearer}, {base::IngredientId::random()}, {older}, {}}); }));
    CHECK(*book->larder().find(gin.id) == gin);
    CHECK(book->larder().lots(gin.id) == std::vector<larder::Lot>{lot});
    // Out, and back by the same call that saves it.
    book->changeLarder({{}, {gin.id}, {}, {}});
    CHECK(book->binnedIngredients().size() == 1);
    book->changeLarder({{gin}, {}, {}, {}});
    CHECK(book->binnedIngredients().empty());
}

TEST_CASE("a lot that was added and taken back is gone unless a revision was kept with it", "[store]") {
    TempFolder folder;
    const std::string path = folder.file("book.stillroom");
    auto book = Workbook::create(path, lowLamp(), kClock);
    auto gin = bottleOf("harbour gin 47", 47);
    larder::Lot lot;
    lot.id = base::LotId::random();
    lot.ingredient = gin.id;
    lot.on = "2026-11-20";
    lot.abvPercent = larder::Fact::single(46.2, larder::SourceKind::Measured, "hydrometer");
    auto pouring = gin;
    pouring.lotInUse = lot.id;
    book->changeLarder({{pouring}, {}, {lot}, {}});
    book->changeLarder({{gin}, {}, {}, {lot.id}});
    CHECK(book->larder().lots(gin.id).empty());
    CHECK(book->larder().poured(gin.id)->facts.abvPercent->typical == 47);
    book->changeLarder({{pouring}, {}, {lot}, {}}); // and done again
    const auto draft = book->addDrink(drinkNamed("Ox Skerry"), sour(22, gin.id));
    const auto kept = book->keep(draft.id, "with the cask");
    REQUIRE(kept);
    book->changeLarder({{gin}, {}, {}, {lot.id}});
    REQUIRE(book->larder().lots(gin.id).size() == 1);
    CHECK(book->larder().lots(gin.id)[0].usedUp);
    CHECK(book->larderOf(*kept).poured(gin.id)->facts.abvPercent->typical == 46.2);
    book.reset();
    for (const auto& problem : store::check(path).problems)
        FAIL_CHECK(problem.where << ": " << problem.what);
}

TEST_CASE("exchange rates are saved with the settings", "[store]") {
    TempFolder folder;
    const std::string path = folder.file("book.stillroom");
    const auto book = Workbook::create(path, lowLamp(), kClock);
    auto settings = book->settings();
    const auto gbp = *quantity::Currency::fromCode("GBP");
    settings.rules.rates = {
        {gbp, settings.rules.currency, *quantity::Rational::make(117, 100), "2026-11-01"},
        {gbp, settings.rules.currency, *quantity::Rational::make(116, 100), "2026-11-20"}};
    settings.scaleStepG = 1;
    book->saveSettings(settings);
    CHECK(book->settings().rules.rates == settings.rules.rates);
    CHECK(book->settings().scaleStepG == 1);
    settings.rules.rates.erase(settings.rules.rates.begin());
    book->saveSettings(settings);
    CHECK(book->settings().rules.rates == settings.rules.rates);
}

TEST_CASE("uses are found for drafts and revisions by line by alternative and by bottle", "[store]") {
    TempFolder folder;
    const auto book = Workbook::create(folder.file("book.stillroom"), lowLamp(), kClock);
    const auto gin = bottleOf("harbour gin 47", 47);
    larder::Ingredient kind;
    kind.id = base::IngredientId::random();
    kind.name = "harbour gin";
    kind.houseBottle = gin.id;
    const auto other = bottleOf("sloe spirit", 40);
    book->saveIngredients({gin, kind, other});
    auto spec = sour(22, kind.id);
    const auto draft = book->addDrink(drinkNamed("Ox Skerry"), spec);
    const auto kept = book->keep(draft.id, "first");
    REQUIRE(kept);
    CHECK(book->usesOf(kind.id) ==
          std::vector<store::IngredientUse>{{draft.drink, draft.id, {}}, {draft.drink, {}, kept->id}});
    CHECK(book->usesOf(gin.id) == std::vector<store::IngredientUse>{{draft.drink, {}, kept->id}});
    spec.lines[0].ingredient.reset();
    spec.lines[0].alternatives = {{spec.lines[0].poured, "sloe spirit", other.id}};
    book->saveDraft(draft.id, spec);
    CHECK(book->usesOf(other.id) == std::vector<store::IngredientUse>{{draft.drink, draft.id, {}}});
    CHECK(book->usesOf(kind.id) == std::vector<store::IngredientUse>{{draft.drink, {}, kept->id}});
}

TEST_CASE("an ingredient in the bin is out of the larder and comes back whole", "[store]") {
    TempFolder folder;
    const auto book = Workbook::create(folder.file("book.stillroom"), lowLamp(), kClock);
    const auto gin = bottleOf("harbour gin 47", 47);
    book->saveIngredient(gin);
    const auto draft = book->addDrink(drinkNamed("Ox Skerry"), sour(22, gin.id));
    const auto kept = book->keep(draft.id, "first");
    REQUIRE(kept);
    book->binIngredient(gin.id, true);
    CHECK(book->larder().find(gin.id) == nullptr);
    REQUIRE(book->binnedIngredients().size() == 1);
    CHECK(book->binnedIngredients()[0] == gin);
    CHECK(book->larderOf(*kept).poured(gin.id)->facts == gin.facts); // history keeps its facts
    book->binIngredient(gin.id, false);
    CHECK(*book->larder().find(gin.id) == gin);
    CHECK(storeErrorOf([&] { book->binIngredient(base::IngredientId::random(), true); }) ==
          store::StoreErrorKind::NotFound);
}

TEST_CASE("many ingredients are saved together or not at all", "[store]") {
    TempFolder folder;
    const auto book = Workbook::create(folder.file("book.stillroom"), lowLamp(), kClock);
    auto first = bottleOf("harbour gin 47", 47);
    auto second = bottleOf("sloe spirit", 40);
    book->saveIngredients({first, second});
    first.name = "harbour gin, new label";
    second.madeBy = base::DrinkId::random(); // no such drink: the reference is refused
    CHECK(storeErrorOf([&] { book->saveIngredients({first, second}); }));
    CHECK(found(*book, first.id).name == "harbour gin 47");
}

TEST_CASE("the revisions whose dilution was measured are found without the others", "[store]") {
    TempFolder folder;
    const auto book = Workbook::create(folder.file("book.stillroom"), lowLamp(), kClock);
    const auto draft = book->addDrink(drinkNamed("Ox Skerry"), sour(22));
    REQUIRE(book->keep(draft.id, "predicted"));
    auto spec = sour(21);
    spec.method.dilution = spec::DilutionEntry{0.4, spec::DilutionOrigin::Typed, "\"origin\":\"measured\""};
    book->saveDraft(draft.id, spec);
    REQUIRE(book->keep(draft.id, "typed, with a note that only looks measured"));
    spec.method.dilution->origin = spec::DilutionOrigin::Measured;
    book->saveDraft(draft.id, spec);
    REQUIRE(book->keep(draft.id, "weighed"));
    CHECK(book->measuredSpecs() == std::vector<spec::Spec>{spec});
}
