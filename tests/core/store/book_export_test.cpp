#include "core/store/book_export.h"

#include "core/base/exact_time.h"
#include "core/exchange/base64.h"
#include "core/store/book_import.h"
#include "core/store/book_record.h"
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
    settings.scaleStepG = 0.5;
    settings.rules.standardDrinkGrams = 14;
    settings.rules.measures.volumesMl[quantity::Measure::Dash] = {0.8, 0.7, 0.9, "this house"};
    settings.rules.rates = {{*quantity::Currency::fromCode("GBP"), *quantity::Currency::fromCode("EUR"),
                             *quantity::Rational::fromText("117/100"), "2026-11-01"}};
    book.saveSettings(settings);
    const auto twin = book.addPerson("Mina Kay", "MK"); // two sign alike
    const auto mara = book.addPerson("Mara Kell", "MK");
    const auto gone = book.addPerson("Tom Orr", "TO");
    larder::Ingredient own;
    own.id = base::IngredientId::random();
    own.name = "kelp tincture";
    larder::Pack pack;
    pack.price = {1250, *quantity::Currency::fromCode("EUR")};
    pack.forMl = 500;
    pack.pricedOn = "2026-10-01";
    pack.supplier = "Quayside Cellars";
    own.packs = {pack};
    own.usableShare = *quantity::Rational::fromText("9/10");
    own.stock = {larder::OnShelf::Low, 120.5, larder::PackUnit::Ml, true, "2026-10-02"};
    own.keepDays = 21;
    book.saveIngredient(own);
    clock.advanceMs(250); // what follows stands at fractions of a second
    own = *book.larder().find(own.id);
    own.packs[0].price.minor = 1400; // the earlier price stays on record
    book.saveIngredient(own);
    larder::Ingredient bottle;
    bottle.id = base::IngredientId::random();
    bottle.sort = larder::IngredientSort::Bottle;
    bottle.name = "London dry gin, 47 %";
    bottle.kind = book.larder().match("London dry gin").ingredient;
    bottle.facts.abvPercent = larder::Fact{47, 46.5, 47.5, larder::SourceKind::Label, "label"};
    book.saveIngredient(bottle);
    larder::Ingredient weaker = bottle;
    weaker.id = base::IngredientId::random();
    weaker.name = "London dry gin, 41 %";
    weaker.facts.abvPercent = larder::Fact{41, 41, 41, larder::SourceKind::Measured, "ebulliometer"};
    book.saveIngredient(weaker);
    larder::Ingredient kind = *book.larder().find(*bottle.kind);
    kind.houseBottle = bottle.id; // not the last one
    book.saveIngredient(kind);
    larder::Ingredient lettuce = own;
    lettuce.id = base::IngredientId::random();
    lettuce.name = "sea lettuce tincture";
    lettuce.packs.clear();
    book.saveIngredient(lettuce);
    book.binIngredient(lettuce.id, true);
    larder::Lot lot;
    lot.id = base::LotId::random();
    lot.ingredient = own.id;
    lot.on = "2026-10-20";
    lot.abvPercent = larder::Fact{38.25, 38, 38.5, larder::SourceKind::Measured, "hydrometer", "2026-10-21"};
    lot.note = "the dark one";
    book.saveLot(lot);
    own = *book.larder().find(own.id);
    own.lotInUse = lot.id;
    book.saveIngredient(own);
    book.rememberName("the dark stuff", own.id);

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
    settings.rules.measures.volumesMl[quantity::Measure::Dash].typical = 0.75;
    book.saveSettings(settings); // the revisions before keep theirs
    clock.advanceMs(1500);
    const auto stored = book.drink(one->drink);
    auto marked = *stored;
    marked.house = one->id;
    marked.published = one->id;
    book.saveDrink(marked);
    const auto branch = book.branch(one->id, "with honey");
    book.saveDraft(branch.id, gin(40));
    book.setDraftAside(branch.id, true);
    const auto dropped = book.branch(two->id, "with sea lettuce");
    book.saveDraft(dropped.id, gin(60));
    book.binDraft(dropped.id, true);

    auto second = drinkNamed("Quill Point");
    second.after.drink = one->drink;
    second.after.revision = one->id;
    const auto other = book.addDrink(second, gin(30));
    const auto three = book.keep(other.id, "a riff");
    REQUIRE(three);

    // Made here, and poured by a drink of the same name as another, which is in the bin.
    auto cordial = drinkNamed("Thrift cordial");
    cordial.form = history::DrinkForm::Preparation;
    auto cordialSpec = gin(100);
    cordialSpec.lines.push_back(spec.lines[1]);
    const auto made = book.addDrink(cordial, cordialSpec);
    REQUIRE(book.keep(made.id, "the first batch"));
    base::IngredientId poured;
    const auto now = book.larder();
    for (const auto* each : now.all())
        if (each->madeBy == made.drink) poured = each->id;
    auto same = drinkNamed("Quill Point");
    auto sameSpec = gin(20);
    sameSpec.lines.push_back(line("thrift cordial", 30, poured));
    const auto sameDraft = book.addDrink(same, sameSpec);
    REQUIRE(book.keep(sameDraft.id, ""));
    auto sameStored = *book.drink(sameDraft.drink);
    sameStored.binned = true;
    book.saveDrink(sameStored);

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
    tasting.amends.reset();
    tasting.taster = twin;
    book.addTasting(tasting);
    tasting::Tasting anonymous;
    anonymous.revision = one->id;
    anonymous.taster = gone;
    anonymous.note = "fine";
    book.addTasting(anonymous);
    book.removePerson(gone);
    REQUIRE(book.attachPhoto(amended.id, jpegOf(30, 20), "from above"));
    REQUIRE(book.attachPhoto(one->id, pngOf(8, 9)));
    REQUIRE(book.attachPhoto(two->id, pngOf(8, 9), "the same again"));
    const auto taken = book.attachPhoto(two->id, jpegOf(7, 7), "the wrong glass");
    REQUIRE(taken);
    book.hidePhoto(taken->id, true);

    tasting::PanelDesign design;
    design.kind = tasting::PanelKind::Triangle;
    design.products = {one->id, two->id};
    design.tasters = {mara, twin};
    design.seed = 7;
    const auto panel = tasting::designPanel(design);
    REQUIRE(panel);
    const auto id = book.addPanel("can one tell", *panel);
    REQUIRE(id);
    REQUIRE(book.startPouring(*id));
    tasting::Answer answer;
    answer.chosen = panel->servings[0].cups[1].code;
    REQUIRE(book.addAnswer(*id, mara, answer));
    clock.advanceMs(999);
    answer.chosen = panel->servings[0].cups[0].code; // thought again
    REQUIRE(book.addAnswer(*id, mara, answer));
    clock.advanceMs(1);
    REQUIRE(book.closePanel(*id));
    design.seed = 8;
    const auto unpoured = book.addPanel("", *tasting::designPanel(design));
    REQUIRE(unpoured);
    book.binPanel(*unpoured, true);

    store::SavedSearch search;
    search.name = "too sweet, with kelp";
    search.request.words = "smoke";
    search.request.filters.tooMuchOf = "sweet";
    search.request.filters.with = {own.id};
    book.saveSearch(search);
}

