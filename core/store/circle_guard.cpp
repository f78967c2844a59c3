#include "core/store/circle_guard.h"

#include "core/store/workbook.h"

#include <algorithm>

namespace stillroom::store {

namespace {

using preparation::Circle;

[[noreturn]] void refuse(const Workbook& book, const Circle& circle, const preparation::Specs& specs,
                         const larder::Larder& larder) {
    throw StoreError(StoreErrorKind::Circle, 0, book.path(), preparation::pathOf(circle, specs, larder));
}

} // namespace

void refuseCircle(const Workbook& book, base::DrinkId preparation, const spec::Spec& spec) {
    const larder::Larder larder = book.larder();
    preparation::Specs specs = book.preparations();
    const auto circle = preparation::circleWith(preparation, spec, specs, larder);
    if (!circle) return;
    for (auto& [id, stands] : specs)
        if (const auto* known = larder.find(id); known != nullptr && known->madeBy == preparation)
            stands = spec;
    refuse(book, *circle, specs, larder);
}

void refuseCircle(const Workbook& book, const std::vector<larder::Ingredient>& saved) {
    const larder::Larder before = book.larder();
    const auto moves = [&](const larder::Ingredient& ingredient) {
        const larder::Ingredient* known = before.find(ingredient.id);
        const larder::Ingredient unknown;
        const larder::Ingredient& stands = known != nullptr ? *known : unknown;
        return ingredient.houseBottle != stands.houseBottle || ingredient.madeBy != stands.madeBy;
    };
    if (std::none_of(saved.begin(), saved.end(), moves)) return;
    larder::Larder after = before;
    preparation::Specs specs = book.preparations();
    for (const larder::Ingredient& ingredient : saved) {
        after.put(ingredient);
        if (!ingredient.madeBy || specs.count(ingredient.id) > 0) continue;
        for (const auto& [id, spec] : book.preparations())
            if (const auto* known = before.find(id); known != nullptr && known->madeBy == ingredient.madeBy)
                specs[ingredient.id] = spec;
    }
    const auto standing = book.circles();
    for (const Circle& circle : preparation::circlesIn(specs, after))
        if (std::find(standing.begin(), standing.end(), circle) == standing.end())
            refuse(book, circle, specs, after);
}

} // namespace stillroom::store
