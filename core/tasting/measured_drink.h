#pragma once

#include "core/spec/calibration.h"
#include "core/tasting/circumstances.h"

#include <tl/expected.hpp>

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

// What was measured of a drink when it was tasted, beside what was predicted of it: for the bench's
// calibration, and for the words beside the fields.
namespace stillroom::tasting {

enum class NotCounted : std::uint8_t {
    NothingMeasured,
    NoMethod,       // nothing that adds water: there is nothing to calibrate
    OpenAmounts,    // a line has no amount, or its facts are missing: what went in is not known
    StoodOnIce,     // in a glass with ice for longer than kAtOnceMinutes, or nobody said how long
    ToppedVolume,   // something was poured on top: only a weight tells the water from it
    LessThanWentIn, // a slip, or not all of it was poured
    TooMuch,        // more than kMostDilution: a slip
    AgeNotSaid,     // of a temperature: nobody said how long it had stood
    NotPredicted,
    Cloudy,  // of a Brix: cream or egg, through which a refractometer does not read
    TooThin, // of a Brix: so little bends the light that a reading says next to nothing of the water
};
std::string_view notCountedId(NotCounted why);

// Ice in the glass melts on: what was measured later than this says little of the method. Our own rule.
inline constexpr int kAtOnceMinutes = 1;
inline constexpr double kMostDilution = 10;

// The water the method added, from the weight of what stood in the glass, else from its volume, else from
// what a refractometer showed of it: one serve of the spec, what was topped and floated taken off. Since what
// went in is known, a Brix says how far it was thinned; that alcohol and sugar bend light side by side is
// good to about 1 °Bx (preparation/measured_facts.h), and `how` names what that leaves open. With a weight or
// a volume it is not counted: they tell the water better. A volume is brought to 20 °C by the temperature
// measured with it; without one it is taken as read at 20 °C, and `how` says so.
tl::expected<spec::DilutionEntry, NotCounted>
dilutionMeasured(const spec::Spec& spec, const spec::Bindings& bindings, const Circumstances& circumstances);

struct TemperatureFound {
    quantity::Temperature measured, predicted; // predicted at the age said, by core/spec/held_readings.h
    double warmer() const { return measured.celsius() - predicted.celsius(); }
};
tl::expected<TemperatureFound, NotCounted> temperatureMeasured(const spec::Spec& spec,
                                                               const spec::Bindings& bindings,
                                                               const Circumstances& circumstances);

// How much warmer than predicted drinks were measured: mean and spread of one measurement, in kelvin.
struct TemperatureBench {
    int measurements = 0;
    double warmer = 0;
    double standardDeviation = 0; // 0 below two
    friend bool operator==(const TemperatureBench&, const TemperatureBench&) = default;
};
TemperatureBench temperatureBench(std::span<const TemperatureFound> found);

} // namespace stillroom::tasting
