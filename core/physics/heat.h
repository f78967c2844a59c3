#pragma once

#include "core/physics/composition.h"
#include "core/physics/marked.h"
#include "core/quantity/fraction.h"
#include "core/quantity/mass.h"
#include "core/quantity/temperature.h"

#include <cstdint>
#include <optional>
#include <span>

namespace stillroom::physics {

// Specific heat of ethanol + water, J/(g K): A. Melinder, Properties of Secondary Working Fluids (IIR 2010),
// mass fraction 0…0.60, from the freezing curve (-45 °C) to 40 °C; held at those ends outside, as an
// estimate.
Marked<double> ethanolWaterCp(quantity::MassFraction ethanol, quantity::Temperature t) noexcept;

// What dissolved sugar adds: cp of sucrose solutions is 4184 - 2511 w + 7.5 w t J/(kg K) for pure sugar
// (formula used by M. Llano-Restrepo 2005), hence 1.673 + 0.0075 t J/g of sugar.
double dissolvedSugarCp(quantity::Temperature t) noexcept;
// Sugar crystals, 0…100 °C (Mohos 2010, after Maczelka 1962), J/(g K).
double drySugarCp(quantity::Temperature t) noexcept;

// Of a whole mixture, J/K. Acids, protein and other solids count 1.7 J/(g K), fat 2.0 (no source).
Marked<double> heatCapacityJPerK(const Composition& mixture, quantity::Temperature t) noexcept;

// Heat of mixing the ethanol and water of this mixture at 25 °C, J, below zero (heat comes out): Nagamachi
// and Francesconi, J. Chem. Thermodyn. 38 (2006) 461. That of sugar and acid is not counted.
double mixingHeatJ(const Composition& mixture) noexcept;

// Enthalpy of the liquid at `t` above its pure ethanol and water and its solutes at 25 °C, J.
Marked<double> liquidEnthalpyJ(const Composition& mixture, quantity::Temperature t) noexcept;

// Ice Ih, for balances: from memory CRC / Osborne 1939 (333.55; IAPWS-06 gives 333.43) and tables of 2.05 to
// 2.10 J/(g K).
inline constexpr double kFusionJPerG = 333.55;
inline constexpr double kIceCpJPerGK = 2.1;
inline constexpr double kWaterCpJPerGK = 4.19;

enum class Material : std::uint8_t {
    Steel,
    SodaLimeGlass,
    BorosilicateGlass,
    Tin,
    Brass,
    Copper,
    Aluminium,
    Polycarbonate,
    Porcelain,
};
// W. D. Callister, Fundamentals of Materials Science and Engineering, Table B.8, and general property
// tables; porcelain from memory. J/(g K).
double materialCp(Material material) noexcept;

// A vessel, a warm mug, anything that changes temperature and nothing else.
struct HeatStore {
    double joulesPerK = 0;
    quantity::Temperature t;
};
HeatStore vessel(quantity::Mass mass, Material material, quantity::Temperature t) noexcept;

// The temperature all of them reach together, without loss; nullopt when there is nothing.
std::optional<quantity::Temperature> balancedTemperature(std::span<const HeatStore> stores) noexcept;

} // namespace stillroom::physics
