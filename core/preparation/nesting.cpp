#include "core/preparation/nesting.h"

#include <algorithm>

namespace stillroom::preparation {

using base::IngredientId;

namespace {

// The preparations a spec pours, each once, in the order of its lines.
std::vector<IngredientId> madeOf(const spec::Spec& spec, const Specs& all, const larder::Larder& larder) {
    std::vector<IngredientId> parts;
    for (const spec::Line& line : spec.lines) {
        if (!line.ingredient) continue;
        const larder::Ingredient* poured = larder.poured(*line.ingredient);
        const IngredientId id = poured != nullptr ? poured->id : *line.ingredient;
        if (all.count(id) > 0 && std::find(parts.begin(), parts.end(), id) == parts.end())
            parts.push_back(id);
    }
    return parts;
}

struct Open {
    IngredientId id;
    std::vector<IngredientId> parts;
    std::size_t next = 0;
};

} // namespace

// By hand instead of by recursion: a chain may be longer than a stack is deep.
tl::expected<std::vector<IngredientId>, Circle> makingOrder(const Specs& preparations,
                                                            const larder::Larder& larder) {
    enum class State : std::uint8_t { Open, Done };
    std::map<IngredientId, State> states;
    std::vector<IngredientId> order;
    for (const auto& [first, spec] : preparations) {
        if (states.count(first) > 0) continue;
        std::vector<Open> path{{first, madeOf(spec, preparations, larder), 0}};
        states[first] = State::Open;
        while (!path.empty()) {
            Open& here = path.back();
            if (here.next == here.parts.size()) {
                states[here.id] = State::Done;
                order.push_back(here.id);
                path.pop_back();
                continue;
            }
            const IngredientId part = here.parts[here.next++];
            const auto state = states.find(part);
            if (state == states.end()) {
                states[part] = State::Open;
                path.push_back({part, madeOf(preparations.at(part), preparations, larder), 0});
            } else if (state->second == State::Open) {
                Circle circle;
                const auto begins =
                    std::find_if(path.begin(), path.end(), [&](const Open& open) { return open.id == part; });
                for (auto open = begins; open != path.end(); ++open)
                    circle.path.push_back(open->id);
                circle.path.push_back(part);
                return tl::unexpected(std::move(circle));
            }
        }
    }
    return order;
}

std::vector<Circle> circlesIn(Specs preparations, const larder::Larder& larder) {
    std::vector<Circle> circles;
    while (true) {
        auto order = makingOrder(preparations, larder);
        if (order) return circles;
        for (const IngredientId id : order.error().path)
            preparations.erase(id);
        circles.push_back(std::move(order.error()));
    }
}

std::string namesOf(const Circle& circle, const larder::Larder& larder) {
    std::string names;
    for (const IngredientId id : circle.path) {
        const larder::Ingredient* known = larder.find(id);
        if (!names.empty()) names += " > ";
        names += known != nullptr && !known->name.empty() ? known->name : "?";
    }
    return names;
}

std::string pathOf(const Circle& circle, const Specs& preparations, const larder::Larder& larder) {
    const auto nameOf = [&](IngredientId id) {
        const larder::Ingredient* known = larder.find(id);
        return known != nullptr && !known->name.empty() ? known->name : std::string("?");
    };
    std::string path;
    for (std::size_t i = 0; i < circle.path.size(); ++i) {
        const IngredientId id = circle.path[i];
        std::string step = nameOf(id);
        const auto before = i > 0 ? preparations.find(circle.path[i - 1]) : preparations.end();
        if (before != preparations.end()) {
            const auto& lines = before->second.lines;
            const auto by = std::find_if(lines.begin(), lines.end(), [&](const spec::Line& line) {
                const auto* poured = line.ingredient ? larder.poured(*line.ingredient) : nullptr;
                return poured != nullptr && poured->id == id;
            });
            if (by != lines.end() && *by->ingredient != id)
                step = nameOf(*by->ingredient).append(" (poured: ").append(step).append(")");
        }
        if (!path.empty()) path += " > ";
        path += step;
    }
    return path;
}

std::optional<Circle> circleWith(base::DrinkId preparation, const spec::Spec& spec, Specs preparations,
                                 const larder::Larder& larder) {
    std::vector<IngredientId> made;
    for (auto& [id, stands] : preparations) {
        const larder::Ingredient* known = larder.find(id);
        if (known == nullptr || known->madeBy != preparation) continue;
        stands = spec;
        made.push_back(id);
    }
    if (made.empty()) return std::nullopt;
    for (Circle& circle : circlesIn(std::move(preparations), larder))
        for (const IngredientId id : made)
            if (std::find(circle.path.begin(), circle.path.end(), id) != circle.path.end())
                return std::move(circle);
    return std::nullopt;
}

} // namespace stillroom::preparation
