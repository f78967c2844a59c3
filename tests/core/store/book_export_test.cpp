#include "core/store/book_export.h"

#include "core/exchange/base64.h"
#include "core/store/book_import.h"
#include "core/store/sample_book.h"
#include "tests/core/store/store_support.h"
#include "tests/core/tasting/photo_support.h"
#include "tests/support/catch.h"

using namespace stillroom;
using namespace stillroom::test;
using store::Workbook;

namespace {

spec::Spec gin(int ml) {
    spec::Line line;
    line.written = std::to_string(ml) + " ml London dry gin";
    line.name = "London dry gin";
    line.poured = {quantity::Amount::exact(ml), quantity::Measure::Ml};
    spec::Spec spec;
    spec.lines.push_back(line);
    spec.method.technique = spec::Technique::Shake;
    return spec;
}

// A book with one of everything that export carries.
void fill(Workbook& book, base::FixedClock& clock) {
    auto settings = book.settings();
    settings.scales.scales = {{"sweet", "sugary", tasting::ScaleKind::JustAboutRight},
                              {"smoke", "smoke", tasting::ScaleKind::FifteenPoint}};
    book.saveSettings(settings);
    const auto mara = book.addPerson("Mara Kell", "MK");
    const auto gone = book.addPerson("Tom Orr", "TO");
    larder::Ingredient own;
    own.id = base::IngredientId::random();
    own.name = "kelp tincture";
    book.saveIngredient(own);

    auto first = drinkNamed("Ox Skerry");
    first.tags = {"smoky", "winter"};
    first.after.source = {"M. Halloran", "the Low Lamp", "2019", "Nine Lights"};
    auto spec = gin(45);
    spec::Line kelp;
    kelp.name = kelp.written = "kelp tincture";
    kelp.ingredient = own.id;
    kelp.poured = {quantity::Amount::exact(2), quantity::Measure::Ml};
    spec.lines.push_back(kelp);
    const auto draft = book.addDrink(first, spec);
    const auto one = book.keep(draft.id, "the idea");
    REQUIRE(one);
    clock.advanceMs(60000);
    spec.lines[0].poured.amount = quantity::Amount::exact(50);
    book.saveDraft(draft.id, spec);
    const auto two = book.keep(draft.id, "stronger");
    REQUIRE(two);
    clock.advanceMs(60000);
    book.setRevisionAside(two->id, true, "too much");
    const auto stored = book.drink(one->drink);
    auto marked = *stored;
    marked.house = one->id;
    marked.published = one->id;
    book.saveDrink(marked);
    const auto branch = book.branch(one->id, "with honey");
    book.saveDraft(branch.id, gin(40));
    book.setDraftAside(branch.id, true);

    auto second = drinkNamed("Quill Point");
    second.after.drink = one->drink;
    second.after.revision = one->id;
    const auto other = book.addDrink(second, gin(30));
    const auto three = book.keep(other.id, "a riff");
    REQUIRE(three);

    tasting::Tasting tasting;
    tasting.revision = one->id;
    tasting.taster = mara;
    tasting.note = "thin 🥃";
    tasting.scores.byScale["smoke"] = {9, tasting::ScaleKind::FifteenPoint};
    tasting.scores.byScale["sweet"] = {4, tasting::ScaleKind::JustAboutRight};
    tasting.verdict = tasting::Verdict::Change;
    const auto said = book.addTasting(tasting);
    clock.advanceMs(1000);
    tasting.amends = said.id;
    tasting.note = "thin, and warm";
    tasting.circumstances.glassAgeMinutes = 4;
    tasting.circumstances.place = "the back bar";
    tasting.circumstances.measured.weight = quantity::Mass::fromGrams(90.5);
    const auto amended = book.addTasting(tasting);
    tasting::Tasting anonymous;
    anonymous.revision = one->id;
    anonymous.taster = gone;
    anonymous.note = "fine";
    book.addTasting(anonymous);
    book.removePerson(gone);
    REQUIRE(book.attachPhoto(amended.id, jpegOf(30, 20), "from above"));
    REQUIRE(book.attachPhoto(one->id, pngOf(8, 9)));
    REQUIRE(book.attachPhoto(two->id, pngOf(8, 9), "the same again"));

    tasting::PanelDesign design;
    design.kind = tasting::PanelKind::Triangle;
    design.products = {one->id, two->id};
    design.tasters = {mara};
    design.seed = 7;
    const auto panel = tasting::designPanel(design);
    REQUIRE(panel);
    const auto id = book.addPanel("can one tell", *panel);
    REQUIRE(id);
    REQUIRE(book.startPouring(*id));
    tasting::Answer answer;
    answer.chosen = panel->servings[0].cups[0].code;
    REQUIRE(book.addAnswer(*id, mara, answer));
    REQUIRE(book.closePanel(*id));

    store::SavedSearch search;
    search.name = "too sweet, with kelp";
    search.request.words = "smoke";
    search.request.filters.tooMuchOf = "sweet";
    search.request.filters.with = {own.id};
    book.saveSearch(search);
}

} // namespace

