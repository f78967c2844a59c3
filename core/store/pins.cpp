#include "core/store/pins.h"

#include "core/larder/at_least.h"
#include "core/preparation/recompute.h"

#include <algorithm>
#include <iterator>
#include <unordered_map>

namespace stillroom::store {

namespace {

base::IngredientId ingredientIdOf(base::DrinkId preparation) {
    return base::IngredientId::derivedFrom("preparation " + preparation.text());
}

// The line's own name for an ingredient the larder no longer knows.
std::string nameIn(const spec::Spec& spec, base::IngredientId id) {
    const auto line = std::find_if(spec.lines.begin(), spec.lines.end(),
                                   [&](const spec::Line& l) { return l.ingredient == id; });
    return line == spec.lines.end() ? std::string() : line->name;
}

} // namespace

void LarderBuilder::take(larder::Ingredient ingredient) {
    if (ingredient.madeBy)
        if (auto spec = specOf(*ingredient.madeBy)) m_specs[ingredient.id] = *std::move(spec);
    m_larder.put(std::move(ingredient));
}

larder::Larder LarderBuilder::build(const spec::HouseRules& rules) {
    std::set<base::DrinkId> named;
    for (larder::Ingredient& ingredient : m_ingredients.all()) {
        if (ingredient.madeBy) named.insert(*ingredient.madeBy);
        take(std::move(ingredient));
    }
    for (const history::Drink& preparation : m_drinks.preparations()) {
        if (named.count(preparation.id) > 0) continue;
        larder::Ingredient ingredient;
        ingredient.id = ingredientIdOf(preparation.id);
        ingredient.sort = larder::IngredientSort::Preparation;
        ingredient.name = preparation.name;
        ingredient.madeBy = preparation.id;
        take(std::move(ingredient));
    }
    for (larder::Lot& lot : m_lots.all()) // first: what is made here may be made of one
        m_larder.put(std::move(lot));
    for (const auto& [name, id] : m_ingredients.remembered())
        m_larder.remember(name, id);
    return preparation::recomputed(std::move(m_larder), m_specs, rules);
}

std::optional<spec::Spec> LarderBuilder::specOf(base::DrinkId preparation) {
    if (const auto used = m_revisions.inUse(preparation))
        if (auto revision = m_revisions.find(*used)) return std::move(revision->spec);
    auto drafts = m_drinks.draftsOf(preparation);
    if (drafts.empty()) return std::nullopt;
    m_draftsPoured.insert(drafts.front().id);
    return std::move(drafts.front().spec);
}

history::RevisionFacts pinnedFacts(const spec::Spec& spec, const larder::Larder& larder,
                                   const RevisionRepository& revisions) {
    history::RevisionFacts facts;
    for (const spec::Line& line : spec.lines) {
        if (!line.ingredient || facts.states.count(*line.ingredient) > 0) continue;
        const larder::Ingredient* poured = larder.poured(*line.ingredient);
        if (!poured) continue;
        facts.states[*line.ingredient] = poured->facts.hash();
        if (poured->id != *line.ingredient) facts.pours[*line.ingredient] = poured->id;
        if (larder.isFromLot(poured->id)) facts.lots[*line.ingredient] = *poured->lotInUse;
        if (poured->madeBy)
            if (const auto revision = revisions.inUse(*poured->madeBy))
                facts.preparations[*line.ingredient] = *revision;
    }
    return facts;
}

namespace {

// What its price is of goes with the price.
void takePriceTags(larder::FactState& facts, const std::vector<std::string>& from) {
    std::erase_if(facts.tags, [](const std::string& tag) { return larder::isPriceTag(tag); });
    for (const std::string& tag : from)
        if (larder::isPriceTag(tag)) larder::putTag(facts, tag);
}

class LarderThen {
  public:
    LarderThen(const larder::Larder& now, const spec::HouseRules& rules, const RevisionRepository& revisions,
               const LarderRepository& ingredients, std::int64_t atMs)
        : m_revisions(revisions),
          m_rules(rules),
          m_then(now) {
        for (larder::Ingredient& stored : ingredients.all(atMs)) {
            const larder::Ingredient* known = now.find(stored.id);
            m_packs[stored.id] = stored.packs;
            if (known == nullptr || known->packs == stored.packs || isPricedAsMade(*known)) continue;
            larder::Ingredient then = *known;
            then.packs = std::move(stored.packs);
            m_then.put(std::move(then));
        }
        for (larder::Ingredient& stored : ingredients.binned(atMs)) {
            m_packs[stored.id] = stored.packs;
            m_binned[stored.id] = std::move(stored);
        }
    }

