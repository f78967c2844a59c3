#include "core/preparation/reach.h"

#include <algorithm>

namespace stillroom::preparation {

using base::IngredientId;
using larder::Ingredient;
using larder::OnShelf;

namespace {

bool alwaysThere(const Ingredient& ingredient) {
    const auto& tags = ingredient.facts.tags;
    if (std::find(tags.begin(), tags.end(), "ice") != tags.end()) return true;
    return ingredient.facts.group == "water" && !ingredient.facts.carbonated;
}

// What somebody said of the shelf; nullopt: nothing.
std::optional<Standing> said(const Ingredient& ingredient) {
    const larder::Stock& stock = ingredient.stock;
    if (stock.off) return Standing::Off;
    if (stock.amount && !(*stock.amount > 0)) return Standing::NotHad;
    switch (stock.state) {
    case OnShelf::Have:
        return Standing::There;
    case OnShelf::Low:
        return Standing::Low;
    case OnShelf::Out:
        return Standing::NotHad;
    case OnShelf::NotSaid:
        break;
    }
    return stock.amount ? std::optional(Standing::There) : std::nullopt;
}

bool isMet(const Met& met) {
    return met.lacks.empty();
}

// Fewest to buy first; of those, what stands there before what must be made.
bool isBetter(const Met& a, const Met& b) {
    if (a.lacks.size() != b.lacks.size()) return a.lacks.size() < b.lacks.size();
    return a.standing < b.standing;
}

Met lacking(IngredientId id, Standing standing, bool nobodySaid) {
    return {standing, nobodySaid, {id}};
}

} // namespace

Reach::Reach(const larder::Larder& larder, const Specs& preparations)
    : m_larder(larder),
      m_preparations(preparations) {
    for (const Ingredient* each : m_larder.all())
        if (each->kind) m_bottles[*each->kind].push_back(each->id);
}

const Met& Reach::of(IngredientId ingredient) const {
    const auto known = m_known.find(ingredient);
    if (known != m_known.end()) return known->second;
    std::vector<IngredientId> path;
    return m_known.emplace(ingredient, find(ingredient, path)).first->second;
}

Met Reach::find(IngredientId id, std::vector<IngredientId>& path) const {
    if (const auto known = m_known.find(id); known != m_known.end()) return known->second;
    const Ingredient* ingredient = m_larder.find(id);
    const bool circular = std::find(path.begin(), path.end(), id) != path.end();
    if (ingredient == nullptr) return lacking({}, Standing::NotHad, true);
    if (circular) return lacking(id, Standing::NotHad, true);
    if (alwaysThere(*ingredient)) return {Standing::There, false, {}};
    const auto own = said(*ingredient);
    if (own == Standing::Off) return lacking(id, Standing::Off, false);
    if (own && *own != Standing::NotHad) return {*own, false, {}};
    const auto lots = m_larder.lots(id);
    if (!own && std::any_of(lots.begin(), lots.end(), [](const larder::Lot& lot) { return !lot.usedUp; }))
        return {Standing::There, false, {}};

    path.push_back(id);
    Met best = lacking(id, Standing::NotHad, !own);
    const auto take = [&best](Met other) {
        if (isBetter(other, best)) best = std::move(other);
    };
    std::vector<IngredientId> bottles;
    if (const auto of = m_bottles.find(id); of != m_bottles.end()) bottles = of->second;
    if (ingredient->houseBottle) bottles.push_back(*ingredient->houseBottle);
    for (const IngredientId bottle : bottles) {
        Met met = find(bottle, path);
        // Which bottle of a kind is bought is a choice of its own; that the house's is off is said.
        const bool houseIsOff = bottle == ingredient->houseBottle && met.standing == Standing::Off;
        if (isMet(met))
            take(std::move(met));
        else if (houseIsOff && !isMet(best))
            best = std::move(met);
    }
    if (ingredient->gotFrom) {
        Met from = find(ingredient->gotFrom->of, path);
        if (isMet(from)) from.standing = from.standing == Standing::Low ? Standing::Low : Standing::Got;
        if (isMet(from) || !isMet(best)) best = std::move(from); // the fruit is what is bought
    }
    if (m_preparations.count(id) > 0) {
        Met here = made(id, path);
        if (isMet(here) || !isMet(best)) best = std::move(here); // its inputs are what is bought
    }
    path.pop_back();
    return best;
}

Met Reach::made(IngredientId id, std::vector<IngredientId>& path) const {
    Met all{Standing::Made, false, {}};
    bool any = false;
    for (const spec::Line& line : m_preparations.at(id).lines) {
        if (line.optional || line.toTaste || line.role == spec::Role::Garnish) continue;
        any = true;
        Met met = ofLine(line, path);
        if (isMet(met)) continue;
        all.lacks.merge(met.lacks);
        if (met.standing == Standing::Off) all.standing = Standing::Off;
    }
    if (!any) return lacking(id, Standing::NotHad, true);
    if (!all.lacks.empty() && all.standing == Standing::Made) all.standing = Standing::NotHad;
    return all;
}

Met Reach::ofLine(const spec::Line& line, std::vector<IngredientId>& path) const {
    Met best = line.ingredient ? find(*line.ingredient, path) : lacking({}, Standing::NotHad, true);
    for (const spec::Alternative& other : line.alternatives) {
        if (!other.ingredient) continue;
        Met met = find(*other.ingredient, path);
        if (isBetter(met, best)) best = std::move(met);
    }
    return best;
}

DrinkReach Reach::of(const spec::Spec& spec) const {
    DrinkReach reach;
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        const spec::Line& line = spec.lines[i];
        if (line.optional || line.toTaste) continue;
        const int index = static_cast<int>(i);
        const bool garnish = line.role == spec::Role::Garnish;
        std::vector<IngredientId> path;
        if (line.ingredient) of(*line.ingredient); // kept for the next drink
        const Met met = ofLine(line, path);
        if (isMet(met)) {
            if (!line.ingredient || garnish) continue;
            if (met.standing == Standing::Low) reach.low.insert(*line.ingredient);
            if (met.standing == Standing::Made) reach.toMake.insert(*line.ingredient);
        } else if (garnish) {
            reach.garnishMissing.push_back(index);
        } else if (met.lacks.count({}) > 0) {
            reach.unknownLines.push_back(index);
        } else {
            reach.missing.push_back(index);
            for (const IngredientId id : met.lacks) {
                const Ingredient* lacked = m_larder.find(id);
                if (lacked != nullptr && lacked->stock.off) reach.off.insert(id);
                reach.lacks.insert(id);
            }
        }
    }
    return reach;
}

