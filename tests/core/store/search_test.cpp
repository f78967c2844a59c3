#include "core/history/search_words.h"
#include "tests/core/store/store_support.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using store::SearchField;
using store::SearchState;

namespace {

struct Shelf {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    std::string path = folder.file("low-lamp.stillroom");
    std::unique_ptr<store::Workbook> book = store::Workbook::create(path, lowLamp(), clock);
    larder::Ingredient gin = bottleOf("harbour gin 47", 47);
    history::Draft skerry, gannet, saint;

    Shelf() {
        book->saveIngredient(gin);
        skerry = book->addDrink(drinkNamed("Ox Skerry"), sour(22, gin.id));
        book->keep(skerry.id, "a first try, sharp as a gull's remark");
        gannet = book->addDrink(drinkNamed("Gannet Stack"), sour(30));
        auto named = drinkNamed("Sainte-Élodie");
        named.tags = {"winter", "low strength"};
        named.notes = "for the cardamom people";
        saint = book->addDrink(named, sour(15));
    }
    std::vector<std::string> names(const std::string& words, const store::SearchFilters& filters = {}) {
        std::vector<std::string> found;
        for (const auto& hit : book->search({words, filters}).hits)
            found.push_back(hit.name);
        return found;
    }
    using Names = std::vector<std::string>;
};

} // namespace

TEST_CASE("a drink is found by every text of it", "[store][search]") {
    Shelf s;
    using Names = Shelf::Names;
    CHECK(s.names("ox") == Names{"Ox Skerry"});
    CHECK(s.names("elod") == Names{"Sainte-Élodie"});
    CHECK(s.names("ÉLODIE") == Names{"Sainte-Élodie"});
    CHECK(s.names("winter") == Names{"Sainte-Élodie"});
    CHECK(s.names("cardamom") == Names{"Sainte-Élodie"});
    CHECK(s.names("lemon") == Names{"Gannet Stack", "Ox Skerry", "Sainte-Élodie"});
    CHECK(s.names("nine lights") == Names{"Gannet Stack", "Ox Skerry", "Sainte-Élodie"});
    CHECK(s.names("gull") == Names{"Ox Skerry"});
    CHECK(s.names("lemon gull") == Names{"Ox Skerry"}); // in different texts of it
    CHECK(s.names("nothing at all").empty());
    CHECK(s.names("").size() == 3);
    for (const char* marks : {"\"", "%", "-", "🍋", "  * ", "…"})
        CHECK(s.names(marks).empty()); // no word at all: every drink would answer that
    CHECK(history::hasWords("ox %"));
    CHECK_FALSE(history::hasWords("% 🍋"));
    CHECK(s.names("\" OR * NEAR(").empty()); // no words: or rather "or" and "near", that nobody wrote
}

TEST_CASE("a hit says where the words stand and whose they are", "[store][search]") {
    Shelf s;
    const auto hits = s.book->search({"gull", {}}).hits;
    REQUIRE(hits.size() == 1);
    CHECK(hits[0].field == SearchField::Reason);
    CHECK(hits[0].revision == s.book->revisions(s.skerry.drink).at(0).id);
    CHECK(hits[0].snippet == "a first try, sharp as a gull's remark");
    REQUIRE(hits[0].marks.size() == 1);
    CHECK(hits[0].snippet.substr(hits[0].marks[0].start, hits[0].marks[0].length) == "gull");
    CHECK(s.book->search({"skerry", {}}).hits.at(0).field == SearchField::Name);
    CHECK(s.book->search({"cardamom", {}}).hits.at(0).field == SearchField::Notes);
}

TEST_CASE("a slip of the finger still finds the drink and says what was read", "[store][search]") {
    Shelf s;
    CHECK(s.names("skrery") == Shelf::Names{"Ox Skerry"});
    CHECK(s.names("cardomon") == Shelf::Names{"Sainte-Élodie"});
    const auto answer = s.book->search({"ganet", {}});
    REQUIRE(answer.hits.size() == 1);
    CHECK(answer.hits[0].name == "Gannet Stack");
    REQUIRE(answer.hits[0].marks.size() == 1);
    REQUIRE(answer.words.size() == 1);
    CHECK(answer.words[0].read == std::vector<std::string>{"gannet"});
}

