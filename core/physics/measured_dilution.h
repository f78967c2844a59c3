#pragma once

#include "core/physics/composition.h"
#include "core/quantity/fraction.h"
#include "core/quantity/mass.h"
#include "core/quantity/temperature.h"
#include "core/quantity/volume.h"

#include <optional>
#include <span>

namespace stillroom::physics {

// The water a drink took up, from what can be measured at the bench. `mixed` is the drink before ice. All
// nullopt when the measurement says that water was lost, or is no number.

// Strained drink on the scale; what stayed on the ice is lost and makes this too small.
std::optional<quantity::Mass> waterFromWeight(const Composition& mixed, quantity::Mass after) noexcept;
// Strained drink in a graduate, read at 20 °C.
std::optional<quantity::Mass> waterFromVolume(const Composition& mixed, quantity::Volume after) noexcept;
// Its strength, where that can be had (distilled or free of sugar).
std::optional<quantity::Mass> waterFromStrength(const Composition& mixed, quantity::Strength after) noexcept;
// Its temperature while still on ice: at rest with ice a drink stands at its freezing point. Real drinks are
// stopped a little before that, so this is the least certain; half a kelvin is about a tenth of the water.
std::optional<quantity::Mass> waterFromTemperature(const Composition& mixed,
                                                   quantity::Temperature onIce) noexcept;

// How this bench differs from a prediction: the mean of measured over predicted, and its spread.
struct Calibration {
    std::size_t measurements = 0;
    double factor = 1;
    double low = 1; // the smallest and the largest single factor
    double high = 1;
    double standardDeviation = 0; // of one measurement; 0 below two
};
struct PredictedAndMeasured {
    double predicted = 0; // dilution ratios
    double measured = 0;
};
// Pairs that are not above zero, or whose ratio is no number, are left out.
Calibration calibrated(std::span<const PredictedAndMeasured> pairs) noexcept;

} // namespace stillroom::physics
