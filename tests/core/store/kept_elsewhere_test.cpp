#include "core/store/book_export.h"
#include "core/store/book_import.h"
#include "core/store/sample_book.h"
#include "tests/core/store/store_support.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using store::Workbook;

namespace {

base::DrinkId drinkCalled(const Workbook& book, const std::string& name) {
    for (const auto& summary : book.summaries())
        if (summary.name == name) return summary.id;
    FAIL("no drink " << name);
    return {};
}

double servedStrength(const history::Revision& revision) {
    return revision.readings[spec::Stage::Served][spec::Quantity::Strength].value;
}

spec::Spec shaken(base::IngredientId gin, base::IngredientId syrup, int ml) {
    spec::Spec spec;
    spec.lines = {line("harbour gin", ml, gin), line("lamp syrup", 20, syrup)};
    spec.method.technique = spec::Technique::Shake;
    spec.method.text = "Shake with ice, strain.";
    return spec;
}

std::unique_ptr<Workbook> putElsewhere(const TempFolder& folder, const std::string& text,
                                       const base::Clock& clock) {
    const auto read = exchange::bookFromJson(text);
    if (!read) FAIL(read.error());
    const auto path = folder.file("elsewhere.stillroom");
    store::createBook(path, *read);
    for (const auto& problem : store::check(path).problems)
        FAIL_CHECK(problem.where << ": " << problem.what);
    return Workbook::open(path, store::OpenMode::ReadWrite, clock);
}

} // namespace

TEST_CASE("a book put in elsewhere shows every revision as it was kept", "[store][export][kept]") {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    const auto book = Workbook::create(folder.file("here.stillroom"), lowLamp(), clock);
    auto gin = bottleOf("harbour gin", 47);
    book->saveIngredient(gin);

    // A syrup made here, kept twice, and a drink kept with each.
    auto house = drinkNamed("lamp syrup");
    house.form = history::DrinkForm::Preparation;
    spec::Spec made;
    made.lines = {line("water", 500), line("white sugar", 500)};
    const auto larder = book->larder();
    for (auto& part : made.lines)
        part.ingredient = larder.match(part.name).ingredient;
    made.lines[1].poured = {quantity::Amount::exact(500), quantity::Measure::G};
    made.method.dilution = spec::DilutionEntry{0, spec::DilutionOrigin::Typed, "made without ice"};
    const auto syrupDraft = book->addDrink(house, made);
    REQUIRE(book->keep(syrupDraft.id, "thin"));
    const auto syrup = book->larder().match("lamp syrup").ingredient;
    const auto draft = book->addDrink(drinkNamed("Ox Skerry"), shaken(gin.id, syrup, 50));
    REQUIRE(book->keep(draft.id, "the idea"));

    // The bottle turns out weaker, the syrup is made thicker and the shake is measured.
    clock.advanceMs(60000);
    gin.facts.abvPercent = fact(40);
    book->saveIngredient(gin);
    made.lines[1].poured.amount = quantity::Amount::exact(1000);
    book->saveDraft(syrupDraft.id, made);
    REQUIRE(book->keep(syrupDraft.id, "thick"));
    REQUIRE(book->keep(draft.id, "with what is in the bottle")); // other facts alone
    clock.advanceMs(60000);
    auto weighed = shaken(gin.id, syrup, 45);
    weighed.method.dilution = spec::DilutionEntry{0.9, spec::DilutionOrigin::Measured, "weighed"};
    book->saveDraft(draft.id, weighed);
    REQUIRE(book->keep(draft.id, "weighed"));
    clock.advanceMs(60000);
    book->saveDraft(draft.id, shaken(gin.id, syrup, 40));
    REQUIRE(book->keep(draft.id, "by the bench")); // predicted with what was weighed

    const auto before = book->revisions(draft.drink);
    REQUIRE(before.size() == 4);
    CHECK(servedStrength(before[0]) - servedStrength(before[1]) > 1); // 47 and 40 % vol
    const auto elsewhere = putElsewhere(folder, exchange::bookJson(store::exportBook(*book)), clock);
    const auto after = elsewhere->revisions(drinkCalled(*elsewhere, "Ox Skerry"));
    REQUIRE(after.size() == 4);
    for (std::size_t i = 0; i < 4; ++i) {
        INFO(before[i].reason);
        CHECK(after[i].readings == before[i].readings);
        CHECK(after[i].calcVersion == before[i].calcVersion);
        CHECK(after[i].measures == before[i].measures);
        CHECK(after[i].facts.states.size() == 2);
        for (const auto& line : after[i].spec.lines) {
            const auto& mine =
                before[i].spec.lines[static_cast<std::size_t>(&line - &after[i].spec.lines[0])];
            CHECK(after[i].facts.states.at(*line.ingredient) == before[i].facts.states.at(*mine.ingredient));
        }
        REQUIRE(after[i].facts.preparations.size() == 1);
        const auto syrupThen = elsewhere->revision(after[i].facts.preparations.begin()->second);
        REQUIRE(syrupThen);
        CHECK(syrupThen->reason == (i == 0 ? "thin" : "thick"));
    }
    // Read again with what was poured then it is the same; a re-read with today's facts stands beside it.
    const auto& first = after[0];
    const auto again = spec::evaluate(first.spec, elsewhere->larderOf(first), elsewhere->rulesOf(first));
    CHECK(again[spec::Stage::Served][spec::Quantity::Strength].value == Approx(servedStrength(before[0])));
    const auto today = spec::evaluate(first.spec, elsewhere->larder(), elsewhere->settings().rules);
    CHECK(today[spec::Stage::Served][spec::Quantity::Strength].value < servedStrength(before[0]) - 1);
}

TEST_CASE("what the sample was kept with goes out and comes back", "[store][export][kept]") {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    store::createSampleBook(folder.file("sample.stillroom"));
    const auto sample = Workbook::open(folder.file("sample.stillroom"), store::OpenMode::ReadOnly, clock);
    const auto elsewhere = putElsewhere(folder, exchange::bookJson(store::exportBook(*sample)), clock);
    int compared = 0;
    for (const auto& summary : sample->summaries()) {
        const auto before = sample->revisions(summary.id);
        const auto after = elsewhere->revisions(drinkCalled(*elsewhere, summary.name));
        REQUIRE(after.size() == before.size());
        for (std::size_t i = 0; i < before.size(); ++i) {
            INFO(summary.name << " " << i + 1);
            CHECK(after[i].readings == before[i].readings);
            CHECK(after[i].facts.states.size() == before[i].facts.states.size());
            CHECK(after[i].facts.preparations.size() == before[i].facts.preparations.size());
            CHECK(after[i].facts.lots.size() == before[i].facts.lots.size());
            CHECK(after[i].facts.pours.size() == before[i].facts.pours.size());
            ++compared;
        }
    }
    CHECK(compared > 10);
}
