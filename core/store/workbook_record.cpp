// All of a book at once: read for export, put back by import.
#include "core/base/hash.h"
#include "core/store/book_record.h"
#include "core/store/sqlite_workbook.h"
#include "core/store/stored.h"

#include <algorithm>

namespace stillroom::store {

namespace {

// Reads and writes the tables that no repository lists whole.
class Records {
  public:
    explicit Records(Book& book) : m_book(book) {}

    template <class IdType>
    std::vector<IdType> ids(const char* sql) const {
        Query query(m_book.connection, sql);
        std::vector<IdType> found;
        while (query.next())
            found.push_back(query.id<IdType>(0));
        return found;
    }

    std::vector<larder::FactState> states(const RevisionRepository& revisions) const {
        std::vector<std::string> hashes;
        {
            Query query(m_book.connection, "SELECT hash FROM fact_state ORDER BY row");
            while (query.next())
                hashes.push_back(query.hex(0));
        }
        std::vector<larder::FactState> found;
        for (const std::string& hash : hashes)
            found.push_back(*revisions.state(hash));
        return found;
    }

    std::vector<BookRecord::Pack> packs() const;
    std::vector<BookRecord::Panel> panels() const;

    void put(const tasting::Person& person);
    void put(const history::Draft& draft);
    void put(const SetAside& aside);
    void put(const BookRecord::Pack& pack);
    void put(const AttachedPhoto& photo);
    void put(const BookRecord::Panel& panel);
    void put(const SavedSearch& search);

