#include "core/preparation/edit_impact.h"

#include "core/larder/listing.h"
#include "core/preparation/recompute.h"
#include "core/preparation/where_used.h"

namespace stillroom::preparation {

using base::IngredientId;

namespace {

std::set<IngredientId> editedOf(const LarderEdit& edit, const std::vector<larder::Lot>& lots) {
    std::set<IngredientId> ids;
    for (const larder::Lot& lot : lots)
        ids.insert(lot.ingredient);
    for (const larder::Ingredient& each : edit)
        ids.insert(each.id);
    return ids;
}

std::optional<double> priceOf(const Side& side, IngredientId id) {
    const auto* ingredient = side.larder.find(id);
    if (ingredient == nullptr) return std::nullopt;
    const auto price = larder::unitPrice(side.larder, *ingredient,
                                         {side.rules.currency, side.rules.pricesOn, &side.rules.rates});
    return price ? std::optional(price->major) : std::nullopt;
}

std::vector<MadeChange> madeChanges(const Side& before, const Side& after, const Specs& preparations) {
    std::vector<MadeChange> changes;
    for (const auto& [id, spec] : preparations) {
        const auto* was = before.larder.find(id);
        const auto* is = after.larder.find(id);
        if (was == nullptr || is == nullptr || was == is) continue;
        MadeChange change{id, was->facts, is->facts, priceOf(before, id), priceOf(after, id)};
        if (change.before == change.after && change.costBefore == change.costAfter) continue;
        changes.push_back(std::move(change));
    }
    return changes;
}

} // namespace

larder::Larder withEdit(larder::Larder larder, const LarderEdit& edit, const Specs& preparations,
                        const spec::HouseRules& rules, const std::vector<larder::Lot>& lots) {
    for (const larder::Ingredient& each : edit)
        larder.put(each);
    for (const larder::Lot& lot : lots)
        larder.put(lot);
    return recomputed(std::move(larder), preparations, rules, editedOf(edit, lots));
}

std::set<IngredientId> touchedBy(const larder::Larder& before, const LarderEdit& edit,
                                 const Specs& preparations, const std::vector<larder::Lot>& lots) {
    const auto edited = editedOf(edit, lots);
    auto touched = Followers(before, preparations).of(edited);
    larder::Larder after = before;
    for (const larder::Ingredient& each : edit)
        after.put(each);
    touched.merge(Followers(after, preparations).of(edited));
    return touched;
}

EditImpact editImpact(const Side& now, const LarderEdit& edit, const Specs& preparations,
                      const std::vector<ImpactSubject>& subjects, const std::atomic<bool>* cancel,
                      const std::vector<larder::Lot>& lots) {
    const Side after{withEdit(now.larder, edit, preparations, now.rules, lots), now.rules};
    EditImpact found;
    found.made = madeChanges(now, after, preparations);
    if (!edit.empty()) {
        found.costBefore = priceOf(now, edit.front().id);
        found.costAfter = priceOf(after, edit.front().id);
    }
    found.drinks = impact(now, after, subjects, cancel);
    return found;
}

} // namespace stillroom::preparation