TEST_CASE("the name comes before the lines and the lines before the notes", "[store][search]") {
    Shelf s;
    auto noted = *s.book->drink(s.gannet.drink);
    noted.notes = "not the skerry again";
    s.book->saveDrink(noted);
    auto lined = sour(10);
    lined.lines[1].name = "skerry brine";
    s.book->saveDraft(s.saint.id, lined);
    CHECK(s.names("skerry") == Shelf::Names{"Ox Skerry", "Sainte-Élodie", "Gannet Stack"});
    CHECK(s.names("sk") == Shelf::Names{"Gannet Stack", "Ox Skerry", "Sainte-Élodie"}); // by name alone
}

TEST_CASE("search follows every change of the book", "[store][search]") {
    Shelf s;
    s.names("warm up");
    auto spec = sour(15);
    spec.lines[0].name = "juniper brandy";
    s.book->saveDraft(s.saint.id, spec);
    CHECK(s.names("juniper") == Shelf::Names{"Sainte-Élodie"});
    spec.lines[0].name = "harbour rum";
    s.book->saveDraft(s.saint.id, spec);
    CHECK(s.names("juniper").empty());
    CHECK(s.names("junipre").empty()); // a word that nobody has any more is offered to no one
    auto drink = *s.book->drink(s.saint.drink);
    drink.name = "Little Skerry";
    s.book->saveDrink(drink);
    CHECK(s.names("little") == Shelf::Names{"Little Skerry"});
    CHECK(s.names("elodie").empty());
    tasting::Tasting said;
    said.revision = s.book->revisions(s.skerry.drink).at(0).id;
    said.taster = s.book->addPerson("M. Halloran", "MH");
    said.note = "like wet slate";
    said = s.book->addTasting(said);
    CHECK(s.names("slate") == Shelf::Names{"Ox Skerry"});
    said.amends = said.id;
    said.id = {};
    said.note = "like dry slate";
    s.book->addTasting(said);
    CHECK(s.names("wet").empty());
    CHECK(s.names("dry slate") == Shelf::Names{"Ox Skerry"});
    s.book->binDraft(s.book->branch(said.revision, "with honeycomb").id, true);
    CHECK(s.names("honeycomb").empty());
    s.book.reset();
    CHECK(store::check(s.path).problems.empty());
}

