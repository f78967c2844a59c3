#include "core/base/embedded.h"
#include "core/store/book_import.h"
#include "core/store/sample_book.h"
#include "tests/support/catch.h"

#include <unistd.h>

#include <filesystem>

using namespace stillroom;
namespace fs = std::filesystem;

namespace {

struct Folder {
    fs::path path = fs::temp_directory_path() / ("stillroom-import-" + std::to_string(::getpid()));
    Folder() { fs::create_directories(path); }
    ~Folder() {
        std::error_code ignored;
        fs::remove_all(path, ignored);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    std::string file(const char* name) const { return (path / name).string(); }
};

constexpr const char* kBook = R"({"format": "stillroom-book/1", "name": "Shed", "currency": "EUR",
  "region": "metric", "people": [{"initials": "AB", "name": "A. Bell"}],
  "ingredients": [{"name": "London dry gin, 51 %", "sort": "bottle", "kind": "London dry gin",
      "abv_percent": 51, "sugar_g_per_l": 0, "acid_g_per_l": 0}],
  "drinks": [
   {"name": "Thrift syrup", "form": "preparation", "revisions": [
     {"text": ["300 g sugar", "300 g water", "Makes: 480 ml", "Method: Stir until clear."],
      "when": "2026-11-01T10:00:00+00:00", "reason": "plain", "house": true}]},
   {"name": "Tern", "brief": "short", "revisions": [
     {"text": ["50 ml London dry gin", "25 ml lemon juice", "15 ml thrift syrup", "Method: Shake, strain."],
      "when": "2026-11-02T20:00:00+00:00", "reason": "first",
      "tastings": [{"by": "AB", "when": "2026-11-02T20:15:00+00:00", "verdict": "change",
                    "scores": {"sour": 12}, "note": "sharp"}]},
     {"text": ["50 ml London dry gin", "25 ml lemon juice", "20 ml thrift syrup", "Method: Shake, strain."],
      "when": "2026-11-03T20:00:00+00:00", "reason": "more syrup", "house": true},
     {"text": ["50 ml London dry gin", "20 ml lemon juice", "15 ml thrift syrup", "Method: Shake, strain."],
      "when": "2026-11-04T20:00:00+00:00", "reason": "less lemon instead", "based_on": "1"},
     {"text": ["55 ml London dry gin", "25 ml lemon juice", "20 ml thrift syrup", "Method: Shake, strain."],
      "when": "2026-11-05T20:00:00+00:00", "based_on": "2"}]}]})";

} // namespace

TEST_CASE("a scripted book becomes drinks with their own times and branches", "[import]") {
    const Folder folder;
    const auto book = exchange::bookFromJson(kBook);
    REQUIRE(book);
    store::BookClock clock;
    const auto workbook = store::Workbook::create(folder.file("book.stillroom"), {}, clock);
    store::importBook(*workbook, clock, *book);

    const auto summaries = workbook->summaries();
    REQUIRE(summaries.size() == 2);
    const auto& tern = summaries[0].name == "Tern" ? summaries[0] : summaries[1];
    const auto drink = workbook->drink(tern.id);
    REQUIRE(drink);
    CHECK(drink->brief == "short");
    CHECK(base::isoText(drink->created) == "2026-11-02T20:00:00+00:00");

    const auto revisions = workbook->revisions(tern.id);
    REQUIRE(revisions.size() == 3);
    const auto byReason = [&](const char* reason) {
        for (const auto& revision : revisions)
            if (revision.reason == reason) return revision;
        FAIL(reason);
        return revisions.front();
    };
    const auto first = byReason("first");
    CHECK(base::isoText(first.kept) == "2026-11-02T20:00:00+00:00");
    CHECK_FALSE(first.parent.has_value());
    CHECK(byReason("more syrup").parent == first.id);
    CHECK(byReason("less lemon instead").parent == first.id);
    CHECK(drink->house == byReason("more syrup").id);

    const auto tastings = workbook->tastings(first.id);
    REQUIRE(tastings.size() == 1);
    CHECK(tastings[0].note == "sharp");
    CHECK(base::isoText(tastings[0].when) == "2026-11-02T20:15:00+00:00");

    // The last, without a reason, is the draft that goes on from the house revision.
    const auto drafts = workbook->drafts(tern.id);
    REQUIRE(drafts.size() == 2);
    CHECK(drafts[0].basedOn == byReason("more syrup").id);
    CHECK(drafts[0].spec.lines[0].poured.amount.low == quantity::Rational(55));
    CHECK(drafts[1].basedOn == byReason("less lemon instead").id);

    // The house's bottle is poured for the kind, and the syrup is the one made here.
    const auto strength = first.readings[spec::Stage::Measured][spec::Quantity::Strength];
    CHECK(strength.value == Approx(50 * 51.0 / 90).epsilon(0.01));
    const auto& sugar = first.readings[spec::Stage::Measured][spec::Quantity::Sugar];
    CHECK(sugar.bound == spec::Bound::Exact);
    CHECK(sugar.value == Approx((15 * 0.615 + 25 * 0.026) / 89 * 100).epsilon(0.05));
}

