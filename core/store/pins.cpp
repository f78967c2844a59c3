#include "core/store/pins.h"

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

} // namespace

larder::Larder LarderBuilder::build(const spec::HouseRules& rules) {
    larder::Larder larder;
    std::set<base::DrinkId> named;
    std::vector<larder::Ingredient> made;
    for (larder::Ingredient& ingredient : m_ingredients.all()) {
        if (ingredient.madeBy) {
            named.insert(*ingredient.madeBy);
            made.push_back(ingredient);
        }
        larder.put(std::move(ingredient));
    }
    for (const history::Drink& preparation : m_drinks.preparations()) {
        if (named.count(preparation.id) > 0) continue;
        larder::Ingredient ingredient;
        ingredient.id = ingredientIdOf(preparation.id);
        ingredient.sort = larder::IngredientSort::Preparation;
        ingredient.name = preparation.name;
        ingredient.madeBy = preparation.id;
        larder.put(ingredient);
        made.push_back(std::move(ingredient));
    }
    static_cast<void>(rules); // the facts of `made` are computed with them
    for (const auto& [name, id] : m_ingredients.remembered())
        larder.remember(name, id);
    return larder;
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
        if (poured->madeBy)
            if (const auto revision = revisions.inUse(*poured->madeBy))
                facts.preparations[*line.ingredient] = *revision;
    }
    return facts;
}

larder::Larder pinnedLarder(const history::Revision& revision, const larder::Larder& now,
                            const RevisionRepository& revisions, const LarderRepository& ingredients) {
    larder::Larder then = now;
    std::unordered_map<base::IngredientId, std::vector<larder::Pack>> packs;
    for (larder::Ingredient& ingredient : ingredients.all(revision.kept.utcMs))
        packs[ingredient.id] = std::move(ingredient.packs);
    const auto ingredientOr = [&](base::IngredientId id, const std::string& name) {
        const larder::Ingredient* known = now.find(id);
        larder::Ingredient ingredient = known ? *known : larder::Ingredient{};
        ingredient.id = id;
        if (ingredient.name.empty()) ingredient.name = name;
        if (const auto found = packs.find(id); found != packs.end()) ingredient.packs = found->second;
        return ingredient;
    };
    for (const auto& [id, hash] : revision.facts.states) {
        const auto state = revisions.state(hash);
        if (!state) continue;
        larder::Ingredient named = ingredientOr(id, nameIn(revision.spec, id));
        named.houseBottle.reset();
        named.facts = *state;
        if (const auto pours = revision.facts.pours.find(id); pours != revision.facts.pours.end()) {
            larder::Ingredient bottle = ingredientOr(pours->second, named.name);
            bottle.facts = *state;
            then.put(std::move(bottle));
            named.houseBottle = pours->second;
        }
        then.put(std::move(named));
    }
    return then;
}

} // namespace stillroom::store
