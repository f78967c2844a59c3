#include "core/store/tasting_repository.h"

#include "core/store/stored.h"

#include <nlohmann/json.hpp>

namespace stillroom::store {

namespace {

using nlohmann::json;
using tasting::Tasting;

#define STILLROOM_TASTING_COLUMNS                                                                            \
    "SELECT t.id, t.revision, t.taster, t.when_ms, t.when_offset, t.scores, t.note, t.verdict, t.try_next,"  \
    " t.amends, t.content_hash, t.circumstances FROM tasting t"
constexpr const char* kSelectOne = STILLROOM_TASTING_COLUMNS " WHERE t.id = ?";
constexpr const char* kSelectOfRevision = STILLROOM_TASTING_COLUMNS
    " WHERE t.revision = ? AND NOT EXISTS (SELECT 1 FROM tasting a WHERE a.amends = t.id) ORDER BY t.row";
constexpr const char* kSelectOfDrink = STILLROOM_TASTING_COLUMNS
    " JOIN revision r ON r.id = t.revision WHERE r.drink = ?"
    " AND NOT EXISTS (SELECT 1 FROM tasting a WHERE a.amends = t.id) ORDER BY t.row";
// Most tastings say how old the glass was and measure nothing: those are passed over without being read. In
// canonical JSON the quotes of a person's words are escaped, so that no place reads as a key.
constexpr const char* kSelectMeasured = STILLROOM_TASTING_COLUMNS
    " WHERE (instr(t.circumstances, '\"weight_g\"') > 0 OR instr(t.circumstances, '\"volume_ml\"') > 0"
    " OR instr(t.circumstances, '\"temperature_c\"') > 0 OR instr(t.circumstances, '\"brix_read\"') > 0)"
    " AND NOT EXISTS (SELECT 1 FROM tasting a WHERE a.amends = t.id)"
    " ORDER BY t.row";
constexpr const char* kSelectAll = STILLROOM_TASTING_COLUMNS " ORDER BY t.row";
#undef STILLROOM_TASTING_COLUMNS

std::string dumped(const json& value) {
    return value.dump(-1, ' ', false, json::error_handler_t::replace);
}

Tasting tastingFrom(const Query& row, const std::string& path) {
    const auto unreadable = [&path](const char* what, const base::TastingId& id) {
        return StoreError(StoreErrorKind::Damaged, 0, path,
                          std::string("the ") + what + " of tasting " + id.text() + " cannot be read");
    };
    Tasting tasting;
    tasting.id = row.id<base::TastingId>(0);
    tasting.revision = row.id<base::RevisionId>(1);
    tasting.taster = row.id<base::PersonId>(2);
    tasting.when = {row.integer(3), row.smallInteger(4)};
    const auto scores = tasting::Scores::fromCanonicalJson(row.text(5));
    if (!scores) throw unreadable("scores", tasting.id);
    tasting.scores = *scores;
    tasting.note = row.text(6);
    tasting.verdict = tasting::verdictFromId(row.text(7)).value_or(tasting::Verdict::None);
    tasting.tryNext = row.text(8);
    tasting.amends = row.optionalId<base::TastingId>(9);
    const auto circumstances = tasting::Circumstances::fromCanonicalJson(row.text(11));
    if (!circumstances) throw unreadable("circumstances", tasting.id);
    tasting.circumstances = *circumstances;
    return tasting;
}

} // namespace

std::string canonicalTasting(const Tasting& tasting) {
    json content{{"amends", tasting.amends ? json(tasting.amends->text()) : json(nullptr)},
                 {"note", tasting.note},
                 {"revision", tasting.revision.text()},
                 {"scores", json::parse(tasting.scores.canonicalJson())},
                 {"taster", tasting.taster.text()},
                 {"try_next", tasting.tryNext},
                 {"verdict", tasting::verdictId(tasting.verdict)},
                 {"when", {{"offset_minutes", tasting.when.offsetMinutes}, {"utc_ms", tasting.when.utcMs}}}};
    if (!tasting.circumstances.isEmpty())
        content["circumstances"] = json::parse(tasting.circumstances.canonicalJson());
    return dumped(content);
}

base::PersonId TastingRepository::addPerson(const std::string& name, const std::string& initials) {
    const auto id = base::PersonId::random();
    Query(m_book.connection,
          "INSERT INTO person (id, name, initials, author, version) VALUES (?, ?, ?, ?, 1)")
        .with(id, name, initials, m_book.id)
        .run();
    return id;
}

void TastingRepository::renamePerson(base::PersonId person, const std::string& name,
                                     const std::string& initials) {
    {
        Query stored(m_book.connection, "SELECT name, initials FROM person WHERE id = ?");
        stored.with(person);
        if (!stored.next()) throw notFound(m_book.connection, "person", person.text());
        if (stored.text(0) == name && stored.text(1) == initials) return;
    }
    Query(m_book.connection,
          "UPDATE person SET name = ?2, initials = ?3, author = ?4, version = version + 1 WHERE id = ?1")
        .with(person, name, initials, m_book.id)
        .run();
}

std::vector<tasting::Person> TastingRepository::people() const {
    Query query(m_book.connection, "SELECT id, name, initials FROM person ORDER BY row");
    std::vector<tasting::Person> found;
    while (query.next())
        found.push_back({query.id<base::PersonId>(0), query.text(1), query.text(2)});
    return found;
}

void TastingRepository::insert(const Tasting& tasting) {
    Query(m_book.connection,
          "INSERT INTO tasting (id, revision, taster, when_ms, when_offset, author, amends, content_hash,"
          " verdict, scores, note, try_next, circumstances) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")
        .with(tasting.id, tasting.revision, tasting.taster, tasting.when.utcMs, tasting.when.offsetMinutes,
              m_book.id, tasting.amends, Digest::ofText(canonicalTasting(tasting)),
              tasting::verdictId(tasting.verdict), tasting.scores.canonicalJson(), tasting.note,
              tasting.tryNext, tasting.circumstances.canonicalJson())
        .run();
}

std::optional<Tasting> TastingRepository::find(base::TastingId id) const {
    Query query(m_book.connection, kSelectOne);
    query.with(id);
    return query.next() ? std::optional(tastingFrom(query, m_book.connection.path())) : std::nullopt;
}

std::vector<Tasting> TastingRepository::ofRevision(base::RevisionId revision) const {
    Query query(m_book.connection, kSelectOfRevision);
    query.with(revision);
    std::vector<Tasting> found;
    while (query.next())
        found.push_back(tastingFrom(query, m_book.connection.path()));
    return found;
}

std::vector<Tasting> TastingRepository::ofDrink(base::DrinkId drink) const {
    Query query(m_book.connection, kSelectOfDrink);
    query.with(drink);
    std::vector<Tasting> found;
    while (query.next())
        found.push_back(tastingFrom(query, m_book.connection.path()));
    return found;
}

std::vector<Tasting> TastingRepository::measured() const {
    Query query(m_book.connection, kSelectMeasured);
    std::vector<Tasting> found;
    while (query.next())
        found.push_back(tastingFrom(query, m_book.connection.path()));
    return found;
}

std::optional<std::pair<Tasting, std::string>> TastingRepository::withHash(base::TastingId id) const {
    Query query(m_book.connection, kSelectOne);
    query.with(id);
    if (!query.next()) return std::nullopt;
    return std::pair{tastingFrom(query, m_book.connection.path()), query.hex(10)};
}

std::vector<std::pair<Tasting, std::string>> TastingRepository::allWithHashes() const {
    Query query(m_book.connection, kSelectAll);
    std::vector<std::pair<Tasting, std::string>> found;
    while (query.next())
        found.emplace_back(tastingFrom(query, m_book.connection.path()), query.hex(10));
    return found;
}

} // namespace stillroom::store
