#include "core/preparation/target_base.h"

#include "core/larder/handbook.h"

#include <algorithm>
#include <string_view>

namespace stillroom::preparation {

using base::IngredientId;
using larder::Ingredient;

namespace {

std::string_view usualGroup(Target target) {
    switch (target) {
    case Target::Acid:
    case Target::SugarAndAcid:
        return "juice";
    case Target::Brix:
        return "syrup";
    case Target::Strength:
        return "spirit";
    }
    return {};
}

std::string_view usualKind(Target target) {
    switch (target) {
    case Target::Acid:
    case Target::SugarAndAcid:
        return "orange_juice";
    case Target::Brix:
        return "simple_1_1_mass";
    case Target::Strength:
        return "vodka";
    }
    return {};
}

// One of a book's own is better known than the handbook's; of two, the one whose figures stand.
bool hasFigures(Target target, const Ingredient& ingredient) {
    const auto& facts = ingredient.facts;
    switch (target) {
    case Target::Acid:
        return facts.acidGPerL.has_value();
    case Target::Brix:
        return facts.sugarGPerL.has_value();
    case Target::Strength:
        return facts.abvPercent.has_value();
    case Target::SugarAndAcid:
        return facts.acidGPerL && facts.sugarGPerL;
    }
    return false;
}

} // namespace

bool isBaseFor(Target target, const Ingredient& ingredient) {
    const auto& facts = ingredient.facts;
    if (facts.dry) return false;
    constexpr double kStrong = 0.5; // % vol: a ripe juice holds less
    const bool strong = facts.abvPercent && facts.abvPercent->typical > kStrong;
    switch (target) {
    case Target::Acid:
        return !strong && !(facts.acidGPerL && facts.acidGPerL->typical <= 0);
    case Target::Brix:
        return !strong && !(facts.sugarGPerL && facts.sugarGPerL->typical <= 0);
    case Target::Strength:
        return strong || !facts.abvPercent;
    case Target::SugarAndAcid:
        return !strong;
    }
    return false;
}

std::optional<IngredientId> usualBase(Target target, std::optional<IngredientId> inHand,
                                      std::optional<IngredientId> like, const larder::Larder& larder) {
    const auto kindOf = [](const Ingredient& each) { return each.kind ? *each.kind : each.id; };
    const auto* other = like ? larder.find(*like) : nullptr;
    const auto suits = [&](const Ingredient& each) {
        return isBaseFor(target, each) && (other == nullptr || kindOf(each) != kindOf(*other));
    };
    // One brings a sweet juice to a sour one.
    const auto isSour = [&](const Ingredient& each) {
        const auto& acid = each.facts.acidGPerL;
        return target == Target::Acid && other != nullptr && other->facts.acidGPerL && acid &&
               acid->typical > other->facts.acidGPerL->typical / 2;
    };
    if (const auto* known = inHand ? larder.find(*inHand) : nullptr; known != nullptr && suits(*known))
        return inHand;
    for (const Ingredient* each : larder.all()) {
        const bool own = each != larder::Handbook::builtIn().find(each->id);
        if (own && each->facts.group == usualGroup(target) && suits(*each) && hasFigures(target, *each) &&
            !isSour(*each))
            return each->id;
    }
    const auto* kind = larder.find(larder::Handbook::idOf(usualKind(target)));
    return kind != nullptr && suits(*kind) ? std::optional(kind->id) : std::nullopt;
}

} // namespace stillroom::preparation
