#pragma once

#include "core/physics/composition.h"
#include "core/quantity/mass.h"

namespace stillroom::physics {

// The mass of anhydrous citric acid that would neutralise as much alkali as all acids of the mixture do up
// to pH 8.2: each acid by its equivalent weight. Carbon dioxide is not counted (juices and wines are
// titrated without it). Phosphoric acid gives two of its three protons, ascorbic one of two.
quantity::Mass titratableAcidAsCitric(const Composition& mixture) noexcept;

// Grams of the acid that neutralise as much as 1 g of anhydrous citric acid; 0 when `s` is no acid.
double gramsPerGramCitric(Substance s) noexcept;

} // namespace stillroom::physics
