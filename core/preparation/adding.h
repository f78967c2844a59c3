#pragma once

#include "core/larder/larder.h"
#include "core/preparation/targets.h"
#include "core/spec/evaluate.h"
#include "core/spec/spec.h"

#include <string>
#include <vector>

// What a target asks for, put into the spec that it is worked out for.
namespace stillroom::preparation {

// A line as it would be written: "12.4 g citric acid", taken for what the larder knows by that name. Rounded
// to a hundredth.
spec::Line dryLine(const std::string& name, quantity::Mass mass, const larder::Larder& larder);
spec::Line liquidLine(const std::string& name, quantity::Volume volume, const larder::Larder& larder);
// "citric acid", "sugar, white granulated": the handbook's name of a substance one weighs; empty: none.
std::string nameOfSubstance(physics::Substance substance);

// After everything else. A yield measured in the end was measured before these went in: it becomes a
// straining that left so much, and is measured no more.
spec::Spec withAdded(const spec::Spec& spec, const std::vector<spec::Line>& lines);
// A simmering at the end that loses so much water.
spec::Spec withBoiledOff(const spec::Spec& spec, quantity::Mass water);

// The composition of 100 ml of an ingredient, as poured. nullopt: not in the larder, dry, or nothing known.
std::optional<physics::Composition>
compositionOfIngredient(base::IngredientId id, const larder::Larder& larder, const spec::HouseRules& rules);

} // namespace stillroom::preparation
