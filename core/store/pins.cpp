#include "core/store/pins.h"

#include "core/preparation/preparation.h"
#include <algorithm>
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

// Facts and, unless somebody has typed a price, cost. False when nothing in the spec has an amount.
bool addMade(larder::Ingredient& ingredient, const spec::Spec& spec, const larder::Larder& larder,
             const spec::HouseRules& rules) {
    const spec::Bindings bindings(spec, larder, rules);
    const auto made = preparation::make(spec, bindings, preparation::yieldOf(spec));
    if (!made) return false;
    ingredient.facts = made->facts;
    if (!ingredient.packs.empty()) return true;
    const auto id = base::PackId::derivedFrom("preparation cost " + ingredient.id.text());
    if (const auto pack = preparation::packOf(*made, id, rules.currency)) ingredient.packs = {*pack};
    return true;
}

} // namespace

larder::Larder LarderBuilder::build(const spec::HouseRules& rules) {
    m_rules = rules;
    std::set<base::DrinkId> named;
    for (larder::Ingredient& ingredient : m_ingredients.all()) {
        if (ingredient.madeBy) {
            named.insert(*ingredient.madeBy);
            m_waiting[ingredient.id] = ingredient;
        }
        m_larder.put(std::move(ingredient));
    }
    for (const history::Drink& preparation : m_drinks.preparations()) {
        if (named.count(preparation.id) > 0) continue;
        larder::Ingredient ingredient;
        ingredient.id = ingredientIdOf(preparation.id);
        ingredient.sort = larder::IngredientSort::Preparation;
        ingredient.name = preparation.name;
        ingredient.madeBy = preparation.id;
        m_larder.put(ingredient);
        m_waiting[ingredient.id] = std::move(ingredient);
    }
    for (larder::Lot& lot : m_lots.all()) // first: what is made here may be made of one
        m_larder.put(std::move(lot));
    while (!m_waiting.empty())
        compute(m_waiting.begin()->first);
    for (const auto& [name, id] : m_ingredients.remembered())
        m_larder.remember(name, id);
    return std::move(m_larder);
}

// First what it is made of, then itself. Taken off the waiting list at once, so a circle comes to an end.
void LarderBuilder::compute(base::IngredientId id) {
    auto node = m_waiting.extract(id);
    larder::Ingredient ingredient = std::move(node.mapped());
    const auto spec = specOf(*ingredient.madeBy);
    if (!spec) return;
    for (const spec::Line& line : spec->lines) {
        if (!line.ingredient) continue;
        const larder::Ingredient* poured = m_larder.poured(*line.ingredient);
        if (poured && m_waiting.count(poured->id) > 0) compute(poured->id);
    }
    if (addMade(ingredient, *spec, m_larder, m_rules)) m_larder.put(std::move(ingredient));
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
            poured.facts = *state;
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
        spec::HouseRules rules = m_rules; // its rates
        rules.measures = revision->measures;
        rules.currency = revision->currency;
        rules.standardDrinkGrams = revision->readings.standardDrinkGrams;
        addMade(ingredient, revision->spec, of(*revision, depth + 1), rules);
    }

    const RevisionRepository& m_revisions;
    const spec::HouseRules& m_rules;
    std::unordered_map<base::IngredientId, std::vector<larder::Pack>> m_packs; // stored, as of then
    std::unordered_map<base::IngredientId, larder::Ingredient> m_binned;
    larder::Larder m_then; // of now, with the prices of then
};

} // namespace

larder::Larder pinnedLarder(const history::Revision& revision, const larder::Larder& now,
                            const spec::HouseRules& rules, const RevisionRepository& revisions,
                            const LarderRepository& ingredients) {
    return LarderThen(now, rules, revisions, ingredients, revision.kept.utcMs).of(revision);
}

} // namespace stillroom::store