TEST_CASE("a book goes out as JSON and comes back the same", "[store][export]") {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    const auto book = Workbook::create(folder.file("first.stillroom"), lowLamp(), clock);
    fill(*book, clock);
    const auto out = store::exportBook(*book);
    const std::string json = exchange::bookJson(out);
    const auto read = exchange::bookFromJson(json);
    if (!read) FAIL(read.error());
    CHECK(exchange::bookJson(*read) == json);

    const auto path = folder.file("second.stillroom");
    store::createBook(path, *read);
    CHECK(store::check(path).problems.empty());
    const auto again = Workbook::open(path, store::OpenMode::ReadWrite, clock);
    auto back = store::exportBook(*again);
    // Ingredients of the book's own are known there by another id: their names stand for them.
    REQUIRE(back.names.size() == out.names.size());
    std::string backJson = exchange::bookJson(back);
    for (const auto& [id, name] : out.names)
        for (const auto& [now, same] : back.names)
            if (same == name)
                for (std::size_t at = backJson.find(now); at != std::string::npos; at = backJson.find(now))
                    backJson.replace(at, now.size(), id);
    CHECK(backJson == json);

    // And in the new book's own words.
    const auto drinks = again->summaries();
    REQUIRE(drinks.size() == 2);
    const auto ox = *again->drink(drinks[0].name == "Ox Skerry" ? drinks[0].id : drinks[1].id);
    const auto quill = *again->drink(drinks[0].name == "Ox Skerry" ? drinks[1].id : drinks[0].id);
    CHECK(ox.tags == std::vector<std::string>{"smoky", "winter"});
    CHECK(ox.after.source.work == "Nine Lights");
    CHECK(quill.after.drink == ox.id);
    const auto revisions = again->revisions(ox.id);
    REQUIRE(revisions.size() == 2);
    CHECK(quill.after.revision == revisions[0].id);
    CHECK(ox.published == revisions[0].id);
    CHECK(ox.house == revisions[0].id);
    REQUIRE(again->setAside(ox.id).size() == 1);
    CHECK(again->setAside(ox.id)[0].why == "too much");
    const auto drafts = again->drafts(ox.id);
    REQUIRE(drafts.size() == 2);
    CHECK(drafts[1].name == "with honey");
    CHECK(drafts[1].setAside);
    const auto tastings = again->tastings(revisions[0].id);
    REQUIRE(tastings.size() == 2);
    CHECK(tastings[0].note == "thin, and warm");
    CHECK(tastings[0].circumstances.measured.weight->grams() == 90.5);
    REQUIRE(tastings[0].amends);
    CHECK(again->findTasting(*tastings[0].amends)->note == "thin 🥃");
    CHECK(again->photosOf(tastings[0].id).size() == 1);
    CHECK(again->photosOf(tastings[0].id)[0].caption == "from above");
    CHECK(again->photoTally().photos == 2);
    for (const auto& person : again->people())
        CHECK(person.name != "Tom Orr");
    REQUIRE(again->panels().size() == 1);
    CHECK(again->panels()[0].state == tasting::PanelState::Closed);
    CHECK(again->panels()[0].answered == 1);
    REQUIRE(again->savedSearches().size() == 1);
    CHECK(again->savedSearches()[0].request.filters.tooMuchOf == "sweet");
    CHECK(again->settings().scales.find("smoke") != nullptr);
}

