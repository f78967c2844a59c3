#include "core/store/schema.h"
#include "tests/core/store/store_support.h"
#include "tests/core/tasting/photo_support.h"
#include "tests/support/catch.h"

#include <cstdlib>
#include <fstream>
#include <sstream>

using namespace stillroom;
using namespace stillroom::test;
using store::OpenMode;
using store::OpenOutcome;
using store::Workbook;

// A workbook of every schema version that ever was stands in fixtures/, as the text of a SQLite dump, and
// must open in every later program. To add one when the schema version is raised:
//     STILLROOM_FIXTURE=book.stillroom core_tests "a fixture for the present schema is written where asked"
//     sqlite3 book.stillroom .dump > tests/core/store/fixtures/v0002.sql
// with the program as it was before the first file of that version left the house. An existing one never
// changes.

namespace {

const base::FixedClock kClock{kEvening};

spec::Spec everyCorner() {
    spec::Spec spec = sour(22);
    spec.lines[0].poured.amount = quantity::Amount::exact(*quantity::Rational::make(3, 4));
    spec.lines[0].poured.measure = quantity::Measure::FlozUs;
    spec.lines[1].poured.amount = quantity::Amount::range(2, 3);
    spec.lines[1].poured.measure = quantity::Measure::Dash;
    spec.lines[1].qualifier = spec::Qualifier::About;
    spec.lines[1].alternatives = {{spec.lines[2].poured, "cane syrup", std::nullopt}};
    spec.lines[2].poured.multiplier = 2;
    spec.lines[2].retained = spec.lines[0].poured;
    spec.lines[2].role = spec::Role::Rinse;
    spec.lines[2].optional = true;
    spec.lines[2].note = "“warm”, not hot";
    spec.method.dilution = spec::DilutionEntry{0.31, spec::DilutionOrigin::Measured, "weighed"};
    spec.method.seconds = *quantity::Rational::make(25, 2);
    spec.serves = 3;
    spec.partTargetMl = 90.5;
    return spec;
}

// From schema 3 on.
void writeTrail(Workbook& book, const history::Revision& first, const history::Revision& second,
                tasting::Tasting& tasting) {
    auto drink = *book.drink(first.drink);
    drink.published = second.id;
    drink.tags = {"winter"};
    drink.after.source = {"M. Halloran", "the Low Lamp", "2019", "Nine Lights"};
    book.saveDrink(drink);
    book.branch(first.id, "with honey");
    book.setRevisionAside(second.id, true, "too much");
    tasting.circumstances.place = "the back bar";
    tasting.circumstances.glassAgeMinutes = 3;
    book.attachPhoto(second.id, jpegOf(40, 30), "in the window");
    tasting::PanelDesign design;
    design.products = {first.id, second.id};
    design.tasters = {tasting.taster};
    design.seed = 9;
    const auto panel = book.addPanel("which", *tasting::designPanel(design)).value();
    REQUIRE(book.startPouring(panel));
    tasting::Answer answer;
    answer.note = "the second is the odd one";
    REQUIRE(book.addAnswer(panel, tasting.taster, answer));
    REQUIRE(book.closePanel(panel));
}

void writeBook(const std::string& path) {
    const auto book = Workbook::create(path, lowLamp(), kClock);
    auto gin = bottleOf("harbour gin 47", 47);
    gin.aliases = {"HG"};
    gin.packs = {{base::PackId::random(), {2150, {}}, 700.0, {}, {}, "2026-10-02"}};
    gin.packs[0].supplier = "the harbour market"; // from schema 2 on
    gin.stock.state = larder::OnShelf::Low;
    larder::Lot lot;
    lot.id = base::LotId::random();
    lot.ingredient = gin.id;
    lot.on = "2026-10-02";
    larder::Ingredient kind;
    kind.id = base::IngredientId::random();
    kind.name = "harbour gin";
    kind.houseBottle = gin.id;
    gin.kind = kind.id;
    book->saveIngredient(kind);
    book->saveIngredient(gin);
    book->saveLot(lot);
    book->rememberName("Our Gin", kind.id);

    const auto draft = book->addDrink(drinkNamed("Ox Skerry"), sour(22, kind.id));
    const auto first = book->keep(draft.id, "a first try");
    book->saveDraft(draft.id, everyCorner());
    const auto second = book->keep(draft.id, "everything at once");
    auto drink = *book->drink(draft.drink);
    drink.house = first->id;
    book->saveDrink(drink);
    book->saveDraft(draft.id, sour(19, kind.id));
    auto binned = drinkNamed("A First Idea");
    binned.form = history::DrinkForm::Preparation;
    binned.binned = true;
    book->addDrink(binned, sour(10));

    tasting::Tasting tasting;
    tasting.revision = second->id;
    tasting.taster = book->addPerson("M. Halloran", "MH");
    tasting.scores = tasting::Scores::ofFirst({9, std::nullopt, 3, 15, 0});
    tasting.note = "too much of everything";
    tasting.verdict = tasting::Verdict::Change;
    tasting.amends = book->addTasting(tasting).id;
    tasting.verdict = tasting::Verdict::Drop;
    if (store::schemaMigrations().back().version >= 3) writeTrail(*book, *first, *second, tasting);
    book->addTasting(tasting);
}

void checkTrail(const Workbook& book, const history::Revision& first, const history::Revision& second) {
    const auto drink = *book.drink(first.drink);
    CHECK(drink.published == second.id);
    CHECK(drink.tags == std::vector<std::string>{"winter"});
    CHECK(drink.after.source == history::Source{"M. Halloran", "the Low Lamp", "2019", "Nine Lights"});
    CHECK(book.drafts(first.drink).at(1).name == "with honey");
    CHECK(book.setAside(first.drink).at(0).why == "too much");
    CHECK(book.tastings(second.id).at(0).circumstances.glassAgeMinutes == 3);
    CHECK(book.photoBytes(book.photosOf(second.id).at(0).info.hash) == jpegOf(40, 30));
    const auto panel = *book.panel(book.panelsOf(first.id).at(0).id);
    CHECK(panel.state == tasting::PanelState::Closed);
    CHECK(panel.answers.at(0).note == "the second is the odd one");
}

std::string fixturePath(int version) {
    const std::string number = std::to_string(10000 + version).substr(1);
    return STILLROOM_SOURCE_DIR "/tests/core/store/fixtures/v" + number + ".sql";
}

void buildFixture(int version, const std::string& path) {
    std::ifstream in(fixturePath(version));
    REQUIRE(in);
    std::ostringstream dump;
    dump << in.rdbuf();
    std::ofstream(path).flush();
    RawFile raw(path);
    raw.run(dump.str());
    raw.run("PRAGMA application_id = " + std::to_string(store::kApplicationId));
    raw.run("PRAGMA user_version = " + std::to_string(version));
}

} // namespace