  private:
    Book& m_book;
};

std::vector<BookRecord::Pack> Records::packs() const {
    Query query(m_book.connection, "SELECT ingredient, id, place, minor, currency, for_ml, for_g, for_pieces,"
                                   " priced_on, supplier, tax_percent, added_ms, dropped_ms FROM pack"
                                   " ORDER BY row");
    const auto real = [&query](int column) {
        return query.isNull(column) ? std::nullopt : std::optional(query.real(column));
    };
    std::vector<BookRecord::Pack> found;
    while (query.next()) {
        BookRecord::Pack entry;
        entry.of = query.id<base::IngredientId>(0);
        entry.pack.id = query.id<base::PackId>(1);
        entry.place = query.integer(2);
        entry.pack.price.minor = query.integer(3);
        entry.pack.price.currency =
            quantity::Currency::fromCode(query.text(4)).value_or(quantity::Currency{});
        entry.pack.forMl = real(5);
        entry.pack.forG = real(6);
        entry.pack.forPieces = real(7);
        entry.pack.pricedOn = query.text(8);
        entry.pack.supplier = query.text(9);
        const auto tax = quantity::Rational::fromText(query.text(10));
        if (!tax)
            throw StoreError(StoreErrorKind::Damaged, 0, m_book.connection.path(),
                             "the tax of a pack cannot be read");
        entry.pack.taxPercent = *tax;
        entry.addedMs = query.integer(11);
        if (!query.isNull(12)) entry.droppedMs = query.integer(12);
        found.push_back(std::move(entry));
    }
    return found;
}

std::vector<BookRecord::Panel> Records::panels() const {
    std::vector<BookRecord::Panel> found;
    {
        Query query(m_book.connection,
                    "SELECT id, name, created_ms, created_offset, binned, plan FROM panel ORDER BY row");
        while (query.next()) {
            BookRecord::Panel entry;
            entry.id = query.id<base::PanelId>(0);
            entry.name = query.text(1);
            entry.created = {query.integer(2), query.smallInteger(3)};
            entry.binned = query.integer(4) != 0;
            auto plan = tasting::Panel::fromCanonicalJson(query.text(5));
            if (!plan)
                throw StoreError(StoreErrorKind::Damaged, 0, m_book.connection.path(),
                                 "the panel " + entry.id.text() + " cannot be read");
            entry.plan = *std::move(plan);
            found.push_back(std::move(entry));
        }
    }
    for (BookRecord::Panel& entry : found) {
        Query steps(m_book.connection, "SELECT state, step_ms, step_offset FROM panel_step WHERE panel = ?");
        steps.with(entry.id);
        while (steps.next()) {
            const base::Instant when{steps.integer(1), steps.smallInteger(2)};
            (steps.text(0) == "closed" ? entry.closed : entry.poured) = when;
        }
        Query answers(m_book.connection, "SELECT id, taster, given_ms, given_offset, answer FROM panel_answer"
                                         " WHERE panel = ? ORDER BY row");
        answers.with(entry.id);
        while (answers.next()) {
            const auto answer = tasting::Answer::fromCanonicalJson(answers.text(4));
            if (!answer)
                throw StoreError(StoreErrorKind::Damaged, 0, m_book.connection.path(),
                                 "an answer of panel " + entry.id.text() + " cannot be read");
            entry.said.push_back({answers.id<base::Id<struct AnswerTag>>(0).bits(),
                                  answers.id<base::PersonId>(1),
                                  {answers.integer(2), answers.smallInteger(3)},
                                  *answer});
        }
    }
    return found;
}

void Records::put(const tasting::Person& person) {
    Query(m_book.connection,
          "INSERT INTO person (id, name, initials, author, version) VALUES (?, ?, ?, ?, 1)")
        .with(person.id, person.name, person.initials, m_book.id)
        .run();
}

void Records::put(const history::Draft& draft) {
    const std::string json = draft.spec.canonicalJson();
    Query(
        m_book.connection,
        "INSERT INTO draft (id, drink, based_on, saved_ms, saved_offset, author, version, binned, spec_hash,"
        " spec, name, name_author, name_version, set_aside)"
        " VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?6, 1, ?12)")
        .with(draft.id, draft.drink, draft.basedOn, draft.saved.utcMs, draft.saved.offsetMinutes, m_book.id,
              draft.version, draft.binned, Digest::ofText(json), json, draft.name, draft.setAside)
        .run();
    UseRepository(m_book).note(draft.id, draft.spec);
}

void Records::put(const SetAside& aside) {
    Query(m_book.connection,
          "INSERT INTO revision_mark (revision, set_aside, why, marked_ms, marked_offset, author, version)"
          " VALUES (?, 1, ?, ?, ?, ?, 1)")
        .with(aside.revision, aside.why, aside.when.utcMs, aside.when.offsetMinutes, m_book.id)
        .run();
}

void Records::put(const BookRecord::Pack& entry) {
    const larder::Pack& pack = entry.pack;
    Query(m_book.connection,
          "INSERT INTO pack (id, ingredient, place, minor, currency, for_ml, for_g, for_pieces, priced_on,"
          " author, added_ms, dropped_ms, supplier, tax_percent)"
          " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")
        .with(pack.id, entry.of, entry.place, pack.price.minor, pack.price.currency.text(), pack.forMl,
              pack.forG, pack.forPieces, pack.pricedOn, m_book.id, entry.addedMs, entry.droppedMs,
              pack.supplier, pack.taxPercent.text())
        .run();
}

void Records::put(const AttachedPhoto& photo) {
    std::optional<base::RevisionId> revision;
    std::optional<base::TastingId> tasting;
    if (const auto* id = std::get_if<base::RevisionId>(&photo.of))
        revision = *id;
    else
        tasting = std::get<base::TastingId>(photo.of);
    Query(m_book.connection,
          "INSERT INTO photo_link (id, photo, revision, tasting, caption, linked_ms, linked_offset, author,"
          " hidden) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)")
        .with(photo.id, Digest::ofHex(photo.info.hash), revision, tasting, photo.caption, photo.when.utcMs,
              photo.when.offsetMinutes, m_book.id, photo.hidden)
        .run();
}

void Records::put(const BookRecord::Panel& entry) {
    const std::string plan = entry.plan.canonicalJson();
    Query(m_book.connection,
          "INSERT INTO panel (id, created_ms, created_offset, author, plan_hash, plan, name, name_author,"
          " name_version, binned) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?4, 1, ?8)")
        .with(entry.id, entry.created.utcMs, entry.created.offsetMinutes, m_book.id, Digest::ofText(plan),
              plan, entry.name, entry.binned)
        .run();
    for (const base::RevisionId& product : entry.plan.design.products)
        Query(m_book.connection, "INSERT INTO panel_product (panel, revision) VALUES (?, ?)")
            .with(entry.id, product)
            .run();
    const auto step = [&](const char* state, const base::Instant& when) {
        Query(m_book.connection, "INSERT INTO panel_step (panel, state, step_ms, step_offset, author)"
                                 " VALUES (?, ?, ?, ?, ?)")
            .with(entry.id, state, when.utcMs, when.offsetMinutes, m_book.id)
            .run();
    };
    if (entry.poured) step("pouring", *entry.poured);
    for (const BookRecord::Said& said : entry.said) {
        const std::string json = said.answer.canonicalJson();
        Query(m_book.connection,
              "INSERT INTO panel_answer (id, panel, taster, given_ms, given_offset, author,"
              " content_hash, answer) VALUES (?, ?, ?, ?, ?, ?, ?, ?)")
            .with(said.id, entry.id, said.taster, said.when.utcMs, said.when.offsetMinutes, m_book.id,
                  Digest::ofText(canonicalAnswer(entry.id, said.taster, said.when, json)), json)
            .run();
    }
    if (entry.closed) step("closed", *entry.closed);
}

void Records::put(const SavedSearch& search) {
    Query(m_book.connection,
          "INSERT INTO saved_search (id, name, request, author, version) VALUES (?, ?, ?, ?, 1)")
        .with(search.id, search.name, search.request.canonicalJson(), m_book.id)
        .run();
}

} // namespace

BookRecord SqliteWorkbook::record() const {
    return reading("reading the whole book", [&] {
        const Records records(m_book);
        BookRecord all;
        all.people = m_tastings.people();
        all.states = records.states(m_revisions);
        for (const bool binned : {false, true})
            for (larder::Ingredient& ingredient : binned ? m_ingredients.binned() : m_ingredients.all()) {
                ingredient.packs.clear();
                all.ingredients.push_back({std::move(ingredient), binned});
            }
        all.packs = records.packs();
        all.lots = m_lots.all();
        for (const auto& [name, id] : m_ingredients.remembered())
            all.remembered[name] = id;
        for (const auto id : records.ids<base::DrinkId>("SELECT id FROM drink ORDER BY row")) {
            all.drinks.push_back(*m_drinks.find(id));
            for (history::Revision& revision : m_revisions.ofDrink(id))
                all.revisions.push_back(std::move(revision));
            for (SetAside& aside : m_revisions.setAsideOf(id))
                all.aside.push_back(std::move(aside));
        }
        for (const auto id : records.ids<base::DraftId>("SELECT id FROM draft ORDER BY row"))
            all.drafts.push_back(*m_drinks.draft(id));
        for (auto& [tasting, hash] : m_tastings.allWithHashes())
            all.tastings.push_back(std::move(tasting));
        all.photos = m_photos.all();
        for (const AttachedPhoto& photo : all.photos)
            if (auto bytes = m_photos.bytes(photo.info.hash);
                bytes && base::sha256Hex(*bytes) == photo.info.hash)
                all.photoBytes.emplace(photo.info.hash, *std::move(bytes));
        all.panels = records.panels();
        all.searches = m_searches.saved();
        return all;
    });
}

void SqliteWorkbook::restore(const BookRecord& record) {
    const auto refuse = [&](const std::string& why) {
        return StoreError(StoreErrorKind::Refused, 0, m_path, why);
    };
    change("putting a whole book in", Durability::Kept, [&] {
        // Drinks, revisions and drafts name each other: what is missing is found when all are there.
        m_book.connection.exec("PRAGMA defer_foreign_keys = ON");
        Records records(m_book);
        for (const tasting::Person& person : record.people)
            records.put(person);
        for (const larder::FactState& state : record.states)
            m_revisions.addState(state);
        for (const history::Drink& drink : record.drinks)
            m_drinks.add(drink);
        for (const history::Revision& revision : record.revisions) {
            const std::string which =
                "revision " + std::to_string(revision.number) + " (" + revision.id.text() + ")";
            if (revision.contentHash() != revision.hash)
                throw refuse(which + " is not what was kept: its hash is another");
            for (const auto& [ingredient, hash] : revision.facts.states)
                if (!m_revisions.state(hash)) throw refuse("the facts of " + which + " are not there");
            insertAndCompare(revision);
        }
        for (const SetAside& aside : record.aside)
            records.put(aside);
        for (const history::Draft& draft : record.drafts)
            records.put(draft);
        for (const BookRecord::Binnable& entry : record.ingredients) {
            m_revisions.addState(entry.ingredient.facts);
            m_ingredients.save(entry.ingredient);
            m_ingredients.bin(entry.ingredient.id, entry.binned);
        }
        for (const BookRecord::Pack& pack : record.packs)
            records.put(pack);
        for (const larder::Lot& lot : record.lots)
            m_lots.save(lot);
        for (const auto& [name, id] : record.remembered)
            m_ingredients.remember(name, id);
        for (const tasting::Tasting& tasting : record.tastings) {
            if (!tasting.scores.isWhole() || tasting.circumstances.problem())
                throw refuse("a tasting cannot be as it is written");
            m_tastings.insert(tasting);
        }
        for (const AttachedPhoto& photo : record.photos) {
            const auto bytes = record.photoBytes.find(photo.info.hash);
            const auto info = bytes == record.photoBytes.end()
                                  ? tl::unexpected(tasting::PhotoError::NotAPhoto)
                                  : tasting::inspectPhoto(bytes->second);
            if (!info || info->hash != photo.info.hash) throw refuse("a photo is not there, or is none");
            m_photos.store(*info, bytes->second);
            records.put(photo);
        }
        for (const BookRecord::Panel& panel : record.panels) {
            records.put(panel);
            m_panels.find(panel.id); // throws where plan, steps and answers do not fit
        }
        for (const SavedSearch& search : record.searches)
            records.put(search);
    });
    measuredChanged();
    larderChanged();
}

BookRecord recordOf(const Workbook& book) {
    const auto* side = dynamic_cast<const RecordedBook*>(&book);
    return side ? side->record() : BookRecord{};
}

void restore(Workbook& book, const BookRecord& record) {
    if (auto* side = dynamic_cast<RecordedBook*>(&book)) side->restore(record);
}

} // namespace stillroom::store