TEST_CASE("the sample goes out and comes back the same", "[store][export]") {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    store::createSampleBook(folder.file("sample.stillroom"));
    const auto sample = Workbook::open(folder.file("sample.stillroom"), store::OpenMode::ReadOnly, clock);
    const auto out = store::exportBook(*sample);
    const auto read = exchange::bookFromJson(exchange::bookJson(out));
    if (!read) FAIL(read.error());
    CHECK(exchange::bookJson(*read) == exchange::bookJson(out));
    store::createBook(folder.file("again.stillroom"), *read);
    CHECK(store::check(folder.file("again.stillroom")).problems.empty());
    const auto again = Workbook::open(folder.file("again.stillroom"), store::OpenMode::ReadOnly, clock);
    const auto before = sample->summaries();
    const auto after = again->summaries();
    REQUIRE(after.size() == before.size());
    for (const auto& was : before) {
        const auto now =
            std::find_if(after.begin(), after.end(), [&](const auto& each) { return each.name == was.name; });
        REQUIRE(now != after.end());
        INFO(was.name);
        CHECK(now->servedStrength == was.servedStrength);
        CHECK(now->revisions == was.revisions);
        CHECK(now->drafts == was.drafts);
        CHECK(now->hasHouse == was.hasHouse);
    }
}

TEST_CASE("a broken book is refused by what is wrong with it and leaves nothing", "[store][export]") {
    const auto problem = [](const std::string& json) {
        const auto read = exchange::bookFromJson(json);
        return read ? std::string() : read.error();
    };
    const std::string head = R"({"format": "stillroom-book/1", "name": "Shed", "currency": "EUR", )";
    CHECK(problem(head + R"("photos": {"00": "AAAA"}})").find("bytes are not those") != std::string::npos);
    CHECK(problem(head + R"("panels": [{"name": "x", "when": "2026-11-06T21:10:00+00:00", "panel": {}}]})")
              .find("panel 1") != std::string::npos);
    CHECK(problem(head + R"("scales": [{"id": "a"}]})").find("scales") != std::string::npos);
    CHECK(problem(std::string(200, '[')).find("deep") != std::string::npos);
    // Good JSON that cannot be a book: the photo's bytes are not there.
    TempFolder folder;
    const auto book = exchange::bookFromJson(
        head + R"("drinks": [{"name": "Tern", "revisions": [{"text": ["50 ml London dry gin"],
            "when": "2026-11-06T21:10:00+00:00", "reason": "first", "photos": [{"hash": "aa"}]}]}]})");
    REQUIRE(book);
    const auto path = folder.file("none.stillroom");
    CHECK_THROWS_AS(store::createBook(path, *book), std::runtime_error);
    CHECK_FALSE(std::filesystem::exists(path));
}

TEST_CASE("base64 reads back every length and refuses what is none", "[export]") {
    // RFC 4648, section 10.
    const std::vector<std::pair<std::string, std::string>> published{{"", ""},
                                                                     {"f", "Zg=="},
                                                                     {"fo", "Zm8="},
                                                                     {"foo", "Zm9v"},
                                                                     {"foob", "Zm9vYg=="},
                                                                     {"fooba", "Zm9vYmE="},
                                                                     {"foobar", "Zm9vYmFy"}};
    for (const auto& [bytes, text] : published) {
        CHECK(exchange::toBase64(bytes) == text);
        CHECK(exchange::fromBase64(text) == bytes);
    }
    std::string all;
    for (int i = 0; i < 256; ++i)
        all += static_cast<char>(i);
    CHECK(exchange::fromBase64(exchange::toBase64(all)) == all);
    for (const char* bad : {"Z", "Zg=", "Zg==Zg==", "Zh==", "Zm9", "Zm 9", "=m9v", "Zm9\n"})
        CHECK_FALSE(exchange::fromBase64(bad));
}
