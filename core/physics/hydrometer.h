#pragma once

#include "core/physics/marked.h"
#include "core/physics/proof.h"
#include "core/quantity/density.h"
#include "core/quantity/fraction.h"
#include "core/quantity/temperature.h"

#include <optional>

namespace stillroom::physics {

// What a glass hydrometer floating in ethanol + water at `t` really tells. Its stem shows the strength that
// the liquid would have at the temperature the glass was made for; the glass itself is larger when warm
// (soda-lime, 25e-6 per K: the figure that reproduces 27 CFR Part 30, Table 1 to 0.11 proof). Sugar and
// other solids must be absent: see obscuration(). nullopt when no mixture floats it there, or outside
// -60…+110 °C; an estimate outside -20…+40 °C.

// A US proof hydrometer, made for 60 °F.
std::optional<Marked<UsProof>> trueProof(UsProof indication, quantity::Temperature t) noexcept;
// An alcoholometer in % vol, made for 20 °C.
std::optional<Marked<quantity::Strength>> trueStrength(quantity::Strength indication,
                                                       quantity::Temperature t) noexcept;

// How many degrees of proof the hydrometer reads too low because of dissolved sugar, by the volume model
// (27 CFR 30.32 counts 0.4 degree per 100 mg in 100 ml at 80-100 proof, up to 600 mg; above that distil
// first). nullopt when strength and sugar do not fit in a litre or the sweetened spirit is heavier than
// water, so that the hydrometer shows no proof at all.
std::optional<UsProof> obscuration(quantity::Strength actual, double sugarGPerL) noexcept;

// Weighing in air: what a balance with brass weights (8.4 g/ml) shows in air of 0.0012 g/ml, per volume.
quantity::Density apparentDensityInAir(quantity::Density inVacuo) noexcept;
quantity::Density densityFromAir(quantity::Density apparent) noexcept;

} // namespace stillroom::physics
