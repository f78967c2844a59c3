#pragma once

#include "core/physics/composition.h"
#include "core/quantity/density.h"
#include "core/quantity/fraction.h"

#include <optional>

namespace stillroom::physics {

// What a label or a handbook says about a liquid at 20 °C.
struct LiquidFacts {
    quantity::Strength strength;
    Composition gramsPerLitre; // all but ethanol and water, which must be 0
    std::optional<quantity::Density> measuredDensity;
};

struct MassesPerMl {
    Composition perMl;              // g in one ml
    quantity::Density modelDensity; // what strength, sugar and the rest give together
    // Measured less model, kg/m³, when a density was measured: strength, solutes and density over-determine
    // a liquid, and this is by how much they contradict each other.
    std::optional<quantity::Density> contradiction;
};

// The masses in one ml at 20 °C: ethanol and solutes as stated, and the water that makes up the volume. A
// measured density above the model's is taken as solids nobody stated (the volume stays 1 ml and the mass
// is the measured one); one below it takes water away, and the volume misses 1 ml by as much. nullopt when
// the facts cannot be true together: a negative or unreal figure, more than a ml of solutes and ethanol,
// or a density that leaves no room for water.
std::optional<MassesPerMl> massesPerMl(const LiquidFacts& facts) noexcept;

} // namespace stillroom::physics