TEST_CASE("filters hold to the present spec and to what is surely so", "[store][search]") {
    Shelf s;
    using Names = Shelf::Names;
    store::SearchFilters f;
    SECTION("strength") {
        f.strengthAtLeast = 5;
        CHECK(s.names("", f) == Names{"Ox Skerry"}); // the others' gin is no bottle with a strength
        f.strengthAtMost = 6;
        CHECK(s.names("", f).empty());
    }
    SECTION("ingredient") {
        f.with = {s.gin.id};
        CHECK(s.names("", f) == Names{"Ox Skerry"});
        f.without = f.with;
        f.with = {};
        CHECK(s.names("", f) == Names{"Gannet Stack", "Sainte-Élodie"});
    }
    SECTION("state") {
        f.states = {SearchState::Kept};
        CHECK(s.names("", f) == Names{"Ox Skerry"});
        f.states = {SearchState::Draft};
        CHECK(s.names("", f) == Names{"Gannet Stack", "Sainte-Élodie"});
        f.states = {SearchState::House, SearchState::Published};
        CHECK(s.names("", f).empty());
        auto drink = *s.book->drink(s.skerry.drink);
        drink.published = s.book->revisions(drink.id).at(0).id;
        s.book->saveDrink(drink);
        CHECK(s.names("", f) == Names{"Ox Skerry"});
        f.states = {SearchState::SetAside};
        CHECK(s.names("", f).empty());
        s.book->setRevisionAside(*drink.published, true);
        CHECK(s.names("", f) == Names{"Ox Skerry"});
    }
    SECTION("published behind the bar") {
        f.states = {SearchState::Stale};
        auto drink = *s.book->drink(s.skerry.drink);
        drink.published = s.book->revisions(drink.id).at(0).id;
        drink.house = drink.published;
        s.book->saveDrink(drink);
        CHECK(s.names("", f).empty()); // the card says what the bar pours
        s.book->saveDraft(s.skerry.id, sour(25, s.gin.id));
        drink.house = s.book->keep(s.skerry.id, "more lemon")->id;
        s.book->saveDrink(drink);
        CHECK(s.names("", f) == Names{"Ox Skerry"});
    }
    SECTION("the bin") {
        auto drink = *s.book->drink(s.gannet.drink);
        drink.binned = true;
        s.book->saveDrink(drink);
        CHECK(s.names("gannet").empty());
        f.states = {SearchState::Binned};
        CHECK(s.names("gannet", f) == Names{"Gannet Stack"});
        CHECK(s.names("skerry", f).empty());
    }
    SECTION("what tasters said") {
        tasting::Tasting said;
        said.revision = s.book->revisions(s.skerry.drink).at(0).id;
        said.taster = s.book->addPerson("M. Halloran", "MH");
        f.tooMuchOf = "sweet";
        CHECK(s.names("", f).empty());
        said.note = "Nice, but much too sweet.";
        s.book->addTasting(said);
        CHECK(s.names("", f) == Names{"Ox Skerry"});
        f.tooMuchOf = "sour";
        CHECK(s.names("", f).empty());
        said.note = "";
        said.scores.byScale["sour"] = {4, tasting::ScaleKind::JustAboutRight};
        s.book->addTasting(said);
        CHECK(s.names("", f) == Names{"Ox Skerry"});
    }
    SECTION("day") {
        f.changedFrom = kEvening.utcMs + 1;
        CHECK(s.names("", f).empty());
        s.clock.advanceMs(60'000);
        s.book->saveDraft(s.gannet.id, sour(31));
        CHECK(s.names("", f) == Names{"Gannet Stack"});
        f.changedFrom.reset();
        f.changedBefore = kEvening.utcMs + 1;
        CHECK(s.names("", f) == Names{"Ox Skerry", "Sainte-Élodie"});
    }
    SECTION("allergens that nobody stated are not none") {
        f.withoutAllergens = {"milk"};
        CHECK(s.names("", f).empty());
        f.withoutAllergens = {};
        f.allergens = {"milk"};
        CHECK(s.names("", f).empty());
    }
    SECTION("cost in another currency or unknown is not found") {
        f.costAtMost = quantity::Money{500, *quantity::Currency::fromCode("USD")};
        CHECK(s.names("", f).empty());
        f.costAtMost = quantity::Money{500, s.book->settings().rules.currency};
        CHECK(s.names("", f).empty());
    }
    SECTION("form") {
        f.form = history::DrinkForm::Preparation;
        CHECK(s.names("", f).empty());
    }
}

TEST_CASE("an old book is read bit by bit and says what is still unread", "[store][search]") {
    Shelf s;
    for (int i = 0; i < 20; ++i)
        s.book->addDrink(drinkNamed("Light " + std::to_string(i)), sour(20));
    const auto first = s.book->search({"light", {}});
    CHECK(first.unread > 0);
    CHECK(first.total < 20);
    while (s.book->catchUpSearch(3) > 0) {
    }
    const auto all = s.book->search({"light", {}}, 5);
    CHECK(all.unread == 0);
    CHECK(all.total == 23); // "Nine Lights" of the other three
    CHECK(all.hits.size() == 5);
}

TEST_CASE("an index that went wrong is told and made anew", "[store][search]") {
    Shelf s;
    s.names("warm up");
    s.book.reset();
    RawFile(s.path).run("UPDATE search_text SET brief = 'something else' WHERE drink = 1");
    auto found = store::check(s.path).problems;
    REQUIRE(found.size() == 2); // the text of the drink, and the index that never had it
    CHECK(found[0].sort == store::CheckSort::Derived);
    CHECK(found[0].where == "search of Ox Skerry");
    s.book = store::Workbook::open(s.path, store::OpenMode::ReadWrite, s.clock);
    s.book->rebuildSearch();
    CHECK(s.names("skerry") == Shelf::Names{"Ox Skerry"});
    s.book.reset();
    CHECK(store::check(s.path).problems.empty());
}

TEST_CASE("a book that cannot be written is searched as far as it was read", "[store][search]") {
    Shelf s;
    s.names("warm up");
    s.book->saveDraft(s.gannet.id, sour(31));
    s.book.reset();
    s.book = store::Workbook::open(s.path, store::OpenMode::ReadOnly, s.clock);
    const auto answer = s.book->search({"gannet", {}});
    CHECK(answer.hits.size() == 1);
    CHECK(answer.unread == 1);
    int steps = 0;
    while (s.book->catchUpSearch(10) > 0)
        REQUIRE(++steps < 20);
    CHECK(s.book->search({"gannet", {}}).unread == 1);
}

TEST_CASE("a filter never waits for many drinks and says how many it has not looked at", "[store][search]") {
    Shelf s;
    for (int i = 0; i < 60; ++i)
        s.book->addDrink(drinkNamed("Light " + std::to_string(i)), sour(20));
    while (s.book->search({"light", {}}).unread > 0) {
    }
    store::SearchFilters filters;
    filters.states = {store::SearchState::Draft};
    const auto first = s.book->search({"light", filters});
    CHECK(first.unread > 0);
    CHECK(first.unread < 63);
    while (s.book->catchUpSearch(10) > 0) {
    }
    const auto all = s.book->search({"light", filters}, 100);
    CHECK(all.unread == 0);
    CHECK(all.total == first.total + first.unread);
    // An edit makes one of them unread, and the search reads it itself.
    s.book->saveDraft(s.gannet.id, sour(33));
    CHECK(s.book->search({"light", filters}).unread == 0);
    // Another price may change them all.
    s.book->saveSettings(s.book->settings());
    CHECK(s.book->search({"light", filters}).unread > 0);
}

TEST_CASE("words enter the vocabulary in any order and slips of them are found", "[store][search]") {
    using Word = history::Vocabulary::Word;
    history::Vocabulary vocabulary;
    vocabulary.add({"tern", "gannet"});
    vocabulary.append({{"gannet", 3}, {"gullet", 2}});
    vocabulary.append(std::vector<Word>{{"heron", 1}, {"tern", 9}});
    CHECK(vocabulary.size() == 4);
    CHECK(vocabulary.near("gullte") == std::vector<std::string>{"gullet"});
    CHECK(vocabulary.near("tenr") == std::vector<std::string>{"tern"});
    CHECK(vocabulary.hasBeginning("her"));
}

TEST_CASE("a saved search keeps its words and every filter", "[store][search]") {
    Shelf s;
    store::SavedSearch search;
    search.name = "strong, and no milk";
    search.request.words = "lemon";
    auto& f = search.request.filters;
    f.form = history::DrinkForm::Drink;
    f.strengthAtLeast = 20.5;
    f.strengthAtMost = 40;
    f.costAtLeast = quantity::Money{50, *quantity::Currency::fromCode("EUR")};
    f.costAtMost = quantity::Money{250, *quantity::Currency::fromCode("EUR")};
    f.styles = {"shaken_sour"};
    f.with = {s.gin.id};
    f.without = {base::IngredientId::random()};
    f.allergens = {"eggs"};
    f.withoutAllergens = {"milk"};
    f.states = {SearchState::Draft, SearchState::SetAside};
    f.changedFrom = 5;
    f.changedBefore = 1793649600000;
    f.tooMuchOf = "sweet";
    const auto saved = s.book->saveSearch(search);
    CHECK_FALSE(saved.id.isNull());
    REQUIRE(s.book->savedSearches().size() == 1);
    CHECK(s.book->savedSearches()[0] == saved);
    CHECK(store::SearchRequest::fromCanonicalJson(store::SearchRequest{}.canonicalJson()) ==
          store::SearchRequest{});

    auto renamed = saved;
    renamed.name = "another";
    s.book->saveSearch(renamed);
    CHECK(s.book->savedSearches()[0].name == "another");
    s.book->removeSavedSearch(saved.id);
    CHECK(s.book->savedSearches().empty());
    CHECK_THROWS_AS(s.book->saveSearch(renamed), store::StoreError);
    for (const char* bad : {"", "[]", "{\"words\":7}", "{\"filters\":{\"states\":[\"asleep\"]}}",
                            "{\"filters\":{\"with\":[\"zz\"]}}", "{\"colour\":1}",
                            "{\"filters\":{\"cost_at_most\":{\"currency\":\"EUR\",\"minor\":1.5}}}"}) {
        CAPTURE(bad);
        CHECK_FALSE(store::SearchRequest::fromCanonicalJson(bad));
    }
}

TEST_CASE("tags are listed once and in order", "[store][search]") {
    Shelf s;
    auto drink = *s.book->drink(s.skerry.drink);
    drink.tags = {"winter", "aperitif"};
    s.book->saveDrink(drink);
    CHECK(s.book->tags() == std::vector<std::string>{"aperitif", "low strength", "winter"});
}

TEST_CASE("a note of a megabyte is kept and searched", "[store][search]") {
    Shelf s;
    tasting::Tasting said;
    said.revision = s.book->revisions(s.skerry.drink).at(0).id;
    said.taster = s.book->addPerson("M. Halloran", "MH");
    for (int i = 0; said.note.size() < 1'000'000; ++i)
        said.note += "word" + std::to_string(i) + ' ';
    said.note += "slate";
    s.book->addTasting(said);
    const auto hits = s.book->search({"slate", {}}).hits;
    REQUIRE(hits.size() == 1);
    CHECK(hits[0].field == SearchField::Tasting);
    CHECK(hits[0].snippet.size() < 400);
}

TEST_CASE("two words in two places are both shown", "[store][search]") {
    Shelf s;
    const auto hits = s.book->search({"lemon gull", {}}).hits;
    REQUIRE(hits.size() == 1);
    CHECK(hits[0].field == SearchField::Lines);
    std::vector<std::string> found;
    for (const auto& [start, length] : hits[0].marks)
        found.push_back(hits[0].snippet.substr(start, length));
    CHECK(found == std::vector<std::string>{"lemon", "gull"});
    CHECK(hits[0].snippet.find(" · ") != std::string::npos);
    // And in one text too long to be shown whole.
    auto noted = *s.book->drink(s.gannet.drink);
    noted.notes = "barnacle " + std::string(300, 'x') + " and then a cormorant";
    s.book->saveDrink(noted);
    const auto far = s.book->search({"barnacle cormorant", {}}).hits;
    REQUIRE(far.size() == 1);
    CHECK(far[0].marks.size() == 2);
    CHECK(far[0].snippet.find("barnacle") != std::string::npos);
    CHECK(far[0].snippet.find("cormorant") != std::string::npos);
}

TEST_CASE("what is in a preparation is in the drink at every depth", "[store][search]") {
    Shelf s;
    const auto cream = s.book->larder().match("double cream").ingredient;
    REQUIRE_FALSE(cream.isNull());
    // Cream in a syrup in a foam in a drink.
    const auto madeOf = [&](const std::string& name, const std::string& part, base::IngredientId id) {
        auto made = drinkNamed(name);
        made.form = history::DrinkForm::Preparation;
        spec::Spec spec;
        spec.lines = {line(part, 100, id)};
        spec.method.dilution = spec::DilutionEntry{0, spec::DilutionOrigin::Typed, "made without ice"};
        const auto draft = s.book->addDrink(made, spec);
        REQUIRE(s.book->keep(draft.id, "first"));
        return s.book->larder().match(name).ingredient;
    };
    const auto inner = madeOf("lamp cream", "double cream", cream);
    const auto outer = madeOf("lamp foam", "lamp cream", inner);
    const auto drink = s.book->addDrink(drinkNamed("Bell Buoy"), sour(20, outer));
    REQUIRE(s.book->keep(drink.id, "first"));
    while (s.book->catchUpSearch(50) > 0)
        continue;
    store::SearchFilters f;
    f.form = history::DrinkForm::Drink;
    f.with = {cream};
    CHECK(s.names("", f) == Shelf::Names{"Bell Buoy"});
    f.with = {};
    f.without = {cream};
    CHECK(s.names("", f) == Shelf::Names{"Gannet Stack", "Ox Skerry", "Sainte-Élodie"});
    f.without = {};
    f.allergens = {"milk"};
    CHECK(s.names("", f) == Shelf::Names{"Bell Buoy"});
    f.allergens = {};
    f.with = {inner};
    CHECK(s.names("", f) == Shelf::Names{"Bell Buoy"});
}
