#pragma once

#include "core/preparation/nesting.h"
#include "core/spec/evaluate.h"

#include <optional>
#include <set>

namespace stillroom::preparation {

// An ingredient with the facts of its spec and, unless somebody typed a price, what it cost to make. nullopt:
// nothing in the spec has an amount.
std::optional<larder::Ingredient> asMade(const larder::Ingredient& ingredient, const spec::Spec& spec,
                                         const spec::BindingHouse& house);
// A pack that asMade wrote, and writes anew; any other was typed.
bool isCostOfMaking(const larder::Pack& pack, base::IngredientId ingredient);

// The larder with everything made here worked out again, each after what it is made of; by default all of
// `preparations`, else those that follow what changed. What is made of itself keeps the facts it has, and so
// does what has no amounts.
larder::Larder recomputed(larder::Larder larder, const Specs& preparations, const spec::HouseRules& rules,
                          const std::optional<std::set<base::IngredientId>>& changed = std::nullopt);

// What one serve of a spec cost on a civil date, its preparations made at the prices of that day.
spec::Reading costOn(const spec::Spec& spec, const larder::Larder& larder, const Specs& preparations,
                     spec::HouseRules rules, const std::string& day);

} // namespace stillroom::preparation
