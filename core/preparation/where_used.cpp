#include "core/preparation/where_used.h"

#include <algorithm>

namespace stillroom::preparation {

using base::IngredientId;

Followers::Followers(const larder::Larder& larder, const Specs& preparations) {
    const auto follows = [this](IngredientId what, IngredientId follower) {
        if (what == follower) return;
        auto& next = m_next[what];
        if (std::find(next.begin(), next.end(), follower) == next.end()) next.push_back(follower);
    };
    for (const larder::Ingredient* each : larder.all()) {
        if (each->houseBottle) follows(*each->houseBottle, each->id);
        if (each->gotFrom) follows(each->gotFrom->of, each->id);
    }
    for (const auto& [made, spec] : preparations)
        for (const spec::Line& line : spec.lines)
            if (line.ingredient) follows(*line.ingredient, made);
}

std::set<IngredientId> Followers::of(const std::set<IngredientId>& changed) const {
    std::set<IngredientId> found = changed;
    std::vector<IngredientId> open(changed.begin(), changed.end());
    while (!open.empty()) {
        const auto next = m_next.find(open.back());
        open.pop_back();
        if (next == m_next.end()) continue;
        for (const IngredientId id : next->second)
            if (found.insert(id).second) open.push_back(id);
    }
    return found;
}

std::map<IngredientId, std::vector<IngredientId>> Followers::paths(IngredientId from) const {
    std::map<IngredientId, std::vector<IngredientId>> paths{{from, {from}}};
    std::vector<IngredientId> nearest{from};
    while (!nearest.empty()) {
        std::vector<IngredientId> further;
        for (const IngredientId at : nearest) {
            const auto next = m_next.find(at);
            if (next == m_next.end()) continue;
            for (const IngredientId id : next->second) {
                if (paths.count(id) > 0) continue;
                auto path = paths.at(at);
                path.push_back(id);
                paths.emplace(id, std::move(path));
                further.push_back(id);
            }
        }
        nearest = std::move(further);
    }
    return paths;
}

std::vector<Use> usesOf(IngredientId ingredient, const std::vector<DirectUse>& uses,
                        const Followers& followers) {
    const auto paths = followers.paths(ingredient);
    std::vector<Use> found;
    std::map<base::DrinkId, std::size_t> known;
    for (const DirectUse& use : uses) {
        const auto path = paths.find(use.ingredient);
        if (path == paths.end()) continue;
        const auto [at, isNew] = known.emplace(use.by, found.size());
        if (isNew)
            found.push_back({use.by, path->second});
        else if (path->second.size() < found[at->second].through.size())
            found[at->second].through = path->second;
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const Use& a, const Use& b) { return a.through.size() < b.through.size(); });
    return found;
}

} // namespace stillroom::preparation
