#include "core/store/drink_repository.h"

#include "core/store/stored.h"
#include "core/store/use_repository.h"

#include <unordered_map>

namespace stillroom::store {

namespace {

#define STILLROOM_DRINK                                                                                      \
    "SELECT id, form, name, brief, notes, menu_name, credit, house, binned, created_ms, created_offset,"     \
    " published, after_drink, after_revision, after_person, after_place, after_year, after_work, tags"       \
    " FROM drink"
constexpr const char* kSelectDrink = STILLROOM_DRINK " WHERE id = ?";
constexpr const char* kSelectPreparations =
    STILLROOM_DRINK " WHERE form = 'preparation' AND binned = 0 ORDER BY row";
constexpr const char* kSelectBinnedDrinks = STILLROOM_DRINK " WHERE binned = 1 ORDER BY row";
#undef STILLROOM_DRINK

#define STILLROOM_DRAFT                                                                                      \
    "SELECT f.id, f.drink, f.based_on, f.saved_ms, f.saved_offset, f.version, f.spec, f.name, f.set_aside,"  \
    " f.binned FROM draft f"
constexpr const char* kSelectDraft = STILLROOM_DRAFT " WHERE f.id = ?";
constexpr const char* kSelectDraftsOfDrink =
    STILLROOM_DRAFT " WHERE f.drink = ? AND f.binned = 0 ORDER BY f.set_aside, f.row";
constexpr const char* kSelectBinnedDrafts =
    STILLROOM_DRAFT " JOIN drink d ON d.id = f.drink WHERE f.binned = 1 AND d.binned = 0 ORDER BY f.row";
#undef STILLROOM_DRAFT

const char* formId(history::DrinkForm form) {
    return form == history::DrinkForm::Preparation ? "preparation" : "drink";
}

history::DrinkForm formFrom(const std::string& id) {
    return id == "preparation" ? history::DrinkForm::Preparation : history::DrinkForm::Drink;
}

history::Drink drinkFrom(const Query& row) {
    history::Drink drink;
    drink.id = row.id<base::DrinkId>(0);
    drink.form = formFrom(row.text(1));
    drink.name = row.text(2);
    drink.brief = row.text(3);
    drink.notes = row.text(4);
    drink.menuName = row.text(5);
    drink.credit = row.text(6);
    drink.house = row.optionalId<base::RevisionId>(7);
    drink.binned = row.integer(8) != 0;
    drink.created = {row.integer(9), row.smallInteger(10)};
    drink.published = row.optionalId<base::RevisionId>(11);
    drink.after.drink = row.optionalId<base::DrinkId>(12);
    drink.after.revision = row.optionalId<base::RevisionId>(13);
    drink.after.source = {row.text(14), row.text(15), row.text(16), row.text(17)};
    drink.tags = storedList(row.text(18));
    return drink;
}

history::Draft draftFrom(const Query& row, const std::string& path) {
    history::Draft draft;
    draft.id = row.id<base::DraftId>(0);
    draft.drink = row.id<base::DrinkId>(1);
    draft.basedOn = row.optionalId<base::RevisionId>(2);
    draft.saved = {row.integer(3), row.smallInteger(4)};
    draft.version = row.integer(5);
    draft.spec = storedSpec(row.text(6), path, "draft " + draft.id.text());
    draft.name = row.text(7);
    draft.setAside = row.integer(8) != 0;
    draft.binned = row.integer(9) != 0;
    return draft;
}

std::vector<history::Drink> drinksFrom(Query& query) {
    std::vector<history::Drink> found;
    while (query.next())
        found.push_back(drinkFrom(query));
    return found;
}

} // namespace

void DrinkRepository::add(const history::Drink& drink) {
    Query(m_book.connection,
          "INSERT INTO drink (id, form, created_ms, created_offset, name, name_author, name_version, brief,"
          " notes, credit, words_author, words_version, menu_name, menu_author, menu_version, house,"
          " house_author, house_version, binned, binned_author, binned_version)"
          " VALUES (?1, ?2, ?3, ?4, ?5, ?12, 1, ?6, ?7, ?8, ?12, 1, ?9, ?12, 1, ?10, ?12, 1, ?11, ?12, 1)")
        .with(drink.id, formId(drink.form), drink.created.utcMs, drink.created.offsetMinutes, drink.name,
              drink.brief, drink.notes, drink.credit, drink.menuName, drink.house, drink.binned, m_book.id)
        .run();
    save(drink); // what came with later versions
}

std::optional<history::Drink> DrinkRepository::find(base::DrinkId id) const {
    Query query(m_book.connection, kSelectDrink);
    query.with(id);
    return query.next() ? std::optional(drinkFrom(query)) : std::nullopt;
}

std::vector<history::Drink> DrinkRepository::preparations() const {
    Query query(m_book.connection, kSelectPreparations);
    return drinksFrom(query);
}

std::vector<history::Drink> DrinkRepository::binnedDrinks() const {
    Query query(m_book.connection, kSelectBinnedDrinks);
    return drinksFrom(query);
}

bool DrinkRepository::save(const history::Drink& drink) {
    const auto stored = find(drink.id);
    if (!stored) throw notFound(m_book.connection, "drink", drink.id.text());
    bool changed = false;
    const auto write = [&](const char* sql, const auto&... values) {
        Query(m_book.connection, sql).with(drink.id, m_book.id, values...).run();
        changed = true;
    };
    if (drink.name != stored->name)
        write("UPDATE drink SET name = ?3, name_author = ?2, name_version = name_version + 1 WHERE id = ?1",
              drink.name);
    if (drink.brief != stored->brief || drink.notes != stored->notes || drink.credit != stored->credit)
        write("UPDATE drink SET brief = ?3, notes = ?4, credit = ?5, words_author = ?2,"
              " words_version = words_version + 1 WHERE id = ?1",
              drink.brief, drink.notes, drink.credit);
    if (drink.menuName != stored->menuName)
        write("UPDATE drink SET menu_name = ?3, menu_author = ?2, menu_version = menu_version + 1 WHERE id = "
              "?1",
              drink.menuName);
    if (drink.house != stored->house)
        write(
            "UPDATE drink SET house = ?3, house_author = ?2, house_version = house_version + 1 WHERE id = ?1",
            drink.house);
    if (drink.binned != stored->binned)
        write("UPDATE drink SET binned = ?3, binned_author = ?2, binned_version = binned_version + 1"
              " WHERE id = ?1",
              drink.binned);
    if (drink.published != stored->published)
        write("UPDATE drink SET published = ?3, published_author = ?2,"
              " published_version = published_version + 1 WHERE id = ?1",
              drink.published);
    if (drink.after != stored->after)
        write("UPDATE drink SET after_drink = ?3, after_revision = ?4, after_person = ?5, after_place = ?6,"
              " after_year = ?7, after_work = ?8, after_author = ?2, after_version = after_version + 1"
              " WHERE id = ?1",
              drink.after.drink, drink.after.revision, drink.after.source.person, drink.after.source.place,
              drink.after.source.year, drink.after.source.work);
    if (drink.tags != stored->tags)
        write("UPDATE drink SET tags = ?3, tags_author = ?2, tags_version = tags_version + 1 WHERE id = ?1",
              listJson(drink.tags));
    return changed;
}

history::Draft DrinkRepository::addDraft(base::DrinkId drink, std::optional<base::RevisionId> basedOn,
                                         const spec::Spec& spec, const std::string& name) {
    history::Draft draft;
    draft.id = base::DraftId::random();
    draft.drink = drink;
    draft.basedOn = basedOn;
    draft.spec = spec;
    draft.saved = m_book.clock.now();
    draft.version = 1;
    const std::string json = spec.canonicalJson();
    Query(m_book.connection,
          "INSERT INTO draft (id, drink, based_on, saved_ms, saved_offset, author, version, spec_hash, spec)"
          " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)")
        .with(draft.id, drink, basedOn, draft.saved.utcMs, draft.saved.offsetMinutes, m_book.id,
              draft.version, Digest::ofText(json), json)
        .run();
    UseRepository(m_book).note(draft.id, spec);
    if (!name.empty()) renameDraft(draft.id, name);
    draft.name = name;
    return draft;
}

void DrinkRepository::renameDraft(base::DraftId draft, const std::string& name) {
    requireDraft(draft);
    Query(m_book.connection, "UPDATE draft SET name = ?2, name_author = ?3, name_version = name_version + 1"
                             " WHERE id = ?1 AND name <> ?2")
        .with(draft, name, m_book.id)
        .run();
}

void DrinkRepository::setDraftAside(base::DraftId draft, bool aside) {
    requireDraft(draft);
    Query(m_book.connection, "UPDATE draft SET set_aside = ?2, set_aside_author = ?3,"
                             " set_aside_version = set_aside_version + 1 WHERE id = ?1 AND set_aside <> ?2")
        .with(draft, aside, m_book.id)
        .run();
}

void DrinkRepository::binDraft(base::DraftId draft, bool binned) {
    requireDraft(draft);
    Query(m_book.connection,
          "UPDATE draft SET binned = ?2, binned_author = ?3, binned_version = binned_version + 1"
          " WHERE id = ?1 AND binned <> ?2")
        .with(draft, binned, m_book.id)
        .run();
}

void DrinkRepository::requireDraft(base::DraftId draft) const {
    Query query(m_book.connection, "SELECT 1 FROM draft WHERE id = ?");
    query.with(draft);
    if (!query.next()) throw notFound(m_book.connection, "draft", draft.text());
}

std::optional<history::Draft> DrinkRepository::draft(base::DraftId id) const {
    Query query(m_book.connection, kSelectDraft);
    query.with(id);
    return query.next() ? std::optional(draftFrom(query, m_book.connection.path())) : std::nullopt;
}

std::vector<history::Draft> DrinkRepository::draftsOf(base::DrinkId drink) const {
    Query query(m_book.connection, kSelectDraftsOfDrink);
    query.with(drink);
    return draftsFrom(query);
}

std::vector<history::Draft> DrinkRepository::binnedDrafts() const {
    Query query(m_book.connection, kSelectBinnedDrafts);
    return draftsFrom(query);
}

std::vector<history::Draft> DrinkRepository::draftsFrom(Query& query) const {
    std::vector<history::Draft> found;
    while (query.next())
        found.push_back(draftFrom(query, m_book.connection.path()));
    return found;
}

bool DrinkRepository::saveSpec(base::DraftId draft, const spec::Spec& spec) {
    const std::string json = spec.canonicalJson();
    {
        Query stored(m_book.connection, "SELECT spec FROM draft WHERE id = ?");
        stored.with(draft);
        if (!stored.next()) throw notFound(m_book.connection, "draft", draft.text());
        if (stored.text(0) == json) return false;
    }
    const base::Instant now = m_book.clock.now();
    Query(m_book.connection,
          "UPDATE draft SET spec = ?2, spec_hash = ?3, saved_ms = ?4, saved_offset = ?5, author = ?6,"
          " version = version + 1 WHERE id = ?1")
        .with(draft, json, Digest::ofText(json), now.utcMs, now.offsetMinutes, m_book.id)
        .run();
    UseRepository(m_book).note(draft, spec);
    return true;
}

void DrinkRepository::setBasedOn(base::DraftId draft, base::RevisionId revision) {
    Query(m_book.connection,
          "UPDATE draft SET based_on = ?2, author = ?3, version = version + 1 WHERE id = ?1")
        .with(draft, revision, m_book.id)
        .run();
}

std::vector<DrinkRepository::Listed> DrinkRepository::list() const {
    std::vector<Listed> listed;
    std::unordered_map<base::DrinkId, std::size_t> places;
    Query drinks(
        m_book.connection,
        "SELECT d.id, d.form, d.name, d.menu_name, d.binned, ifnull(n.total, 0), r.strength_bound,"
        " r.strength_value, r.strength_upper, r.strength_estimate, r.strength_gap_lines, d.house IS NOT NULL,"
        " d.published IS NOT NULL, d.tags FROM drink d"
        " LEFT JOIN (SELECT drink, count(*) AS total, max(row) AS last FROM revision GROUP BY drink) n"
        " ON n.drink = d.id LEFT JOIN revision r"
        " ON r.row = ifnull((SELECT row FROM revision WHERE id = d.house), n.last)");
    while (drinks.next()) {
        Listed entry;
        entry.summary.id = drinks.id<base::DrinkId>(0);
        entry.summary.form = formFrom(drinks.text(1));
        entry.summary.name = drinks.text(2);
        entry.summary.menuName = drinks.text(3);
        entry.summary.binned = drinks.integer(4) != 0;
        entry.summary.revisions = drinks.smallInteger(5);
        entry.summary.hasHouse = drinks.integer(11) != 0;
        entry.summary.hasPublished = drinks.integer(12) != 0;
        entry.summary.tags = storedList(drinks.text(13));
        if (!drinks.isNull(6))
            entry.summary.servedStrength = storedReading(drinks.text(6), drinks.real(7), drinks.real(8),
                                                         drinks.integer(9) != 0, drinks.integer(10));
        places[entry.summary.id] = listed.size();
        listed.push_back(std::move(entry));
    }
    Query drafts(m_book.connection,
                 "SELECT f.drink, f.id, f.version, r.spec_hash IS NOT f.spec_hash FROM draft f"
                 " LEFT JOIN revision r ON r.id = f.based_on WHERE f.binned = 0 ORDER BY f.row");
    while (drafts.next()) {
        const auto place = places.find(drafts.id<base::DrinkId>(0));
        if (place == places.end()) continue;
        Listed& entry = listed[place->second];
        entry.draft = drafts.id<base::DraftId>(1);
        entry.draftVersion = drafts.integer(2);
        ++entry.summary.drafts;
        entry.summary.draftDiffers = entry.summary.draftDiffers || drafts.integer(3) != 0;
    }
    return listed;
}

} // namespace stillroom::store
