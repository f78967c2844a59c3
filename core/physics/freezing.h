#pragma once

#include "core/physics/composition.h"
#include "core/physics/marked.h"
#include "core/quantity/density.h"
#include "core/quantity/fraction.h"
#include "core/quantity/temperature.h"

#include <cstdint>
#include <optional>

namespace stillroom::physics {

// When a drink begins to freeze. Water activities multiply (K. D. Ross, Food Technology 29(3) (1975) 26):
// each solute lowers ln a_w as it would alone in all the water, which its published freezing points tell
// (CRC Handbook, 102nd ed., after A. V. Wolf 1966); the sum gives the temperature back through the
// equilibrium of water and ice. Published ethanol tables differ: the CRC Handbook's, taken here, and Lange's
// by up to 1.47 K at one mass fraction (29.9 g/100 g), below 23 % vol by less than 1 K.

struct Freezing {
    quantity::Temperature onset; // the first ice forms here
    bool estimate = false;       // a solute is stronger than its table goes, or has no table of its own
    double lnAwEthanol = 0;
    double lnAwSugar = 0; // all sugars
    double lnAwAcid = 0;  // all acids
    double lnAwSalt = 0;
};

// nullopt without water. Fat, protein, starch, other solids, carbon dioxide and caffeine take no part. Sugar
// beyond 42 g/100 g of its water by Starzak and Peacock (1997) at the freezing temperature: an undercooled
// syrup, below about -14 °C sugar may crystallise as well; an estimate. Acids without a table (malic,
// tartaric, acetic, phosphoric, ascorbic, succinic) count as citric of equal moles. Ethanol beyond 68 g/100 g
// holds its last row, so the onset is at most that.
std::optional<Freezing> freezing(const Composition& mixture) noexcept;

// The same without the detail and fast; the caller has water in the mixture.
Marked<quantity::Temperature> freezingOnset(const Composition& mixture) noexcept;

// Natural logarithm of the water activity over ice, -60…0 °C (0 above), and the temperature for it.
double lnWaterActivityOverIce(quantity::Temperature t) noexcept;
quantity::Temperature iceEquilibrium(double lnWaterActivity) noexcept;

// Words for a share of ice have no source.
enum class ColdState : std::uint8_t { Liquid, Slush, Solid };

struct InFreezer {
    ColdState state = ColdState::Liquid;
    quantity::Mass ice;
    double iceShare = 0; // of the whole mass
    Composition liquid;  // what has not frozen
    quantity::Strength liquidStrength;
    double marginK = 0; // freezer above onset; below zero once ice forms
    bool estimate = false;
};
// At rest at this temperature (-45…+40 °C, nullopt outside or without water): pure ice forms until the rest
// is strong enough to stay liquid. Solid: less than 30 % of the mass is left liquid, no source.
std::optional<InFreezer> atTemperature(const Composition& mixture, quantity::Temperature t) noexcept;

// The strength at which this mixture, by taking water out or in, just begins to freeze at `t`; nullopt
// without ethanol or when no amount of water does it.
std::optional<quantity::Strength> strengthToStayLiquid(const Composition& mixture,
                                                       quantity::Temperature t) noexcept;

} // namespace stillroom::physics