TEST_CASE("a scripted line that would have to be asked about stops the import", "[import]") {
    const Folder folder;
    auto book = exchange::bookFromJson(kBook);
    REQUIRE(book);
    book->drinks[1].revisions[0].text = "50 ml London dry gin\n-25 ml lemon juice\n";
    store::BookClock clock;
    const auto workbook = store::Workbook::create(folder.file("book.stillroom"), {}, clock);
    try {
        store::importBook(*workbook, clock, *book);
        FAIL("imported");
    } catch (const std::runtime_error& error) {
        CHECK(std::string(error.what()) ==
              "Tern, revision 1: \"-25 ml lemon juice\" cannot be read without asking");
    }
}

TEST_CASE("what stands beside the facts comes through a book and back", "[import]") {
    const Folder folder;
    const auto book = exchange::bookFromJson(base::embedded("sample-data/nine-lights.json"));
    REQUIRE(book);
    const auto again = exchange::bookFromJson(exchange::bookJson(*book));
    REQUIRE(again);
    const auto withoutPackIds = [](exchange::ScriptedBook of) {
        for (auto& ingredient : of.ingredients)
            for (larder::Pack& pack : ingredient.ingredient.packs)
                pack.id = {};
        return of;
    };
    CHECK(withoutPackIds(*again) == withoutPackIds(*book));

    store::createSampleBook(folder.file("terms.stillroom"));
    const base::SystemClock clock;
    const auto workbook =
        store::Workbook::open(folder.file("terms.stillroom"), store::OpenMode::ReadOnly, clock);
    const auto larder = workbook->larder();
    const auto named = [&](const char* name) -> const larder::Ingredient& {
        const auto match = larder.match(name);
        REQUIRE(match.quality == larder::MatchQuality::Exact);
        return *larder.find(match.ingredient);
    };
    const auto& gin = named("London dry gin, 47 %");
    REQUIRE(gin.packs.size() == 2);
    CHECK(gin.packs[1].price.minor == 2450);
    CHECK(gin.packs[1].supplier == "Quayside Cellars");
    CHECK(gin.stock == larder::Stock{larder::OnShelf::Low, 350, larder::PackUnit::Ml, false, "2026-11-24"});
    const auto& juice = named("lime juice, fresh");
    REQUIRE(juice.gotFrom);
    CHECK(juice.gotFrom->of == named("lime, whole fruit").id);
    CHECK(juice.gotFrom->perUnit == quantity::Rational(30));
    CHECK(named("cinnamon stick").usableShare == *quantity::Rational::make(19, 20));
    CHECK(named("cinnamon stick").packs.at(0).taxPercent == quantity::Rational(20));
    CHECK(workbook->settings().rules.rates.size() == 1);
    const auto& syrup = named("Heather-honey syrup");
    CHECK(syrup.keepDays == 10);
    CHECK(larder.lots(syrup.id).size() == 2);
    const auto& ember = named("Ember syrup");
    REQUIRE(larder.lots(ember.id).size() == 1);
    CHECK(ember.lotInUse == larder.lots(ember.id)[0].id);
    CHECK(larder.lots(ember.id)[0].madeFrom);
    CHECK(larder.isFromLot(ember.id));
    CHECK(workbook->preparations().at(ember.id).steps.size() == 3);
    // Three levels: what the syrup cost is in the cream, and the cream's cost in the drink's draft.
    for (const char* made : {"Ember syrup", "Hearth cream"})
        CHECK(named(made).packs.size() == 1);
}

