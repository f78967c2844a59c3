#pragma once

#include "core/physics/marked.h"
#include "core/quantity/density.h"
#include "core/quantity/fraction.h"
#include "core/quantity/temperature.h"

#include <optional>

namespace stillroom::physics {

// Density of sucrose + water by ICUMSA SPS-4 (1998; A. Emmerich 1994), 0…100 °C, 0…85 g/100 g (best below
// 70). In vacuo, kg/m³.

// Water as SPS-4 takes it; -20…+110 °C (held at the ends, below 0 °C that of undercooled water).
quantity::Density waterDensity(quantity::Temperature t) noexcept;

// An estimate above 85 g/100 g and outside 0…100 °C (range -20…+110); nullopt outside that, for a mass
// fraction outside 0…1, and for a number that is none.
std::optional<Marked<quantity::Density>> sucroseWaterDensity(quantity::MassFraction sucrose,
                                                             quantity::Temperature t) noexcept;
// The formula at 20 °C alone. The caller keeps 0 <= sucrose <= 1.
quantity::Density sucroseWaterDensityAt20(quantity::MassFraction sucrose) noexcept;

// How much larger the water becomes by dissolving the sugar in it. Sugar in less water than a solution of
// 85 g/100 g would need keeps the volume per gram that it has there; below 0 °C it keeps that of 0 °C.
quantity::Volume sugarVolumeAt20(quantity::Mass sugar, quantity::Mass water) noexcept;
quantity::Volume sugarVolume(quantity::Mass sugar, quantity::Mass water, quantity::Temperature t) noexcept;

// The sucrose mass fraction of a solution of this density; nullopt when none has it.
std::optional<Marked<quantity::MassFraction>> brixFromDensity(quantity::Density density,
                                                              quantity::Temperature t) noexcept;

} // namespace stillroom::physics
