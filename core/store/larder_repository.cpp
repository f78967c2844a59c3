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
    "i.id, i.sort, i.handbook_id, i.name, i.aliases, i.kind, i.made_by, i.house_bottle, s.json, i.maker,"    \
    " i.usable_share, i.got_from, i.got_from_unit, i.got_unit, i.got_per_unit, i.got_price_share, i.shelf,"  \
    " i.shelf_amount, i.shelf_unit, i.shelf_off, i.shelf_on, i.keep_days, i.lot_in_use"                      \
    " FROM ingredient i JOIN fact_state s ON s.row = i.facts"
constexpr const char* kSelectAll =
    "SELECT " STILLROOM_INGREDIENT_COLUMNS " WHERE i.binned = ? ORDER BY i.row";
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

larder::PackUnit unitFrom(const std::string& id) {
    return larder::packUnitFromId(id).value_or(larder::PackUnit::Ml);
}

std::optional<double> optionalReal(const Query& row, int column) {
    return row.isNull(column) ? std::nullopt : std::optional(row.real(column));
}

} // namespace

std::vector<Ingredient> LarderRepository::all(std::optional<std::int64_t> atMs) const {
    return listed(false, atMs);
}

std::vector<Ingredient> LarderRepository::binned(std::optional<std::int64_t> atMs) const {
    return listed(true, atMs);
}

std::vector<Ingredient> LarderRepository::listed(bool binned, std::optional<std::int64_t> atMs) const {
    Query query(m_book.connection, kSelectAll);
    query.with(binned);
    std::vector<Ingredient> found;
    while (query.next()) {
        found.push_back(read(query));
        found.back().packs = packsOf(found.back().id, atMs);
    }
    return found;
}

void LarderRepository::bin(base::IngredientId id, bool binned) {
    Query(m_book.connection, "UPDATE ingredient SET binned = ?3, binned_author = ?2,"
                             " binned_version = binned_version + 1 WHERE id = ?1 AND binned <> ?3")
        .with(id, m_book.id, binned)
        .run();
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
    if (!stored) insert(ingredient);
    // Groups added since the first schema start as nobody's, and are written where they say something.
    Ingredient fresh = ingredient;
    fresh.maker.clear();
    fresh.usableShare = 1;
    fresh.gotFrom.reset();
    fresh.stock = {};
    fresh.keepDays.reset();
    fresh.lotInUse.reset();
    update(ingredient, stored ? *stored : fresh);
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
        ingredient.kind != stored.kind || ingredient.madeBy != stored.madeBy ||
        ingredient.maker != stored.maker)
        Query(m_book.connection,
              "UPDATE ingredient SET sort = ?3, handbook_id = ?4, name = ?5, aliases = ?6, kind = ?7,"
              " made_by = ?8, maker = ?9, name_author = ?2, name_version = name_version + 1 WHERE id = ?1")
            .with(ingredient.id, author, sortId(ingredient.sort), ingredient.handbookId, ingredient.name,
                  aliasesText(ingredient.aliases), ingredient.kind, ingredient.madeBy, ingredient.maker)
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
    updateTerms(ingredient, stored);
    updateShelf(ingredient, stored);
}

void LarderRepository::updateTerms(const Ingredient& ingredient, const Ingredient& stored) {
    if (ingredient.usableShare == stored.usableShare && ingredient.gotFrom == stored.gotFrom) return;
    const larder::GotFrom terms = ingredient.gotFrom.value_or(larder::GotFrom{});
    const auto from = ingredient.gotFrom ? std::optional(terms.of) : std::nullopt;
    Query(m_book.connection,
          "UPDATE ingredient SET usable_share = ?3, got_from = ?4, got_from_unit = ?5, got_unit = ?6,"
          " got_per_unit = ?7, got_price_share = ?8, terms_author = ?2, terms_version = terms_version + 1"
          " WHERE id = ?1")
        .with(ingredient.id, m_book.id, ingredient.usableShare.text(), from, packUnitId(terms.ofUnit),
              packUnitId(terms.unit), terms.perUnit.text(), terms.priceShare.text())
        .run();
}

void LarderRepository::updateShelf(const Ingredient& ingredient, const Ingredient& stored) {
    const larder::Stock& stock = ingredient.stock;
    if (stock != stored.stock)
        Query(m_book.connection, "UPDATE ingredient SET shelf = ?3, shelf_amount = ?4, shelf_unit = ?5,"
                                 " shelf_off = ?6, shelf_on = ?7, shelf_author = ?2,"
                                 " shelf_version = shelf_version + 1 WHERE id = ?1")
            .with(ingredient.id, m_book.id, onShelfId(stock.state), stock.amount, packUnitId(stock.unit),
                  stock.off, stock.countedOn)
            .run();
    if (ingredient.keepDays != stored.keepDays || ingredient.lotInUse != stored.lotInUse)
        Query(m_book.connection, "UPDATE ingredient SET keep_days = ?3, lot_in_use = ?4, keeping_author = ?2,"
                                 " keeping_version = keeping_version + 1 WHERE id = ?1")
            .with(ingredient.id, m_book.id, ingredient.keepDays, ingredient.lotInUse)
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
            " author, added_ms, supplier, tax_percent) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")
            .with(pack.id.isNull() ? base::PackId::random() : pack.id, ingredient.id, place, pack.price.minor,
                  pack.price.currency.text(), pack.forMl, pack.forG, pack.forPieces, pack.pricedOn, m_book.id,
                  now, pack.supplier, pack.taxPercent.text())
            .run();
    }
}

// An exact number that cannot be read would change what everything costs: nothing is guessed.
quantity::Rational LarderRepository::exact(const std::string& text, const std::string& of) const {
    const auto number = quantity::Rational::fromText(text);
    if (!number)
        throw StoreError(StoreErrorKind::Damaged, 0, m_book.connection.path(),
                         "what " + of + " is bought for cannot be read");
    return *number;
}

void LarderRepository::readTerms(const Query& row, Ingredient& ingredient) const {
    ingredient.usableShare = exact(row.text(10), ingredient.name);
    const auto from = row.optionalId<base::IngredientId>(11);
    if (!from) return;
    ingredient.gotFrom =
        larder::GotFrom{*from, unitFrom(row.text(12)), unitFrom(row.text(13)),
                        exact(row.text(14), ingredient.name), exact(row.text(15), ingredient.name)};
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
    ingredient.maker = row.text(9);
    readTerms(row, ingredient);
    ingredient.stock.state = larder::onShelfFromId(row.text(16)).value_or(larder::OnShelf::NotSaid);
    ingredient.stock.amount = optionalReal(row, 17);
    ingredient.stock.unit = unitFrom(row.text(18));
    ingredient.stock.off = row.integer(19) != 0;
    ingredient.stock.countedOn = row.text(20);
    if (!row.isNull(21)) ingredient.keepDays = row.smallInteger(21);
    ingredient.lotInUse = row.optionalId<base::LotId>(22);
    return ingredient;
}

std::vector<Pack> LarderRepository::packsOf(base::IngredientId id, std::optional<std::int64_t> atMs) const {
    Query query(m_book.connection,
                "SELECT id, minor, currency, for_ml, for_g, for_pieces, priced_on, supplier, tax_percent "
                "FROM pack WHERE ingredient = ?1"
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
        pack.supplier = query.text(7);
        pack.taxPercent = exact(query.text(8), "a pack");
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
