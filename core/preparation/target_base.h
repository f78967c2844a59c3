#pragma once

#include "core/preparation/bringing.h"

#include <optional>

namespace stillroom::preparation {

// Whether an ingredient is a thing one brings to such a target: to an acid or to sugar and acid what holds no
// alcohol, to a Brix what is sweet, to a strength what is strong. What nobody knows the figure of may be.
bool isBaseFor(Target target, const larder::Ingredient& ingredient);

// What to begin with: `inHand` where it is one; else the first juice (one half as sour as `like` at most),
// syrup or spirit of the book; else of the handbook. Never `like` itself. nullopt: there is none.
std::optional<base::IngredientId> usualBase(Target target, std::optional<base::IngredientId> inHand,
                                            std::optional<base::IngredientId> like,
                                            const larder::Larder& larder);

} // namespace stillroom::preparation
