#include "core/store/larder_repository.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <limits>

namespace stillroom::store {

namespace {

using larder::Ingredient;
using larder::IngredientSort;
using larder::Pack;

#define STILLROOM_INGREDIENT_COLUMNS                                                                         \
    "i.id, i.sort, i.handbook_id, i.name, i.aliases, i.kind, i.made_by, i.house_bottle, s.json"              \
    " FROM ingredient i JOIN fact_state s ON s.row = i.facts"
constexpr const char* kSelectAll =
    "SELECT " STILLROOM_INGREDIENT_COLUMNS " WHERE i.binned = 0 ORDER BY i.row";
constexpr const char* kSelectOne = "SELECT " STILLROOM_INGREDIENT_COLUMNS " WHERE i.id = ?";
#undef STILLROOM_INGREDIENT_COLUMNS

const char* sortId(IngredientSort sort) {
    switch (sort) {
    case IngredientSort::Bottle:
        return "bottle";
    case IngredientSort::Preparation:
        return "preparation";
    case IngredientSort::Kind:
        break;
    }
    return "kind";
}

IngredientSort sortFrom(const std::string& id) {
    if (id == "bottle") return IngredientSort::Bottle;
    return id == "preparation" ? IngredientSort::Preparation : IngredientSort::Kind;
}

std::string aliasesText(const std::vector<std::string>& aliases) {
    return nlohmann::json(aliases).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::vector<std::string> aliasesFrom(const std::string& text) {
    std::vector<std::string> aliases;
    const auto parsed = nlohmann::json::parse(text, nullptr, false);
    if (!parsed.is_array()) return aliases;
    for (const auto& alias : parsed)
        if (alias.is_string()) aliases.push_back(alias.get<std::string>());
    return aliases;
}

std::optional<double> optionalReal(const Query& row, int column) {
    return row.isNull(column) ? std::nullopt : std::optional(row.real(column));
}

} // namespace

std::vector<Ingredient> LarderRepository::all(std::optional<std::int64_t> atMs) const {
    Query query(m_book.connection, kSelectAll);
    std::vector<Ingredient> found;
    while (query.next()) {
        found.push_back(read(query));
        found.back().packs = packsOf(found.back().id, atMs);
    }
    return found;
}

std::optional<Ingredient> LarderRepository::find(base::IngredientId id) const {
    Query query(m_book.connection, kSelectOne);
    query.with(id);
    if (!query.next()) return std::nullopt;
    Ingredient ingredient = read(query);
    ingredient.packs = packsOf(id, std::nullopt);
    return ingredient;
}

void LarderRepository::save(const Ingredient& ingredient) {
    const auto stored = find(ingredient.id);
    if (stored)
        update(ingredient, *stored);
    else
        insert(ingredient);
    savePacks(ingredient, stored ? stored->packs : std::vector<Pack>{});
}

void LarderRepository::insert(const Ingredient& ingredient) {
    Query(
        m_book.connection,
        "INSERT INTO ingredient (id, sort, handbook_id, name, aliases, kind, made_by, name_author,"
        " name_version, house_bottle, house_bottle_author, house_bottle_version, facts, facts_author,"
        " facts_version, binned_author, binned_version) VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, 1, ?9, ?8, 1,"
        " (SELECT row FROM fact_state WHERE hash = ?10), ?8, 1, ?8, 1)")
        .with(ingredient.id, sortId(ingredient.sort), ingredient.handbookId, ingredient.name,
              aliasesText(ingredient.aliases), ingredient.kind, ingredient.madeBy, m_book.id,
              ingredient.houseBottle, Digest::ofHex(ingredient.facts.hash()))
        .run();
}

void LarderRepository::update(const Ingredient& ingredient, const Ingredient& stored) {
    const auto& author = m_book.id;
    if (ingredient.sort != stored.sort || ingredient.handbookId != stored.handbookId ||
        ingredient.name != stored.name || ingredient.aliases != stored.aliases ||
        ingredient.kind != stored.kind || ingredient.madeBy != stored.madeBy)
        Query(m_book.connection,
              "UPDATE ingredient SET sort = ?3, handbook_id = ?4, name = ?5, aliases = ?6, kind = ?7,"
              " made_by = ?8, name_author = ?2, name_version = name_version + 1 WHERE id = ?1")
            .with(ingredient.id, author, sortId(ingredient.sort), ingredient.handbookId, ingredient.name,
                  aliasesText(ingredient.aliases), ingredient.kind, ingredient.madeBy)
            .run();
    if (ingredient.houseBottle != stored.houseBottle)
        Query(m_book.connection, "UPDATE ingredient SET house_bottle = ?3, house_bottle_author = ?2,"
                                 " house_bottle_version = house_bottle_version + 1 WHERE id = ?1")
            .with(ingredient.id, author, ingredient.houseBottle)
            .run();
    if (ingredient.facts != stored.facts)
        Query(m_book.connection,
              "UPDATE ingredient SET facts = (SELECT row FROM fact_state WHERE hash = ?3), facts_author = ?2,"
              " facts_version = facts_version + 1 WHERE id = ?1")
            .with(ingredient.id, author, Digest::ofHex(ingredient.facts.hash()))
            .run();
}

// A pack that changed is another pack: the old row is marked and a new one put in its place.
void LarderRepository::savePacks(const Ingredient& ingredient, const std::vector<Pack>& stored) {
    const std::int64_t now = m_book.clock.now().utcMs;
    if (ingredient.packs == stored) return;
    for (const Pack& pack : stored)
        if (std::find(ingredient.packs.begin(), ingredient.packs.end(), pack) == ingredient.packs.end())
            Query(m_book.connection, "UPDATE pack SET dropped_ms = ?2 WHERE id = ?1 AND dropped_ms IS NULL")
                .with(pack.id, now)
                .run();
    std::int64_t place = 0;
    for (const Pack& pack : ingredient.packs) {
        ++place;
        if (std::find(stored.begin(), stored.end(), pack) != stored.end()) {
            Query(m_book.connection, "UPDATE pack SET place = ?2 WHERE id = ?1 AND dropped_ms IS NULL")
                .with(pack.id, place)
                .run();
            continue;
        }
        Query(
            m_book.connection,
            "INSERT INTO pack (id, ingredient, place, minor, currency, for_ml, for_g, for_pieces, priced_on,"
            " author, added_ms) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")
            .with(pack.id.isNull() ? base::PackId::random() : pack.id, ingredient.id, place, pack.price.minor,
                  pack.price.currency.text(), pack.forMl, pack.forG, pack.forPieces, pack.pricedOn, m_book.id,
                  now)
            .run();
    }
}

Ingredient LarderRepository::read(const Query& row) const {
    Ingredient ingredient;
    ingredient.id = row.id<base::IngredientId>(0);
    ingredient.sort = sortFrom(row.text(1));
    ingredient.handbookId = row.text(2);
    ingredient.name = row.text(3);
    ingredient.aliases = aliasesFrom(row.text(4));
    ingredient.kind = row.optionalId<base::IngredientId>(5);
    ingredient.madeBy = row.optionalId<base::DrinkId>(6);
    ingredient.houseBottle = row.optionalId<base::IngredientId>(7);
    auto facts = larder::FactState::fromCanonicalJson(row.text(8));
    if (!facts)
        throw StoreError(StoreErrorKind::Damaged, 0, m_book.connection.path(),
                         "the facts of " + ingredient.name + " cannot be read");
    ingredient.facts = *std::move(facts);
    return ingredient;
}

std::vector<Pack> LarderRepository::packsOf(base::IngredientId id, std::optional<std::int64_t> atMs) const {
    Query query(
        m_book.connection,
        "SELECT id, minor, currency, for_ml, for_g, for_pieces, priced_on FROM pack WHERE ingredient = ?1"
        " AND (dropped_ms IS NULL OR dropped_ms > ?2) AND added_ms <= ?2 ORDER BY place, row");
    query.with(id, atMs.value_or(std::numeric_limits<std::int64_t>::max()));
    std::vector<Pack> packs;
    while (query.next()) {
        Pack pack;
        pack.id = query.id<base::PackId>(0);
        pack.price.minor = query.integer(1);
        pack.price.currency = quantity::Currency::fromCode(query.text(2)).value_or(quantity::Currency{});
        pack.forMl = optionalReal(query, 3);
        pack.forG = optionalReal(query, 4);
        pack.forPieces = optionalReal(query, 5);
        pack.pricedOn = query.text(6);
        packs.push_back(std::move(pack));
    }
    return packs;
}

void LarderRepository::remember(const std::string& folded, base::IngredientId ingredient) {
    Query(m_book.connection,
          "INSERT INTO remembered_name (folded, ingredient, author, version) VALUES (?, ?, ?, 1)"
          " ON CONFLICT (folded) DO UPDATE SET ingredient = excluded.ingredient, author = excluded.author,"
          " version = version + 1 WHERE ingredient <> excluded.ingredient")
        .with(folded, ingredient, m_book.id)
        .run();
}

void LarderRepository::forget(const std::string& folded) {
    Query(m_book.connection, "DELETE FROM remembered_name WHERE folded = ?").with(folded).run();
}

std::vector<std::pair<std::string, base::IngredientId>> LarderRepository::remembered() const {
    Query query(m_book.connection, "SELECT folded, ingredient FROM remembered_name ORDER BY folded");
    std::vector<std::pair<std::string, base::IngredientId>> names;
    while (query.next())
        names.emplace_back(query.text(0), query.id<base::IngredientId>(1));
    return names;
}

} // namespace stillroom::store
