#include "core/larder/listing.h"

#include "core/base/text.h"
#include "core/larder/handbook.h"

#include <algorithm>

namespace stillroom::larder {

namespace {

std::string kindOf(const Larder& larder, const Ingredient& ingredient) {
    if (ingredient.kind)
        if (const Ingredient* kind = larder.find(*ingredient.kind)) return kind->name;
    std::string group = ingredient.facts.group;
    std::replace(group.begin(), group.end(), '_', ' ');
    return group;
}

std::string foldedWordsOf(const Ingredient& ingredient, const std::string& kind) {
    std::string words = ingredient.name;
    for (const std::string& alias : ingredient.aliases)
        words.append(" ").append(alias);
    words.append(" ").append(kind).append(" ").append(ingredient.maker);
    return base::fold(words);
}

Listed rowOf(const Larder& larder, const Ingredient& ingredient, const PriceQuestion& question) {
    Listed row;
    row.id = ingredient.id;
    row.sort = ingredient.sort;
    row.own = Handbook::builtIn().find(ingredient.id) != &ingredient;
    row.name = ingredient.name;
    row.kind = kindOf(larder, ingredient);
    row.folded = foldedWordsOf(ingredient, row.kind);
    // What is poured of a lot has the lot's figures.
    const Ingredient* read = larder.isFromLot(ingredient.id) ? larder.poured(ingredient.id) : &ingredient;
    if (read->facts.abvPercent) row.abvPercent = read->facts.abvPercent->typical;
    row.missing = missingFacts(read->facts);
    row.stock = ingredient.stock;
    if (const auto price = unitPrice(larder, ingredient, question))
        row.price = *price;
    else
        row.noPrice = price.error().problem;
    return row;
}

} // namespace

std::uint8_t missingFacts(const FactState& facts) {
    unsigned missing = 0;
    if (!facts.dry && !facts.abvPercent) missing |= kNoStrength;
    if (!facts.sugarGPerL) missing |= kNoSugar;
    if (!facts.acidGPerL) missing |= kNoAcid;
    if (!facts.allergens) missing |= kNoAllergens;
    return static_cast<std::uint8_t>(missing);
}

tl::expected<UnitPrice, CostFault> unitPrice(const Larder& larder, const Ingredient& ingredient,
                                             const PriceQuestion& question) {
    const auto priced = rateOn(larder, ingredient, question);
    if (!priced) return tl::unexpected<CostFault>(priced.error());
    UnitPrice price;
    price.unit = priced->rate.unit;
    price.of = price.unit == PackUnit::Piece ? 1 : 100;
    price.major = priced->majorPerUnit * price.of;
    return price;
}

std::vector<Listed> listed(const Larder& larder, const PriceQuestion& question) {
    struct Place {
        bool handbook;
        std::string key;
        std::size_t index;
        auto operator<=>(const Place&) const = default;
    };
    std::vector<Listed> rows;
    std::vector<Place> places;
    for (const Ingredient* each : larder.all()) {
        rows.push_back(rowOf(larder, *each, question));
        places.push_back({!rows.back().own, base::sortKeyForPeople(each->name), places.size()});
    }
    std::sort(places.begin(), places.end());
    std::vector<Listed> sorted;
    sorted.reserve(rows.size());
    for (const Place& place : places)
        sorted.push_back(std::move(rows[place.index]));
    return sorted;
}

} // namespace stillroom::larder
