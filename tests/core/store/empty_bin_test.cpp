#include "core/store/empty_bin.h"

#include "tests/core/store/store_support.h"
#include "tests/core/tasting/photo_support.h"
#include "tests/support/catch.h"

#include <sys/stat.h>

#include <fstream>
#include <iterator>

using namespace stillroom;
using namespace stillroom::test;
using store::StillNeeded;

namespace {

struct Binning {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    std::string path = folder.file("low-lamp.stillroom");
    std::unique_ptr<store::Workbook> book = store::Workbook::create(path, lowLamp(), clock);

    history::Revision keptDrink(const std::string& name, int ml) {
        const auto draft = book->addDrink(drinkNamed(name), sour(ml));
        return *book->keep(draft.id, "of " + name);
    }
    void bin(base::DrinkId id) {
        auto drink = *book->drink(id);
        drink.binned = true;
        book->saveDrink(drink);
    }
    store::EmptiedBin empty() {
        book.reset();
        const auto emptied = store::emptyBin(path, clock);
        CHECK(store::check(path).problems.empty());
        book = store::Workbook::open(path, store::OpenMode::ReadWrite, clock);
        return emptied;
    }
};

std::string contentOf(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

} // namespace

TEST_CASE("emptying the bin writes a new file and keeps the old one", "[store][bin]") {
    Binning b;
    const auto stays = b.keptDrink("Ox Skerry", 22);
    const auto goes = b.keptDrink("Gannet Stack", 20);
    tasting::Tasting said;
    said.revision = goes.id;
    said.taster = b.book->addPerson("M. Halloran", "MH");
    said.note = "a secret between us";
    said = b.book->addTasting(said);
    REQUIRE(b.book->attachPhoto(said.id, jpegOf(50, 40)));
    const auto onBoth = b.book->attachPhoto(goes.id, jpegOf(60, 40));
    REQUIRE(b.book->attachPhoto(stays.id, jpegOf(60, 40)));
    const auto spare = b.book->branch(stays.id, "with honey");
    b.book->binDraft(spare.id, true);
    b.bin(goes.drink);
    b.book->search({"warm", {}});

    const auto emptied = b.empty();
    CHECK(emptied.drinks == 1);
    CHECK(emptied.drafts == 2);
    CHECK(emptied.revisions == 1);
    CHECK(emptied.tastings == 1);
    CHECK(emptied.photos == 1);
    CHECK(emptied.needed.empty());
    CHECK(b.book->summaries().size() == 1);
    CHECK(*b.book->revision(stays.id) == stays);
    CHECK_FALSE(b.book->revision(goes.id));
    CHECK(b.book->photosOf(stays.id).size() == 1);
    CHECK(b.book->bin().drinks.empty());
    CHECK(b.book->bin().drafts.empty());
    CHECK(b.book->search({"gannet", {}}).hits.empty());
    CHECK(b.book->search({"skerry", {}}).hits.size() == 1);
    b.book.reset();
    CHECK(contentOf(b.path).find("a secret between us") == std::string::npos);

    CHECK(emptied.backup == b.path + "-before-emptying");
    CHECK(store::check(emptied.backup).problems.empty());
    const auto before = store::Workbook::open(emptied.backup, store::OpenMode::ReadWrite, b.clock);
    CHECK(*before->revision(goes.id) == goes);
    CHECK(before->tastings(goes.id).at(0).note == "a secret between us");
    (void)onBoth;
}

TEST_CASE("after the bin was emptied history is as unchangeable as before", "[store][bin]") {
    Binning b;
    const auto stays = b.keptDrink("Ox Skerry", 22);
    b.bin(b.keptDrink("Gannet Stack", 20).drink);
    b.empty();
    b.book.reset();
    RawFile raw(b.path);
    CHECK_THROWS_WITH(raw.run("UPDATE revision SET reason = 'x'"), Catch::Contains("never changes"));
    CHECK_THROWS_WITH(raw.run("DELETE FROM revision"), Catch::Contains("never disappears"));
    CHECK(raw.text("SELECT count(*) FROM removed WHERE sort = 'drink'") == "1");
    CHECK(raw.text("SELECT count(*) FROM removed WHERE sort = 'draft'") == "1");
}

TEST_CASE("an empty bin leaves the file as it is", "[store][bin]") {
    Binning b;
    b.keptDrink("Ox Skerry", 22);
    b.book.reset();
    const std::string before = contentOf(b.path);
    const auto emptied = store::emptyBin(b.path, b.clock);
    CHECK(emptied.backup.empty());
    CHECK(contentOf(b.path) == before);
    CHECK_FALSE(std::filesystem::exists(b.path + "-emptied"));
    CHECK_FALSE(std::filesystem::exists(b.path + "-before-emptying"));
}

TEST_CASE("a binned preparation that a kept drink was made with stays and says why", "[store][bin]") {
    Binning b;
    auto syrup = drinkNamed("honey syrup");
    syrup.form = history::DrinkForm::Preparation;
    const auto syrupDraft = b.book->addDrink(syrup, sour(20));
    b.book->keep(syrupDraft.id, "one to one");
    larder::Ingredient poured;
    poured.id = base::IngredientId::random();
    poured.sort = larder::IngredientSort::Preparation;
    poured.name = "honey syrup";
    poured.madeBy = syrupDraft.drink;
    b.book->saveIngredient(poured);
    const auto draft = b.book->addDrink(drinkNamed("Ox Skerry"), sour(22, poured.id));
    const auto kept = *b.book->keep(draft.id, "with it");
    REQUIRE(kept.facts.preparations.count(poured.id) == 1);
    b.book->binIngredient(poured.id, true);
    b.bin(syrupDraft.drink);

    auto emptied = b.empty();
    CHECK(emptied.drinks == 0);
    CHECK(emptied.ingredients == 0);
    CHECK(emptied.backup.empty());
    REQUIRE(emptied.needed.size() == 2);
    CHECK(emptied.needed[0] == StillNeeded{"honey syrup", StillNeeded::By::Revision, "Ox Skerry", 1});
    CHECK(emptied.needed[1] == StillNeeded{"honey syrup", StillNeeded::By::Draft, "Ox Skerry", 0});
    CHECK(b.book->drink(syrupDraft.drink).has_value());

    SECTION("with the drink in the bin as well all of it goes") {
        b.bin(draft.drink);
        emptied = b.empty();
        CHECK(emptied.drinks == 2);
        CHECK(emptied.ingredients == 1);
        CHECK(emptied.needed.empty());
        CHECK(b.book->summaries().empty());
    }
}

TEST_CASE("a drink that a panel tasted stays until the panel is in the bin too", "[store][bin]") {
    Binning b;
    tasting::PanelDesign design;
    design.kind = tasting::PanelKind::PairedPreference;
    design.products = {b.keptDrink("Ox Skerry", 22).id};
    const auto goes = b.keptDrink("Gannet Stack", 20);
    design.products.push_back(goes.id);
    design.tasters = {b.book->addPerson("M. Halloran", "MH")};
    const auto panel = b.book->addPanel("which", *tasting::designPanel(design)).value();
    b.bin(goes.drink);
    auto emptied = b.empty();
    CHECK(emptied.drinks == 0);
    REQUIRE(emptied.needed.size() == 1);
    CHECK(emptied.needed[0] == StillNeeded{"Gannet Stack", StillNeeded::By::Panel, "which", 0});
    b.book->binPanel(panel, true);
    emptied = b.empty();
    CHECK(emptied.drinks == 1);
    CHECK(emptied.panels == 1);
    CHECK(b.book->panels().empty());
}

TEST_CASE("a drink keeps the name of the one it came after", "[store][bin]") {
    Binning b;
    const auto goes = b.keptDrink("Gannet Stack", 20);
    auto child = drinkNamed("Little Gannet");
    child.after.drink = goes.drink;
    child.after.revision = goes.id;
    const auto draft = b.book->addDrink(child, sour(18));
    b.bin(goes.drink);
    CHECK(b.empty().drinks == 1);
    const auto after = b.book->drink(draft.drink)->after;
    CHECK_FALSE(after.drink);
    CHECK_FALSE(after.revision);
    CHECK(after.source.work == "Gannet Stack");
}

TEST_CASE("an open workbook and one that cannot be written are left alone", "[store][bin]") {
    Binning b;
    b.bin(b.keptDrink("Gannet Stack", 20).drink);
    CHECK_THROWS_AS(store::emptyBin(b.path, b.clock), store::StoreError); // held by this very process
    CHECK(b.book->bin().drinks.size() == 1);
    b.book.reset();
    REQUIRE(chmod(b.path.c_str(), 0444) == 0);
    CHECK_THROWS_AS(store::emptyBin(b.path, b.clock), store::StoreError);
    REQUIRE(chmod(b.path.c_str(), 0644) == 0);
    CHECK_FALSE(std::filesystem::exists(b.path + "-emptied"));
    CHECK(store::check(b.path).problems.empty());
}

TEST_CASE("a second emptying does not write over the first backup", "[store][bin]") {
    Binning b;
    b.keptDrink("Ox Skerry", 22);
    b.bin(b.keptDrink("Gannet Stack", 20).drink);
    const auto first = b.empty();
    b.bin(b.keptDrink("Gannet Rock", 20).drink);
    const auto second = b.empty();
    CHECK(second.backup == b.path + "-before-emptying-2");
    CHECK(std::filesystem::exists(first.backup));
    CHECK(std::filesystem::exists(second.backup));
}
