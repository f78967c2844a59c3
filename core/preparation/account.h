#pragma once

#include "core/preparation/preparation.h"

#include <vector>

// What is left of a preparation, step by step.
namespace stillroom::preparation {

// What stands in the pot at one moment. A figure is nullopt where it is unknown.
struct Stand {
    enum class At : std::uint8_t {
        Pan,    // what goes in before the first step
        Step,   // after it
        Usable, // in the bottle: whatever goes in after all steps is in it, and a measured yield wins
    };
    At at = At::Pan;
    std::size_t step = 0; // of Step
    spec::StepKind kind = spec::StepKind::Dissolve;
    quantity::Mass mass, entered, left; // entered and left since the stand before
    quantity::Volume volume;            // at 20 °C; of a dry mixture 0 when it is usable
    bool atMost = false;
    bool measured = false; // weighed or measured, not worked out
    std::optional<double> strengthPercent, sugarGPerL, acidGPerL, brix, densityKgPerM3;
    std::optional<quantity::Cost> cost, costPer100Ml;
    AtLeast least;                                   // where they are not known whole
    std::optional<quantity::Cost> leastCostPer100Ml; // likewise
    std::vector<StepRemark> remarks;
};

// Pan, every step, usable.
std::vector<Stand> account(const Made& made);
// Of the mass of everything that went in: what came out, 0…1.
double usableShare(const Made& made);

// "To stand in for 30 ml of plain syrup": ml of this with as much sugar. nullopt: it holds none, nobody knows
// how much, or there is alcohol in it, so that it is no syrup.
std::optional<quantity::Volume> standsInFor(const Made& made, quantity::Volume syrup, double syrupSugarGPerL);

} // namespace stillroom::preparation
