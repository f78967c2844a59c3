#pragma once

#include "core/physics/composition.h"
#include "core/quantity/fraction.h"
#include "core/quantity/temperature.h"

#include <optional>
#include <string_view>

namespace stillroom::physics {

// How much of one substance stays dissolved in water alone, as its share of the two by mass. Sucrose:
// Herzfeld 1892, as tabulated by Mohos 2010. Salt: the Salt Institute's table of brine. Citric acid: an
// encyclopedia's table, its own source not seen. Glucose and fructose at 20 °C as quoted beside their rows,
// warmer from memory. Straight
// between rows. Alcohol lowers all of them, and nothing was found that says by how much.
struct SolubilityEnds {
    quantity::Temperature coldest;
    quantity::Temperature warmest;
    std::string_view source;
};
std::optional<SolubilityEnds> solubilityEnds(Substance substance) noexcept; // nullopt: none was found
// nullopt outside its table.
std::optional<quantity::MassFraction> solubility(Substance substance, quantity::Temperature t) noexcept;

struct Undissolved {
    Substance substance;
    quantity::MassFraction share; // of it and the water
    quantity::MassFraction most;  // that stays dissolved
};
// The first substance of which there is more than stays dissolved in the water present; `t` is held to each
// table's ends.
std::optional<Undissolved> undissolvedAt(const Composition& mixture, quantity::Temperature t) noexcept;
// Likewise at the hottest of each table: so much was never a solution.
std::optional<Undissolved> neverDissolved(const Composition& mixture) noexcept;

} // namespace stillroom::physics
