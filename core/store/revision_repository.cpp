#include "core/store/revision_repository.h"

#include "core/base/hash.h"
#include "core/store/stored.h"

#include <cmath>
#include <set>
#include <tuple>

namespace stillroom::store {

namespace {

#define STILLROOM_REVISION_COLUMNS                                                                           \
    "r.row, r.id, r.drink, r.parent, r.number, r.reason, r.kept_ms, r.kept_offset, r.calc_version,"          \
    " r.currency, r.content_hash, r.measures, m.hash, r.spec, r.readings FROM revision r"                    \
    " JOIN measure_state m ON m.row = r.measures"
constexpr const char* kSelectOne = "SELECT " STILLROOM_REVISION_COLUMNS " WHERE r.id = ?";
constexpr const char* kSelectOfDrink =
    "SELECT " STILLROOM_REVISION_COLUMNS " WHERE r.drink = ? ORDER BY r.row";
#undef STILLROOM_REVISION_COLUMNS

// NaN would become NULL in a column; a reading that is not a number says nothing.
spec::Reading servedStrength(const history::Revision& revision) {
    const spec::Reading& strength = revision.readings[spec::Stage::Served][spec::Quantity::Strength];
    return std::isfinite(strength.value) && std::isfinite(strength.upper) ? strength : spec::Reading{};
}

} // namespace

std::optional<history::Revision> RevisionRepository::find(base::RevisionId id) const {
    Query query(m_book.connection, kSelectOne);
    query.with(id);
    return query.next() ? std::optional(read(query)) : std::nullopt;
}

std::vector<history::Revision> RevisionRepository::ofDrink(base::DrinkId drink) const {
    Query query(m_book.connection, kSelectOfDrink);
    query.with(drink);
    std::vector<history::Revision> found;
    while (query.next())
        found.push_back(read(query));
    return found;
}

std::optional<base::RevisionId> RevisionRepository::inUse(base::DrinkId drink) const {
    Query query(m_book.connection,
                "SELECT id FROM revision WHERE row = ifnull((SELECT r.row FROM drink d JOIN revision r"
                " ON r.id = d.house WHERE d.id = ?1), (SELECT max(row) FROM revision WHERE drink = ?1))");
    query.with(drink);
    return query.next() ? std::optional(query.id<base::RevisionId>(0)) : std::nullopt;
}

void RevisionRepository::setAside(base::RevisionId revision, bool aside, const std::string& why) {
    {
        Query known(m_book.connection, "SELECT 1 FROM revision WHERE id = ?");
        known.with(revision);
        if (!known.next()) throw notFound(m_book.connection, "revision", revision.text());
    }
    const base::Instant now = m_book.clock.now();
    Query(m_book.connection,
          "INSERT INTO revision_mark (revision, set_aside, why, marked_ms, marked_offset, author, version)"
          " SELECT ?1, ?2, ?3, ?4, ?5, ?6, 1"
          " WHERE ?2 OR EXISTS (SELECT 1 FROM revision_mark WHERE revision = ?1)"
          " ON CONFLICT (revision) DO UPDATE SET set_aside = excluded.set_aside, why = excluded.why,"
          " marked_ms = excluded.marked_ms, marked_offset = excluded.marked_offset, author = excluded.author,"
          " version = version + 1 WHERE set_aside <> excluded.set_aside OR why <> excluded.why")
        .with(revision, aside, why, now.utcMs, now.offsetMinutes, m_book.id)
        .run();
}

std::vector<SetAside> RevisionRepository::setAsideOf(base::DrinkId drink) const {
    Query query(m_book.connection,
                "SELECT m.revision, m.why, m.marked_ms, m.marked_offset FROM revision r"
                " JOIN revision_mark m ON m.revision = r.id WHERE r.drink = ? AND m.set_aside = 1"
                " ORDER BY r.row");
    query.with(drink);
    std::vector<SetAside> found;
    while (query.next())
        found.push_back({query.id<base::RevisionId>(0), query.text(1),
                         base::Instant{query.integer(2), query.smallInteger(3)}});
    return found;
}

int RevisionRepository::nextNumber(base::DrinkId drink) const {
    Query query(m_book.connection, "SELECT ifnull(max(number), 0) + 1 FROM revision WHERE drink = ?");
    query.with(drink);
    query.next();
    return query.smallInteger(0);
}

void RevisionRepository::insert(const history::Revision& revision) {
    const spec::Reading strength = servedStrength(revision);
    const std::string spec = revision.spec.canonicalJson();
    Query(m_book.connection,
          "INSERT INTO revision (id, drink, parent, number, kept_ms, kept_offset, calc_version, author,"
          " currency, measures, strength_bound, strength_value, strength_upper, strength_estimate,"
          " strength_gap_lines, spec_hash, content_hash, reason, spec, readings)"
          " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")
        .with(revision.id, revision.drink, revision.parent, revision.number, revision.kept.utcMs,
              revision.kept.offsetMinutes, revision.calcVersion, m_book.id, revision.currency.text(),
              measuresRow(revision.measures), spec::boundId(strength.bound), strength.value, strength.upper,
              strength.estimate, static_cast<std::int64_t>(strength.gapLines), Digest::ofText(spec),
              Digest::ofHex(revision.hash), revision.reason, spec, history::readingsToJson(revision.readings))
        .run();
    const std::int64_t row = m_book.connection.database().getLastInsertRowid();
    const auto valueOf = [](const auto& map, base::IngredientId id) {
        const auto found = map.find(id);
        return found == map.end() ? std::nullopt : std::optional(found->second);
    };
    for (const auto& [ingredient, hash] : revision.facts.states)
        Query(m_book.connection, "INSERT INTO revision_fact (revision, ingredient, state, pours, preparation,"
                                 " lot) VALUES (?, ?, (SELECT row FROM fact_state WHERE hash = ?), ?, ?, ?)")
            .with(row, ingredient, Digest::ofHex(hash), valueOf(revision.facts.pours, ingredient),
                  valueOf(revision.facts.preparations, ingredient), valueOf(revision.facts.lots, ingredient))
            .run();
}

bool RevisionRepository::listedAsRead(const history::Revision& revision) const {
    Query row(m_book.connection,
              "SELECT strength_bound, strength_value, strength_upper, strength_estimate, strength_gap_lines,"
              " spec_hash FROM revision WHERE id = ?");
    row.with(revision.id);
    return row.next() &&
           storedReading(row.text(0), row.real(1), row.real(2), row.integer(3) != 0, row.integer(4)) ==
               servedStrength(revision) &&
           row.hex(5) == base::sha256Hex(revision.spec.canonicalJson());
}

std::vector<spec::Spec> RevisionRepository::measuredSpecs() const {
    Query query(m_book.connection, "SELECT drink, spec FROM revision"
                                   " WHERE instr(spec, '\"origin\":\"measured\"') > 0");
    std::vector<spec::Spec> found;
    std::set<std::tuple<base::DrinkId, double, std::string>> counted;
    while (query.next()) {
        auto spec = spec::Spec::fromCanonicalJson(query.text(1));
        if (!spec) continue; // damaged: `check` names it, and the book opens without its measurement
        const auto& entry = spec->method.dilution;
        if (!entry || !counted.emplace(query.id<base::DrinkId>(0), entry->ratio, entry->how).second) continue;
        found.push_back(*std::move(spec));
    }
    return found;
}

void RevisionRepository::addState(const larder::FactState& state) {
    const std::string json = state.canonicalJson();
    Query(m_book.connection, "INSERT INTO fact_state (hash, json) SELECT ?1, ?2"
                             " WHERE NOT EXISTS (SELECT 1 FROM fact_state WHERE hash = ?1)")
        .with(Digest::ofText(json), json)
        .run();
}

std::optional<larder::FactState> RevisionRepository::state(const std::string& hash) const {
    Query query(m_book.connection, "SELECT json FROM fact_state WHERE hash = ?");
    query.with(Digest::ofHex(hash));
    if (!query.next()) return std::nullopt;
    auto state = larder::FactState::fromCanonicalJson(query.text(0));
    if (!state)
        throw StoreError(StoreErrorKind::Damaged, 0, m_book.connection.path(),
                         "the fact state " + hash + " cannot be read");
    return state;
}

history::Revision RevisionRepository::read(const Query& row) const {
    history::Revision revision;
    revision.id = row.id<base::RevisionId>(1);
    const auto damaged = [&](const char* what) {
        return StoreError(StoreErrorKind::Damaged, 0, m_book.connection.path(),
                          std::string("the ") + what + " of revision " + revision.id.text() +
                              " cannot be read");
    };
    revision.drink = row.id<base::DrinkId>(2);
    revision.parent = row.optionalId<base::RevisionId>(3);
    revision.number = row.smallInteger(4);
    revision.reason = row.text(5);
    revision.kept = {row.integer(6), row.smallInteger(7)};
    revision.calcVersion = row.smallInteger(8);
    const auto currency = quantity::Currency::fromCode(row.text(9));
    if (!currency) throw damaged("currency");
    revision.currency = *currency;
    revision.hash = row.hex(10);
    const quantity::HouseMeasures* measures = measuresOf(row.integer(11), row.blob(12));
    if (!measures) throw damaged("house measures");
    revision.measures = *measures;
    revision.spec = storedSpec(row.text(13), m_book.connection.path(), "revision " + revision.id.text());
    const auto readings = history::readingsFromJson(row.text(14));
    if (!readings) throw damaged("readings");
    revision.readings = *readings;
    revision.facts = factsOf(row.integer(0));
    return revision;
}

history::RevisionFacts RevisionRepository::factsOf(std::int64_t row) const {
    history::RevisionFacts facts;
    Query query(m_book.connection,
                "SELECT f.ingredient, s.hash, f.pours, f.preparation, f.lot FROM revision_fact f"
                " JOIN fact_state s ON s.row = f.state WHERE f.revision = ?");
    query.with(row);
    while (query.next()) {
        const auto ingredient = query.id<base::IngredientId>(0);
        facts.states[ingredient] = query.hex(1);
        if (const auto bottle = query.optionalId<base::IngredientId>(2)) facts.pours[ingredient] = *bottle;
        if (const auto made = query.optionalId<base::RevisionId>(3)) facts.preparations[ingredient] = *made;
        if (const auto lot = query.optionalId<base::LotId>(4)) facts.lots[ingredient] = *lot;
    }
    return facts;
}

const quantity::HouseMeasures* RevisionRepository::measuresOf(std::int64_t row,
                                                              const std::string& hash) const {
    if (hash == m_measuresHash) return &m_measures;
    Query query(m_book.connection, "SELECT json FROM measure_state WHERE row = ?");
    query.with(row);
    if (!query.next()) return nullptr;
    auto measures = quantity::HouseMeasures::fromJsonText(query.text(0));
    if (!measures) return nullptr;
    m_measures = *std::move(measures);
    m_measuresHash = hash;
    return &m_measures;
}

std::int64_t RevisionRepository::measuresRow(const quantity::HouseMeasures& measures) {
    const std::string json = measures.toJsonText();
    const Digest hash = Digest::ofText(json);
    {
        Query query(m_book.connection, "SELECT row FROM measure_state WHERE hash = ?");
        query.with(hash);
        if (query.next()) return query.integer(0);
    }
    Query(m_book.connection, "INSERT INTO measure_state (hash, json) VALUES (?, ?)").with(hash, json).run();
    return m_book.connection.database().getLastInsertRowid();
}

} // namespace stillroom::store
