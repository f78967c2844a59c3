#pragma once

#include "core/spec/evaluate.h"

#include <span>
#include <vector>

// What measured dilutions say about predicted ones, for the bench they were measured at.
namespace stillroom::spec {

// A dilution from what was weighed or read at the bench (physics/measured_dilution.h), as Method::dilution
// wants it. All nullopt when the figures say that water was lost, or are no numbers. `before` and `after` are
// what all lines of the spec gave together, not one serve of it.
std::optional<DilutionEntry> dilutionFromWeights(const Spec& spec, const Bindings& bindings,
                                                 quantity::Mass before, quantity::Mass after);
// Only the strained drink was weighed: what went in is taken from the spec.
std::optional<DilutionEntry> dilutionFromWeight(const Spec& spec, const Bindings& bindings,
                                                quantity::Mass after);
std::optional<DilutionEntry> dilutionFromVolume(const Spec& spec, const Bindings& bindings,
                                                quantity::Volume after);
std::optional<DilutionEntry> dilutionFromTemperature(const Spec& spec, const Bindings& bindings,
                                                     quantity::Temperature onIce);

struct DilutionObservation {
    Technique technique = Technique::None;
    double predicted = 0; // ratio, without any calibration
    double measured = 0;
};

// Of the specs whose dilution was measured (not typed) and that a prediction exists for. Each counts once:
// hand over a revision only once.
std::vector<DilutionObservation> dilutionObservations(std::span<const Spec> specs,
                                                      const larder::Larder& larder, const HouseRules& rules);

// The mean of measured over predicted for each technique, with how many and how far apart. From the first
// measurement on: a reader sees the number beside it. Pairs that are not above zero are left out.
BenchCalibration benchCalibration(std::span<const DilutionObservation> observations);

// Where a spec's water comes from, for the words beside the reading.
struct DilutionSource {
    enum class Kind : std::uint8_t {
        None,
        Curve,
        FixedFigure,
        HeatBalance,
        AllIce,
        Typed,
        Measured,
        UnknownIce
    };
    Kind kind = Kind::None;
    double ratio = 0;          // after any calibration
    double predictedRatio = 0; // before it
    bool estimate = false;
    std::optional<physics::Calibration> calibration; // of this technique, when it moved the prediction
};
DilutionSource dilutionSource(const Spec& spec, const Bindings& bindings);
std::string_view dilutionKindId(DilutionSource::Kind kind); // "curve"

} // namespace stillroom::spec
