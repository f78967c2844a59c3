#include "core/preparation/recompute.h"

#include "core/preparation/preparation.h"
#include "core/preparation/where_used.h"

#include <algorithm>

namespace stillroom::preparation {

using base::IngredientId;

namespace {

base::PackId packIdOf(IngredientId ingredient) {
    return base::PackId::derivedFrom("preparation cost " + ingredient.text());
}

// In making order. What stands in a circle is left out: its facts stay as they were stored.
std::vector<IngredientId> orderOf(Specs preparations, const larder::Larder& larder) {
    while (true) {
        auto order = makingOrder(preparations, larder);
        if (order) return *std::move(order);
        for (const IngredientId id : order.error().path)
            preparations.erase(id);
    }
}

} // namespace

bool isCostOfMaking(const larder::Pack& pack, IngredientId ingredient) {
    return pack.id == packIdOf(ingredient);
}

std::optional<larder::Ingredient> asMade(const larder::Ingredient& ingredient, const spec::Spec& spec,
                                         const spec::BindingHouse& house) {
    const spec::Bindings bindings(spec, house);
    const auto made = make(spec, bindings, yieldOf(spec));
    if (!made) return std::nullopt;
    larder::Ingredient result = ingredient;
    result.facts = made->facts;
    std::erase_if(result.packs,
                  [&](const larder::Pack& pack) { return isCostOfMaking(pack, ingredient.id); });
    if (!result.packs.empty()) return result;
    const auto pack = packOf(*made, packIdOf(ingredient.id), bindings.rules().currency);
    if (pack) result.packs = {*pack};
    return result;
}

larder::Larder recomputed(larder::Larder larder, const Specs& preparations, const spec::HouseRules& rules,
                          const std::optional<std::set<IngredientId>>& changed) {
    std::optional<std::set<IngredientId>> touched;
    if (changed) touched = Followers(larder, preparations).of(*changed);
    for (const IngredientId id : orderOf(preparations, larder)) {
        if (touched && touched->count(id) == 0) continue;
        const larder::Ingredient* known = larder.find(id);
        if (known == nullptr) continue;
        // Each sees what was made before it, so each takes a house of its own.
        if (auto made = asMade(*known, preparations.at(id), spec::BindingHouse(larder, rules)))
            larder.put(*std::move(made));
    }
    return larder;
}

spec::Reading costOn(const spec::Spec& spec, const larder::Larder& larder, const Specs& preparations,
                     spec::HouseRules rules, const std::string& day) {
    rules.pricesOn = day;
    const auto then = recomputed(larder, preparations, rules);
    return spec::evaluate(spec, spec::Bindings(spec, then, rules))[spec::Stage::Served][spec::Quantity::Cost];
}

} // namespace stillroom::preparation
