#pragma once

#include "core/spec/evaluate.h"
#include "core/spec/heat_parts.h"

#include <array>
#include <optional>

namespace stillroom::spec {

// °C at each stage. No allocation, but some microseconds: once per edit, not a million times a second.
//
// - Measured: the heat balance of the mixed lines (heat of mixing counted) at their own temperatures: typed
//   for the line, by its words ("near-boiling": an assumed figure), typed for the method, else 20 °C assumed;
//   carbonated lines that are topped or floated 5 °C assumed. Anything assumed makes an estimate.
// - Mixed, with ice: what melted took its heat out of the drink and the vessel, which is no colder than its
//   freezing point. With the balance chosen, where the balance ended. An estimate always: how much of the
//   water was on the ice already, and what came in from hand and room, nobody knows.
// - Mixed, hot: the balance of the lines with the vessel, when some line is warm; else a temperature written
//   in the method ("warm to 60 °C"), an estimate; else Unknown. In a water bath only what is written.
// - Mixed otherwise: as measured. Ice without a technique: Unknown.
// - Served: with what is topped and floated at its temperature, and the glass when its mass is stated: at
//   20 °C, preheated at 60, or as its words say ("chilled", "frozen"), assumed. Ice in the glass has not
//   yet melted: held_readings.h follows it. A hot drink in a mug whose mass nobody stated: AtMost, for the
//   mug takes heat.
// - A line below its own freezing point (ice cream at -15 °C assumed) is melted by the rest, as far as that
// goes: never
//   below the freezing point of all together, an estimate.
// - A line without an amount: Unknown. Ranges are tried at both ends, six of them in every combination. A
// strength, sugar or acid nobody stated
//   is tried at its largest as well: AtLeast or AtMost when that moves the last digit shown.
std::array<Reading, kStageCount> temperatures(const Spec& spec, const Bindings& bindings);

struct Scenario;

// Which of the rules above gave a temperature.
enum class TemperatureRule : std::uint8_t {
    None,
    Balance,       // of the parts
    MeltBalance,   // and of the ice that melted
    FreezingPoint, // the melt would have taken it below
    IceBalance,    // physics::chill
    Thawed,        // of the parts, with what was poured frozen melting as far as there is heat for it
    Written,       // in the method
    AsBefore,      // as at the stage before
};
struct StageTemperature {
    std::optional<double> celsius;
    bool estimate = false;
    TemperatureRule rule = TemperatureRule::None;
};
// Of one scenario (scenario.h), with what the working wants to show.
struct TemperatureTrace {
    std::array<StageTemperature, kStageCount> stages;
    double meltG = 0;       // ice that melted into the drink
    double fusionJ = 0;     // the heat that took
    double balanceC = 0;    // after it, before the freezing point is asked
    double freezingC = 0;   // of the mixed drink
    double vesselJPerK = 0; // 0: none counted
    double glassJPerK = 0, glassC = 0;
    double mixedFrozenJ = 0, laterFrozenJ = 0; // to melt what was poured frozen
    double mixedMassG = 0, laterMassG = 0;
};
TemperatureTrace traceTemperatures(const Spec& spec, const Bindings::Data& data, const Scenario& scenario);

// The masses of a stage that the trace used, whole, and their count by temperature.
struct HeatStages {
    HeatParts mixed, later;
    physics::Composition mixedLiquid, laterLiquid; // before any water of the method
    double mixedFrozenJ = 0, laterFrozenJ = 0;     // to melt what is poured frozen
    bool assumedMixed = false, assumedLater = false;
    bool warm = false; // some mixed line at 30 °C or above
};

} // namespace stillroom::spec