TEST_CASE("a fixture for the present schema is written where asked", "[.fixture]") {
    const char* path = std::getenv("STILLROOM_FIXTURE");
    REQUIRE(path != nullptr);
    writeBook(path);
}

TEST_CASE("every schema version has a workbook that still opens and is whole", "[store]") {
    const auto& migrations = store::schemaMigrations();
    for (const auto& migration : migrations) {
        CAPTURE(migration.version);
        TempFolder folder;
        const std::string path = folder.file("old.stillroom");
        buildFixture(migration.version, path);
        {
            const auto book = Workbook::open(path, OpenMode::ReadWrite, kClock);
            const bool current = migration.version == migrations.back().version;
            CHECK(book->outcome() == (current ? OpenOutcome::Current : OpenOutcome::Upgraded));
            const auto summaries = book->summaries();
            REQUIRE(summaries.size() == 2);
            CHECK(summaries[0].name == "Ox Skerry");
            CHECK(summaries[0].draftDiffers);
            CHECK(summaries[1].binned);
            CHECK(summaries[1].form == history::DrinkForm::Preparation);
            const auto revisions = book->revisions(summaries[0].id);
            REQUIRE(revisions.size() == 2);
            CHECK(revisions[1].spec == everyCorner());
            CHECK(revisions[1].parent == revisions[0].id);
            CHECK(book->drink(summaries[0].id)->house == revisions[0].id);
            const auto kind = book->larder().match("our gin").ingredient;
            CHECK(revisions[0].spec == sour(22, kind));
            CHECK(book->drafts(summaries[0].id).at(0).spec == sour(19, kind));
            REQUIRE(book->larder().poured(kind));
            CHECK(book->larder().poured(kind)->packs.at(0).price.minor == 2150);
            CHECK(book->larder().poured(kind)->facts.abvPercent == fact(47));
            CHECK(book->usesOf(kind).size() ==
                  (migration.version >= 3 ? 3 : 2)); // drafts, and the first revision
            if (migration.version >= 2) {
                const auto* bottle = book->larder().poured(kind);
                CHECK(bottle->packs.at(0).supplier == "the harbour market");
                CHECK(bottle->stock.state == larder::OnShelf::Low);
                CHECK(book->larder().lots(bottle->id).at(0).on == "2026-10-02");
            }
            if (migration.version >= 3) checkTrail(*book, revisions[0], revisions[1]);
            const auto tastings = book->tastings(revisions[1].id);
            REQUIRE(tastings.size() == 1);
            CHECK(tastings[0].verdict == tasting::Verdict::Drop);
            CHECK(tastings[0].scores.of("bitter") == tasting::Score{15, tasting::ScaleKind::FifteenPoint});
            CHECK_FALSE(tastings[0].scores.of("sour"));
        }
        for (const auto& problem : store::check(path).problems)
            FAIL_CHECK(problem.where << ": " << problem.what);
    }
}