// Drinks stand in another order there: within one, everything stands as it did.
bool sameRecord(store::BookRecord a, store::BookRecord b) {
    for (store::BookRecord* record : {&a, &b}) {
        const auto byId = [](const auto& x, const auto& y) { return x.id < y.id; };
        std::sort(record->drinks.begin(), record->drinks.end(), byId);
        std::sort(record->drafts.begin(), record->drafts.end(), byId);
        std::sort(record->photos.begin(), record->photos.end(), byId);
        std::sort(record->tastings.begin(), record->tastings.end(), byId);
        std::sort(record->lots.begin(), record->lots.end(), byId);
        std::stable_sort(record->revisions.begin(), record->revisions.end(),
                         [](const auto& x, const auto& y) { return x.drink < y.drink; });
        std::sort(record->aside.begin(), record->aside.end(),
                  [](const auto& x, const auto& y) { return x.revision < y.revision; });
        std::sort(record->ingredients.begin(), record->ingredients.end(),
                  [](const auto& x, const auto& y) { return x.ingredient.id < y.ingredient.id; });
        std::sort(record->states.begin(), record->states.end(),
                  [](const auto& x, const auto& y) { return x.hash() < y.hash(); });
    }
    CHECK(a.people == b.people);
    CHECK(a.states == b.states);
    CHECK(a.ingredients == b.ingredients);
    CHECK(a.packs == b.packs);
    CHECK(a.lots == b.lots);
    CHECK(a.drinks == b.drinks);
    CHECK(a.revisions == b.revisions);
    CHECK(a.drafts == b.drafts);
    CHECK(a.tastings == b.tastings);
    CHECK(a.photos == b.photos);
    CHECK(a.panels == b.panels);
    return a == b;
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
    const auto report = store::check(path);
    for (const auto& problem : report.problems)
        UNSCOPED_INFO(problem.where + ": " + problem.what);
    CHECK(report.problems.empty());
    const auto again = Workbook::open(path, store::OpenMode::ReadWrite, clock);
    CHECK(exchange::bookJson(store::exportBook(*again)) == json);
    CHECK(sameRecord(store::recordOf(*again), store::recordOf(*book)));
    CHECK(again->settings().scaleStepG == 0.5);
    CHECK(again->settings().rules.standardDrinkGrams == 14);
    CHECK(again->settings().rules.measures == book->settings().rules.measures);
    CHECK(again->settings().rules.rates == book->settings().rules.rates);

    // And in the new book's own words.
    const auto summaries = again->summaries();
    REQUIRE(summaries.size() == 4);
    const auto named = [&](const std::string& name) {
        const auto found = std::find_if(summaries.begin(), summaries.end(),
                                        [&](const auto& each) { return each.name == name && !each.binned; });
        REQUIRE(found != summaries.end());
        return *again->drink(found->id);
    };
    const auto ox = named("Ox Skerry");
    const auto quill = named("Quill Point");
    CHECK(summaries.back().name == "Quill Point");
    CHECK(summaries.back().binned);
    CHECK(ox.tags == std::vector<std::string>{"smoky", "winter"});
    CHECK(ox.after.source.work == "Nine Lights");
    CHECK(quill.after.drink == ox.id);
    const auto revisions = again->revisions(ox.id);
    REQUIRE(revisions.size() == 2);
    CHECK(quill.after.revision == revisions[0].id);
    CHECK(ox.published == revisions[0].id);
    CHECK(ox.house == revisions[0].id);
    CHECK(revisions[0].measures.volumesMl.at(quantity::Measure::Dash).typical == 0.8);
    REQUIRE(again->setAside(ox.id).size() == 1);
    CHECK(again->setAside(ox.id)[0].why == "too much");
    const auto drafts = again->drafts(ox.id);
    REQUIRE(drafts.size() == 2);
    CHECK(drafts[1].name == "with honey");
    CHECK(drafts[1].setAside);
    REQUIRE(again->bin().drafts.size() == 1);
    CHECK(again->bin().drafts[0].name == "with sea lettuce");
    const auto tastings = again->tastings(revisions[0].id);
    REQUIRE(tastings.size() == 3);
    CHECK(tastings[0].note == "thin, and warm");
    CHECK(tastings[0].circumstances.measured.weight->grams() == 90.5);
    REQUIRE(tastings[0].amends);
    CHECK(again->findTasting(*tastings[0].amends)->note == "thin 🥃");
    CHECK(again->photosOf(tastings[0].id).size() == 1);
    CHECK(again->photosOf(tastings[0].id)[0].caption == "from above");
    CHECK(again->photosOf(revisions[1].id).size() == 1);
    CHECK(again->photoTally().photos == 3);
    for (const auto& person : again->people())
        CHECK(person.name != "Tom Orr");
    REQUIRE(again->panels().size() == 2);
    CHECK(again->panels()[0].state == tasting::PanelState::Closed);
    CHECK(again->panels()[0].answered == 1);
    CHECK(again->panels()[1].binned);
    REQUIRE(again->savedSearches().size() == 1);
    CHECK(again->savedSearches()[0].request.filters.tooMuchOf == "sweet");
    CHECK(again->settings().scales.find("smoke") != nullptr);
    const auto larder = again->larder();
    CHECK(larder.poured(larder.match("London dry gin").ingredient)->name == "London dry gin, 47 %");
    CHECK(larder.match("the dark stuff").quality == larder::MatchQuality::Remembered);
    REQUIRE(again->binnedIngredients().size() == 1);
    // The newest price, and the one before it.
    CHECK(larder.find(larder.match("kelp tincture").ingredient)->packs[0].price.minor == 1400);
    CHECK(store::recordOf(*again).packs.size() == 2);
}