TEST_CASE("terms that cannot be are named when a book is read", "[import]") {
    const auto problem = [](const std::string& keys) {
        const auto book = exchange::bookFromJson(
            R"({"format": "stillroom-book/1", "name": "Shed", "currency": "EUR", "ingredients": [
                {"name": "limes", )" +
            keys + "}]}");
        return book ? std::string("(read)") : book.error();
    };
    const auto names = [&](const std::string& keys, const char* what) {
        INFO(problem(keys));
        CHECK(problem(keys).find(what) != std::string::npos);
    };
    names(R"("price": {"amount": "-3.00", "currency": "EUR", "for_ml": 700})", "not an amount of EUR");
    names(R"("price": {"amount": "3.00", "currency": "EUR", "for_ml": 0})", "above 0");
    names(R"("price": {"amount": "3.00", "currency": "EUR", "for_ml": 2e9})", "must lie between");
    names(R"("price": {"amount": "3.00", "currency": "EUR", "for_ml": 1, "for_g": 1})", "needs one of");
    names(R"("price": {"amount": "3.00", "currency": "XYZW", "for_ml": 1})", "not a currency");
    names(R"("price": [{"amount": "3", "currency": "EUR", "for_ml": 1, "on": "2026-02-30"}])",
          "must be a day");
    names(R"("price": {"amount": "3", "currency": "EUR", "for_ml": 1, "tax_percent": -1})", "below 0");
    names(R"("usable_share": 0)", "above 0 and at most 1");
    names(R"("usable_share": "3/2")", "above 0 and at most 1");
    names(R"("got_from": {"of": "lime", "per_unit": 0})", "must be above 0");
    names(R"("got_from": {"per_unit": 30})", "\"of\" of \"got_from\" is missing");
    names(R"("stock": {"state": "plenty"})", "have, low or out");
    names(R"("stock": {"amount": -1})", "must lie between");
    names(R"("stock": {"amount": 1, "unit": "crate"})", "ml, g or piece");
    names(R"("keep_days": 1.5)", "whole days");
    names(R"("lots": [{"abv_percent": 140}])", "must lie between");
    names(R"("lots": {"on": "2026-11-20"})", "must be a list");
    names(R"("facts": {"abv_percent": 47})", "\"facts\" cannot be read");
    CHECK(problem(R"("stock": {"state": "low"}, "keep_days": 3, "usable_share": "17/20")") == "(read)");
}

TEST_CASE("a larder written whole reads back with every fact", "[import]") {
    exchange::WrittenIngredient written;
    written.ingredient.name = "gorse syrup, 1 l";
    written.ingredient.sort = larder::IngredientSort::Bottle;
    written.kindName = "simple syrup";
    written.wholeState = written.statesFacts = true;
    auto& facts = written.ingredient.facts;
    facts.sugarGPerL = larder::Fact{615, 600, 630, larder::SourceKind::Measured, "weighed", "2026-11-20"};
    facts.caffeineMgPerL = larder::Fact::single(3, larder::SourceKind::Assumed, "a guess");
    facts.sugarShares.parts = {{physics::Substance::Glucose, 0.5}, {physics::Substance::Fructose, 0.5}};
    facts.allergens = std::vector<std::string>{"sulphites"};
    written.ingredient.maker = "the hill farm";
    written.ingredient.keepDays = 21;
    const std::string text = "{\"ingredients\": [" + exchange::ingredientText(written) + "]}";
    const auto read = exchange::larderFileFromJson(text);
    REQUIRE(read);
    REQUIRE(read->size() == 1);
    CHECK(read->front() == written);
}

TEST_CASE("the sample workbook is sound and has nothing doubtful in it", "[import]") {
    const Folder folder;
    store::createSampleBook(folder.file("sample.stillroom"));
    const auto report = store::check(folder.file("sample.stillroom"));
    CHECK(report.problems.empty());
    CHECK(report.drinks == 12);
    CHECK(report.revisions >= 18);
    CHECK(report.tastings >= 25);
    CHECK_THROWS_AS(store::createSampleBook(folder.file("sample.stillroom")), store::StoreError);
    CHECK(store::check(folder.file("sample.stillroom")).problems.empty());
}