    larder::Larder of(const history::Revision& revision, int depth = 0) const {
        larder::Larder then = m_then;
        for (const auto& [id, hash] : revision.facts.states) {
            const auto state = m_revisions.state(hash);
            if (!state) continue;
            larder::Ingredient named = ingredientOr(id, nameIn(revision.spec, id));
            const auto pours = revision.facts.pours.find(id);
            const bool isPoured = pours == revision.facts.pours.end();
            larder::Ingredient poured = isPoured ? named : ingredientOr(pours->second, named.name);
            takePurchasesFromBin(then, poured);
            if (const auto made = revision.facts.preparations.find(id);
                made != revision.facts.preparations.end())
                priceAsMade(poured, made->second, depth);
            const auto priced = poured.facts.tags;
            poured.facts = *state;
            if (revision.facts.preparations.count(id) > 0) takePriceTags(poured.facts, priced);
            poured.lotInUse.reset(); // what it lent is in the state
            if (isPoured) {
                poured.houseBottle.reset();
            } else {
                named.facts = *state;
                named.lotInUse.reset();
                named.houseBottle = poured.id;
                then.put(std::move(named));
            }
            then.put(std::move(poured));
        }
        return then;
    }

  private:
    // A preparation made of one made of one… ends long before this in any kitchen.
    static constexpr int kDeepest = 16;

    // Nobody has typed a price: its pack was computed, and what is stored of it is none.
    bool isPricedAsMade(const larder::Ingredient& ingredient) const {
        const auto packs = m_packs.find(ingredient.id);
        return ingredient.madeBy && (packs == m_packs.end() || packs->second.empty());
    }

    const larder::Ingredient* find(base::IngredientId id) const {
        if (const larder::Ingredient* known = m_then.find(id)) return known;
        const auto binned = m_binned.find(id);
        return binned != m_binned.end() ? &binned->second : nullptr;
    }

    larder::Ingredient ingredientOr(base::IngredientId id, const std::string& name) const {
        const larder::Ingredient* known = find(id);
        larder::Ingredient ingredient = known ? *known : larder::Ingredient{};
        ingredient.id = id;
        if (ingredient.name.empty()) ingredient.name = name;
        return ingredient;
    }

    // The limes of a juice may have been binned since. Round a circle everything stands in `then` at last.
    void takePurchasesFromBin(larder::Larder& then, const larder::Ingredient& of) const {
        for (auto from = of.gotFrom; from && then.find(from->of) == nullptr;) {
            const auto binned = m_binned.find(from->of);
            if (binned == m_binned.end()) return;
            then.put(binned->second);
            from = binned->second.gotFrom;
        }
    }

    void priceAsMade(larder::Ingredient& ingredient, base::RevisionId madeAs, int depth) const {
        const auto packs = m_packs.find(ingredient.id);
        if (depth >= kDeepest || (packs != m_packs.end() && !packs->second.empty())) return;
        const auto revision = m_revisions.find(madeAs);
        if (!revision) return;
        ingredient.packs.clear();
        const spec::BindingHouse house(of(*revision, depth + 1), rulesThen(*revision, m_rules));
        if (auto made = preparation::asMade(ingredient, revision->spec, house)) ingredient = *std::move(made);
    }

    const RevisionRepository& m_revisions;
    const spec::HouseRules& m_rules;
    std::unordered_map<base::IngredientId, std::vector<larder::Pack>> m_packs; // stored, as of then
    std::unordered_map<base::IngredientId, larder::Ingredient> m_binned;
    larder::Larder m_then; // of now, with the prices of then
};

} // namespace

spec::HouseRules rulesThen(const history::Revision& revision, const spec::HouseRules& rules) {
    spec::HouseRules then{revision.measures, revision.currency, revision.readings.standardDrinkGrams};
    const std::string day = base::isoText(revision.kept).substr(0, 10); // "2026-11-02"
    std::copy_if(rules.rates.begin(), rules.rates.end(), std::back_inserter(then.rates),
                 [&](const larder::ExchangeRate& rate) { return rate.on <= day; });
    then.pricesOn = day;
    return then;
}

larder::Larder pinnedLarder(const history::Revision& revision, const larder::Larder& now,
                            const spec::HouseRules& rules, const RevisionRepository& revisions,
                            const LarderRepository& ingredients) {
    return LarderThen(now, rules, revisions, ingredients, revision.kept.utcMs).of(revision);
}

} // namespace stillroom::store
