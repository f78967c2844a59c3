#include "core/store/where_used.h"

#include <map>
#include <utility>

namespace stillroom::store {

WhereUsed whereUsed(const Workbook& book, base::IngredientId ingredient,
                    const std::set<base::IngredientId>& touched, const preparation::Followers& followers) {
    WhereUsed found;
    std::vector<preparation::DirectUse> direct;
    std::set<std::pair<base::DraftId, base::RevisionId>> seen;
    std::map<base::DrinkId, bool> binned;
    const auto isBinned = [&](base::DrinkId id) {
        const auto known = binned.find(id);
        if (known != binned.end()) return known->second;
        const auto drink = book.drink(id);
        return binned[id] = !drink || drink->binned;
    };
    for (const base::IngredientId id : touched)
        for (const IngredientUse& use : book.usesOf(id)) {
            if (isBinned(use.drink)) continue;
            direct.push_back({id, use.drink});
            if (seen.emplace(use.draft.value_or(base::DraftId()), use.revision.value_or(base::RevisionId()))
                    .second)
                found.places.push_back(use);
        }
    found.by = preparation::usesOf(ingredient, direct, followers);
    return found;
}

} // namespace stillroom::store