std::vector<Purchase> purchases(const std::vector<DrinkReach>& drinks) {
    std::map<IngredientId, Purchase> found;
    for (std::size_t i = 0; i < drinks.size(); ++i) {
        if (!drinks[i].off.empty() || !drinks[i].unknownLines.empty()) continue;
        for (const IngredientId id : drinks[i].lacks) {
            Purchase& purchase = found[id];
            purchase.ingredient = id;
            (drinks[i].lacks.size() == 1 ? purchase.opens : purchase.helps).push_back(i);
        }
    }
    std::vector<Purchase> ranked;
    for (auto& [id, purchase] : found)
        ranked.push_back(std::move(purchase));
    std::stable_sort(ranked.begin(), ranked.end(), [](const Purchase& a, const Purchase& b) {
        if (a.opens.size() != b.opens.size()) return a.opens.size() > b.opens.size();
        return a.helps.size() > b.helps.size();
    });
    return ranked;
}

std::vector<Fallen> fallen(const larder::Larder& larder, const std::vector<DrinkReach>& drinks) {
    std::vector<Fallen> all;
    for (const Ingredient* each : larder.all()) {
        if (!each->stock.off) continue;
        Fallen one{each->id, {}};
        for (std::size_t i = 0; i < drinks.size(); ++i)
            if (drinks[i].off.count(each->id) > 0) one.drinks.push_back(i);
        all.push_back(std::move(one));
    }
    return all;
}

} // namespace stillroom::preparation
