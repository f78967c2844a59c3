#pragma once

#include "core/physics/marked.h"
#include "core/quantity/density.h"
#include "core/quantity/fraction.h"
#include "core/quantity/temperature.h"

#include <optional>

namespace stillroom::physics {

// Density of ethanol + water by OIML International Recommendation R 22 (1973/1975), the formula of
// Council Directive 76/766/EEC. Mass fraction of ethanol 0…1; -20…+40 °C on the liquid side of the
// freezing curve. In vacuo, kg/m³.

// The strength convention divides by exactly this density of ethanol at 20 °C (erratum printed with R 22;
// the same in EU and OIV texts). The formula itself gives 789.2391 at mass fraction 1.
inline constexpr double kEthanolKgPerM3At20 = 789.24;

// The formula at 20 °C alone, for evaluations by the million. The caller keeps 0 <= ethanol <= 1.
quantity::Density ethanolWaterDensityAt20(quantity::MassFraction ethanol) noexcept;

// Between -60 and +110 °C; an estimate outside -20…+40 °C, where the formula's slope at its last
// temperature is carried on (above, on top of the density of water), and below the freezing curve, where the
// mixture is partly ice. nullopt outside that, for a mass fraction outside 0…1, and for a number that is
// none.
std::optional<Marked<quantity::Density>> ethanolWaterDensity(quantity::MassFraction ethanol,
                                                             quantity::Temperature t) noexcept;

// Strength at 20 °C of a mass fraction 0…1 of ethanol in ethanol + water; nullopt outside. Mass fraction 1
// is 100 % vol by definition, although the formula stops at 99.99989.
std::optional<quantity::Strength> strengthOf(quantity::MassFraction ethanol) noexcept;
// The inverse, to 1e-12 in mass fraction; nullopt outside 0…100 % vol.
std::optional<quantity::MassFraction> massFractionOf(quantity::Strength strength) noexcept;

// The mass fraction whose mixture has this density at this temperature; nullopt when none has.
std::optional<Marked<quantity::MassFraction>> massFractionFromDensity(quantity::Density density,
                                                                      quantity::Temperature t) noexcept;

} // namespace stillroom::physics
