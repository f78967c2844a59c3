#pragma once

#include "core/physics/composition.h"
#include "core/physics/heat.h"
#include "core/quantity/mass.h"
#include "core/quantity/temperature.h"

#include <optional>
#include <span>

namespace stillroom::physics {

// What ice does to a drink that reaches equilibrium with it, without loss of cold: the melt brings the drink
// to its own freezing point, with the heat of mixing water into spirit (textbook calorimetry; cp by
// Melinder, freezing by Ross and CRC, heat of mixing by Nagamachi and Francesconi). A real shake comes near
// it in 15 s; a stirred drink never does.

struct LiquidPart {
    Composition masses;
    quantity::Temperature t;
};

struct IceLoad {
    // Weighed, with the water clinging to it; nullopt: more than enough, and what does not melt is not asked
    // to warm up. A weighed load warms to the drink's temperature as a whole.
    std::optional<quantity::Mass> mass;
    quantity::Temperature t = quantity::Temperature::fromCelsius(0); // at most 0 °C
    double wetShare = 0; // of the mass is water at 0 °C: dilutes without chilling. Needs a weighed load.
};

struct BalanceOptions {
    double heatLeakJ = 0; // from hands and room
    bool countMixingHeat = true;
};

struct Chilled {
    quantity::Mass melted;       // below zero: so much of the drink froze onto colder ice
    quantity::Mass surfaceWater; // that clung to the ice
    quantity::Mass iceLeft;      // of a weighed load, else 0
    quantity::Temperature t;
    bool allMelted = false;
    Composition drink;     // the liquid, melt included
    bool estimate = false; // a heat capacity or freezing point outside its source's range
};

// nullopt when there is no water to make equilibrium with, ice above 0 °C, a share outside 0…1, figures that
// are no numbers, or a balance that ends outside -45…+100 °C.
std::optional<Chilled> chill(std::span<const LiquidPart> liquids, const IceLoad& ice,
                             std::span<const HeatStore> vessels = {},
                             const BalanceOptions& options = {}) noexcept;

// The same liquids and vessels together without ice: hot builds, warming, a preheated mug. Counts the heat
// of mixing; not that of dissolving sugar, nor evaporation.
std::optional<Marked<quantity::Temperature>> mixedTemperature(std::span<const LiquidPart> liquids,
                                                              std::span<const HeatStore> vessels = {},
                                                              const BalanceOptions& options = {}) noexcept;

} // namespace stillroom::physics
