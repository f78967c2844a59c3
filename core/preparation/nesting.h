#pragma once

#include "core/base/id.h"
#include "core/larder/larder.h"
#include "core/spec/spec.h"

#include <tl/expected.hpp>

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace stillroom::preparation {

using Specs = std::map<base::IngredientId, spec::Spec>; // of each preparation, by the ingredient it makes

// A preparation that is made of itself: each pours the next, the last is the first again.
struct Circle {
    std::vector<base::IngredientId> path;
    friend bool operator==(const Circle&, const Circle&) = default;
};

// Every preparation after all that it is made of, to any depth; among equals by id, so that the order is
// always the same. What a line names is taken for what the house pours for it. The first circle met instead.
tl::expected<std::vector<base::IngredientId>, Circle> makingOrder(const Specs& preparations,
                                                                  const larder::Larder& larder);
// All circles: what stands in one is left out before the next is looked for.
std::vector<Circle> circlesIn(Specs preparations, const larder::Larder& larder);
// "orange syrup > cream > orange syrup"
std::string namesOf(const Circle& circle, const larder::Larder& larder);
// The same with the kinds that stand between: "orange syrup > topping (poured: cream) > orange syrup".
std::string pathOf(const Circle& circle, const Specs& preparations, const larder::Larder& larder);
// The circle that a preparation with this spec would stand in. nullopt: none, or it makes nothing known.
std::optional<Circle> circleWith(base::DrinkId preparation, const spec::Spec& spec, Specs preparations,
                                 const larder::Larder& larder);

} // namespace stillroom::preparation