TEST_CASE("a kept revision that was changed in the export is refused and leaves nothing", "[store][export]") {
    TempFolder folder;
    base::FixedClock clock{kEvening};
    const auto book = Workbook::create(folder.file("first.stillroom"), lowLamp(), clock);
    fill(*book, clock);
    const auto out = store::exportBook(*book);
    const auto path = folder.file("second.stillroom");
    const auto refused = [&](exchange::ScriptedBook changed) -> std::string {
        try {
            store::createBook(path, changed);
        } catch (const std::runtime_error& error) {
            CHECK_FALSE(std::filesystem::exists(path));
            return error.what();
        }
        return {};
    };
    const auto ox = std::find_if(out.drinks.begin(), out.drinks.end(),
                                 [](const auto& each) { return each.drink.name == "Ox Skerry"; }) -
                    out.drinks.begin();
    auto changed = out;
    changed.drinks[static_cast<std::size_t>(ox)].revisions[0].reason = "another story";
    CHECK(refused(changed).find("its hash is another") != std::string::npos);
    changed = out;
    changed.states.clear();
    CHECK(refused(changed).find("are not there") != std::string::npos);
    changed = out;
    changed.keptMeasures.clear();
    CHECK(refused(changed).find("house measures are not there") != std::string::npos);
    changed = out;
    changed.people[0].id = {};
    CHECK(refused(changed).find("has no \"id\"") != std::string::npos);
    changed = out;
    changed.panels[0].said.pop_back();
    CHECK(refused(changed).find("not the last that were said") != std::string::npos);
    CHECK(refused(out).empty());
}

