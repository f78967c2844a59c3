#include "core/store/workbook.h"

#include "core/base/text.h"
#include "core/preparation/made_readings.h"
#include "core/preparation/recompute.h"
#include "core/store/backup.h"
#include "core/store/circle_guard.h"
#include "core/store/measured_tastings.h"
#include "core/store/migrator.h"
#include "core/store/pins.h"
#include "core/store/sqlite_workbook.h"
#include "core/store/stored.h"

#include <algorithm>
#include <unordered_map>

namespace stillroom::store {

namespace {

// What a program of schema 1 could still read; raised by a migration that old programs would misread.
// Schema 1 knows no lots, no shares of a purchase and no tax: it would read other costs and strengths.
constexpr int kReadableFrom = 2;

// By menu, then name; binned ones last; equal names as they came.
std::vector<DrinkSummary> inShelfOrder(std::vector<DrinkRepository::Listed> listed) {
    struct Place {
        bool binned;
        std::string menu, name;
        std::size_t index;
        auto operator<=>(const Place&) const = default;
    };
    std::vector<Place> places;
    for (const auto& [summary, draft, version] : listed)
        places.push_back({summary.binned, base::sortKeyForPeople(summary.menuName),
                          base::sortKeyForPeople(summary.name), places.size()});
    std::sort(places.begin(), places.end());
    std::vector<DrinkSummary> summaries;
    for (const Place& place : places)
        summaries.push_back(std::move(listed[place.index].summary));
    return summaries;
}

// What making it cost is worked out anew each time: never stored as a price somebody typed.
larder::Ingredient withTypedPacks(larder::Ingredient ingredient) {
    std::erase_if(ingredient.packs,
                  [&](const larder::Pack& pack) { return preparation::isCostOfMaking(pack, ingredient.id); });
    return ingredient;
}

} // namespace

// Of the day it is: a price or a rate of a later day does not count yet.
BookSettings SqliteWorkbook::settingsNow() const {
    BookSettings settings = m_settings.load();
    settings.rules.pricesOn = base::isoText(m_book.clock.now()).substr(0, 10);
    return settings;
}

BookSettings SqliteWorkbook::settings() const {
    return reading("reading the settings", [&] { return settingsNow(); });
}

void SqliteWorkbook::saveSettings(const BookSettings& settings) {
    change("saving the settings", Durability::Kept, [&] { m_settings.save(settings); });
    larderChanged();
}

std::vector<DrinkSummary> SqliteWorkbook::summaries() const {
    return reading("listing the drinks", [&] {
        auto all = m_drinks.list();
        for (auto& listed : all)
            if (!listed.summary.servedStrength && !listed.draft.isNull())
                listed.summary.servedStrength = draftStrength(listed);
        readAsMade(all);
        return inShelfOrder(std::move(all));
    });
}

// What is in the bottle after its steps, as drinks pour it, and not the plain sum of its lines.
void SqliteWorkbook::readAsMade(std::vector<DrinkRepository::Listed>& all) const {
    const bool any = std::any_of(all.begin(), all.end(), [](const auto& listed) {
        return listed.summary.form == history::DrinkForm::Preparation;
    });
    if (!any) return;
    std::unordered_map<base::DrinkId, spec::Reading> strengths;
    for (const larder::Ingredient* each : larder().all())
        if (each->madeBy) strengths[*each->madeBy] = preparation::strengthOf(each->facts);
    for (auto& listed : all)
        if (const auto found = strengths.find(listed.summary.id); found != strengths.end())
            listed.summary.servedStrength = found->second;
}

spec::Reading SqliteWorkbook::draftStrength(const DrinkRepository::Listed& listed) const {
    DraftStrength& known = m_draftStrengths[listed.draft];
    if (known.version == listed.draftVersion) return known.strength;
    const auto draft = m_drinks.draft(listed.draft);
    if (!draft) return {};
    const auto readings = spec::evaluate(draft->spec, larder(), draftRules());
    known = {draft->version, readings[spec::Stage::Served][spec::Quantity::Strength]};
    return known.strength;
}

std::optional<history::Drink> SqliteWorkbook::drink(base::DrinkId id) const {
    return reading("reading a drink", [&] { return m_drinks.find(id); });
}

std::vector<history::Draft> SqliteWorkbook::drafts(base::DrinkId drink) const {
    return reading("reading the drafts", [&] { return m_drinks.draftsOf(drink); });
}

std::optional<history::Draft> SqliteWorkbook::draft(base::DraftId id) const {
    return reading("reading a draft", [&] { return m_drinks.draft(id); });
}

std::vector<history::Revision> SqliteWorkbook::revisions(base::DrinkId drink) const {
    return reading("reading the revisions", [&] { return m_revisions.ofDrink(drink); });
}

std::optional<history::Revision> SqliteWorkbook::revision(base::RevisionId id) const {
    return reading("reading a revision", [&] { return m_revisions.find(id); });
}

std::vector<tasting::Tasting> SqliteWorkbook::tastings(base::RevisionId revision) const {
    return reading("reading the tastings", [&] { return m_tastings.ofRevision(revision); });
}

std::vector<tasting::Person> SqliteWorkbook::people() const {
    return reading("reading the people", [&] { return m_tastings.people(); });
}

std::optional<larder::FactState> SqliteWorkbook::factState(const std::string& hash) const {
    return reading("reading a fact state", [&] { return m_revisions.state(hash); });
}

larder::Larder SqliteWorkbook::larder() const {
    return reading("reading the larder", [&] {
        if (!m_larder) {
            LarderBuilder builder(m_drinks, m_revisions, m_ingredients, m_lots);
            m_larder = builder.build(settingsNow().rules);
            m_draftsInLarder = builder.draftsPoured();
            m_preparations = builder.preparations();
        }
        return *m_larder;
    });
}

preparation::Specs SqliteWorkbook::preparations() const {
    return reading("reading the preparations", [&] {
        larder();
        return m_preparations;
    });
}

std::vector<preparation::Circle> SqliteWorkbook::circles() const {
    return reading("looking for circles", [&] { return preparation::circlesIn(preparations(), larder()); });
}

larder::Larder SqliteWorkbook::larderOf(const history::Revision& revision) const {
    return reading("reading the larder of a revision", [&] {
        return pinnedLarder(revision, larder(), settingsNow().rules, m_revisions, m_ingredients);
    });
}

spec::HouseRules SqliteWorkbook::rulesOf(const history::Revision& revision) const {
    return reading("reading the rules of a revision",
                   [&] { return rulesThen(revision, settingsNow().rules); });
}

history::Draft SqliteWorkbook::addDrink(const history::Drink& drink, const spec::Spec& spec) {
    history::Drink added = drink;
    if (added.id.isNull()) added.id = base::DrinkId::random();
    if (added.created == base::Instant{}) added.created = m_book.clock.now();
    const auto draft = change("adding a drink", Durability::Kept, [&] {
        requireOwnMarks(added);
        m_drinks.add(added);
        return m_drinks.addDraft(added.id, std::nullopt, spec);
    });
    if (added.form == history::DrinkForm::Preparation) larderChanged();
    return draft;
}

void SqliteWorkbook::requireOwnMarks(const history::Drink& drink) const {
    const auto require = [&](bool holds, const char* what) {
        if (!holds) throw StoreError(StoreErrorKind::Refused, 0, m_path, what);
    };
    const auto ownerOf = [&](const std::optional<base::RevisionId>& id) {
        const auto revision = m_revisions.find(*id);
        return revision ? std::optional(revision->drink) : std::nullopt;
    };
    require(!drink.house || ownerOf(drink.house) == drink.id,
            "the house revision of a drink must be one of its own");
    require(!drink.published || ownerOf(drink.published) == drink.id,
            "the published revision of a drink must be one of its own");
    require(!drink.after.revision ||
                (drink.after.drink && ownerOf(drink.after.revision) == drink.after.drink),
            "the revision a drink comes after must be of the drink it comes after");
    // A drink may descend from one that descends from it only by mistake: no card could tell it.
    std::set<base::DrinkId> seen{drink.id};
    for (auto next = drink.after.drink; next;) {
        require(seen.insert(*next).second, "a drink cannot come after itself");
        const auto before = m_drinks.find(*next);
        require(before.has_value(), "the drink it comes after is not in this book");
        next = before->after.drink;
    }
}

void SqliteWorkbook::saveDrink(const history::Drink& drink) {
    const bool changed = change("saving a drink", Durability::Kept, [&] {
        requireOwnMarks(drink);
        if (drink.house) refuseCircle(*this, drink.id, m_revisions.find(*drink.house)->spec);
        return m_drinks.save(drink);
    });
    if (changed && drink.form == history::DrinkForm::Preparation) larderChanged();
}

void SqliteWorkbook::saveDraft(base::DraftId draft, const spec::Spec& spec) {
    const std::lock_guard lock(m_mutex);
    const bool changed =
        change("saving the draft", Durability::Draft, [&] { return m_drinks.saveSpec(draft, spec); });
    if (changed && m_draftsInLarder.count(draft) > 0) larderChanged();
}

tl::expected<history::Revision, KeepRefusal> SqliteWorkbook::keep(base::DraftId draftId,
                                                                  const std::string& reason) {
    const std::lock_guard lock(m_mutex);
    using Result = tl::expected<history::Revision, KeepRefusal>;
    auto result = change("keeping a revision", Durability::Kept, [&]() -> Result {
        const auto draft = m_drinks.draft(draftId);
        if (!draft) throw notFound(m_book.connection, "draft", draftId.text());
        refuseCircle(*this, draft->drink, draft->spec);
        const history::Revision revision = revisionFor(*draft, reason);
        if (revision.parent) {
            const auto parent = m_revisions.find(*revision.parent);
            if (parent && parent->spec == revision.spec && parent->facts == revision.facts &&
                parent->measures == revision.measures)
                return tl::unexpected(KeepRefusal::NothingChanged);
        }
        addFirstStates(revision);
        insertAndCompare(revision);
        m_drinks.setBasedOn(draftId, revision.id);
        return revision;
    });
    if (result) {
        if (result->spec.method.dilution) measuredChanged();
        const auto kept = m_drinks.find(result->drink);
        if (kept && kept->form == history::DrinkForm::Preparation) larderChanged();
    }
    return result;
}

history::Revision SqliteWorkbook::revisionFor(const history::Draft& draft, const std::string& reason) {
    const larder::Larder now = larder();
    const spec::HouseRules& rules = draftRules(); // a revision is kept as its draft was seen
    history::Revision revision;
    revision.id = base::RevisionId::random();
    revision.drink = draft.drink;
    revision.parent = draft.basedOn;
    revision.number = m_revisions.nextNumber(draft.drink);
    revision.reason = reason;
    revision.kept = m_book.clock.now();
    revision.spec = draft.spec;
    revision.facts = pinnedFacts(draft.spec, now, m_revisions);
    revision.measures = rules.measures;
    revision.currency = rules.currency;
    revision.readings = spec::evaluate(draft.spec, now, rules);
    revision.hash = revision.contentHash();
    return revision;
}

// A handbook kind's state, or a preparation's computed one, enters the book the first time it is used.
void SqliteWorkbook::addFirstStates(const history::Revision& revision) {
    const larder::Larder now = larder();
    for (const auto& [ingredient, hash] : revision.facts.states)
        if (const larder::Ingredient* poured = now.poured(ingredient)) m_revisions.addState(poured->facts);
}

// What is about to become permanent is read back first; a difference undoes the whole change.
void SqliteWorkbook::insertAndCompare(const history::Revision& revision) {
    m_revisions.insert(revision);
    const auto stored = m_revisions.find(revision.id);
    const bool same = stored && stored->id == revision.id && stored->number == revision.number &&
                      stored->hash == revision.hash && stored->contentHash() == revision.hash;
    if (!same)
        throw StoreError(StoreErrorKind::Damaged, 0, m_path,
                         "the revision did not read back as it was written; nothing was kept");
}

base::PersonId SqliteWorkbook::addPerson(const std::string& name, const std::string& initials) {
    return change("adding a person", Durability::Kept, [&] { return m_tastings.addPerson(name, initials); });
}

void SqliteWorkbook::renamePerson(base::PersonId person, const std::string& name,
                                  const std::string& initials) {
    change("renaming a person", Durability::Kept, [&] { m_tastings.renamePerson(person, name, initials); });
}

tasting::Tasting SqliteWorkbook::addTasting(const tasting::Tasting& tasting) {
    tasting::Tasting added = tasting;
    if (added.id.isNull()) added.id = base::TastingId::random();
    if (added.when == base::Instant{}) added.when = m_book.clock.now();
    const auto refuse = [&](const char* why) { return StoreError(StoreErrorKind::Refused, 0, m_path, why); };
    if (!added.scores.isWhole()) throw refuse("a score stands outside its scale");
    if (added.circumstances.problem()) throw refuse("the circumstances of a tasting cannot be");
    change("adding a tasting", Durability::Kept, [&] {
        if (added.amends) {
            const auto amended = m_tastings.find(*added.amends);
            if (!amended || amended->revision != added.revision)
                throw refuse("a tasting can only amend another of the same revision");
        }
        m_tastings.insert(added);
        if (m_tastings.find(added.id) != added)
            throw StoreError(StoreErrorKind::Damaged, 0, m_path,
                             "the tasting did not read back as it was written; nothing was added");
    });
    if (added.amends || !added.circumstances.isEmpty()) measuredChanged(); // a weight may have come or gone
    return added;
}

std::vector<tasting::Tasting> SqliteWorkbook::tastingsOf(base::DrinkId drink) const {
    return reading("reading the tastings of a drink", [&] { return m_tastings.ofDrink(drink); });
}

std::optional<tasting::Tasting> SqliteWorkbook::findTasting(base::TastingId id) const {
    return reading("reading a tasting", [&] { return m_tastings.find(id); });
}

std::vector<larder::Ingredient> SqliteWorkbook::binnedIngredients() const {
    return reading("reading the bin", [&] { return m_ingredients.binned(); });
}

std::vector<IngredientUse> SqliteWorkbook::usesOf(base::IngredientId ingredient) const {
    return reading("looking for uses", [&] { return m_uses.of(ingredient); });
}

std::vector<spec::Spec> SqliteWorkbook::measuredSpecs() const {
    return reading("reading measured dilutions", [&] {
        if (!m_measured) {
            std::vector<spec::Spec> found = m_revisions.measuredSpecs();
            m_measuredIsKept = addTasted(found, *this);
            m_measured = std::move(found);
        }
        return *m_measured;
    });
}

std::vector<tasting::Tasting> SqliteWorkbook::measuredTastings() const {
    return reading("reading measured tastings", [&] { return m_tastings.measured(); });
}

void SqliteWorkbook::saveIngredients(const std::vector<larder::Ingredient>& all) {
    change("saving an ingredient", Durability::Kept, [&] {
        refuseCircle(*this, all);
        for (const larder::Ingredient& ingredient : all) {
            m_revisions.addState(ingredient.facts);
            m_ingredients.save(withTypedPacks(ingredient));
        }
    });
    larderChanged();
}

void SqliteWorkbook::binIngredient(base::IngredientId ingredient, bool binned) {
    change("binning an ingredient", Durability::Kept, [&] {
        if (!m_ingredients.find(ingredient))
            throw notFound(m_book.connection, "ingredient", ingredient.text());
        m_ingredients.bin(ingredient, binned);
    });
    larderChanged();
}

void SqliteWorkbook::saveLot(const larder::Lot& lot) {
    change("saving a lot", Durability::Kept, [&] { m_lots.save(lot); });
    larderChanged();
}

void SqliteWorkbook::changeLarder(const LarderChange& asked) {
    change("changing the larder", Durability::Kept, [&] {
        refuseCircle(*this, asked.ingredients);
        for (const larder::Lot& lot : asked.lots)
            m_lots.save(lot);
        for (const larder::Ingredient& ingredient : asked.ingredients) {
            m_revisions.addState(ingredient.facts);
            m_ingredients.save(withTypedPacks(ingredient));
            m_ingredients.bin(ingredient.id, false);
        }
        for (const base::IngredientId id : asked.binned) {
            if (!m_ingredients.find(id)) throw notFound(m_book.connection, "ingredient", id.text());
            m_ingredients.bin(id, true);
        }
        for (const base::LotId id : asked.lotsGone)
            m_lots.takeBack(id);
    });
    larderChanged();
}

void SqliteWorkbook::rememberName(const std::string& writtenName, base::IngredientId ingredient) {
    change("remembering a name", Durability::Kept,
           [&] { m_ingredients.remember(base::fold(writtenName), ingredient); });
    larderChanged();
}

void SqliteWorkbook::forgetName(const std::string& writtenName) {
    change("forgetting a name", Durability::Kept, [&] { m_ingredients.forget(base::fold(writtenName)); });
    larderChanged();
}

void SqliteWorkbook::saveCopy(const std::string& path) const {
    reading("saving a copy", [&] { backUp(m_book.connection, path); });
}

void SqliteWorkbook::flush() {
    const std::lock_guard lock(m_mutex);
    if (!m_file.readOnly) m_book.connection.checkpoint();
}

std::unique_ptr<Workbook> Workbook::create(const std::string& path, const BookSettings& settings,
                                           const base::Clock& clock, Place place) {
    OpenedFile file;
    file.connection = createFile(path, place);
    const auto id = base::BookId::random();
    try {
        file.connection->change("creating the workbook", Durability::Kept, [&] {
            runMigrations(*file.connection, 0, schemaMigrations());
            Book book{*file.connection, id, clock};
            SettingsRepository repository(book);
            repository.createBook(kReadableFrom);
            repository.save(settings);
        });
        file.connection->checkpoint();
    } catch (...) {
        file.connection.reset();
        removeFile(path);
        throw;
    }
    return std::make_unique<SqliteWorkbook>(path, std::move(file), id, clock);
}

std::unique_ptr<Workbook> Workbook::open(const std::string& path, OpenMode mode, const base::Clock& clock,
                                         Place place) {
    OpenedFile file = openFile(path, mode, schemaMigrations(), place);
    const auto id = file.connection->guarded("reading the workbook's id",
                                             [&] { return SettingsRepository::bookId(*file.connection); });
    return std::make_unique<SqliteWorkbook>(path, std::move(file), id, clock);
}

} // namespace stillroom::store