TEST_CASE("an instant is written with the milliseconds it has", "[export]") {
    CHECK(base::exactIsoText({1793649600250, 60}) == "2026-11-02T21:00:00.250+01:00");
    CHECK(base::exactIsoText({1793649600000, -90}) == "2026-11-02T18:30:00-01:30");
    for (const base::Instant when : {base::Instant{1793649600007, 60}, base::Instant{1793649600990, -330},
                                     base::Instant{1793649600000, 0}})
        CHECK(base::instantFromIso(base::exactIsoText(when)) == when);
    CHECK(base::instantFromIso("2026-11-02T21:00:00.5+01:00").utcMs == 1793649600500);
    // "nan" once came out of the seconds of a damaged book, found by fuzzing.
    for (const char* none :
         {"2026-11-08T20:3rrrrrrrrrrrrr1:00+00:00", "2026-11-02T21:00:00.+01:00",
          "2026-11-02T21:00:nan+01:00", "2026-11-02T21:00:-nan+01:00", "2026-02-30T21:00:00+01:00",
          "2026-11-02T24:00:00+01:00", "2026-11-02T21:00:61+01:00", "2026-11-02T21:00:00+01:00 ",
          "2026-11-02T21:00:00", "99999-11-02T21:00:00+01:00", "", "T"})
        CHECK(base::instantFromIso(none) == base::Instant{});
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
