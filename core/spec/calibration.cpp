#include "core/spec/calibration.h"

#include "core/physics/dilution.h"
#include "core/physics/mixture.h"
#include "core/spec/scenario.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace stillroom::spec {

using quantity::Mass;

namespace {

std::optional<DilutionEntry> measuredEntry(const physics::Composition& mixed, std::optional<Mass> water,
                                           std::string how) {
    if (!water) return std::nullopt;
    const auto before = physics::volumeAt20(mixed);
    if (!(before.ml() > 0)) return std::nullopt;
    const double ratio = physics::dilutionFromWater(*water, before);
    if (!std::isfinite(ratio) || ratio < 0) return std::nullopt;
    return DilutionEntry{ratio, DilutionOrigin::Measured, std::move(how)};
}

} // namespace

std::optional<DilutionEntry> dilutionFromWeights(const Spec& spec, const Bindings& bindings, Mass before,
                                                 Mass after) {
    if (!(before.grams() > 0) || !(after.grams() >= before.grams())) return std::nullopt;
    const auto mixed = compositionOf(spec, bindings, Stage::Measured);
    const double grams = mixed.totalGrams();
    if (!(grams > 0)) return std::nullopt;
    // The water in proportion to what really was in the tin, should that differ from the spec.
    const double water = (after.grams() - before.grams()) * grams / before.grams();
    return measuredEntry(
        mixed, Mass::fromGrams(water),
        fmt::format("weighed {:.1f} g before and {:.1f} g after", before.grams(), after.grams()));
}

std::optional<DilutionEntry> dilutionFromWeight(const Spec& spec, const Bindings& bindings, Mass after) {
    const auto mixed = compositionOf(spec, bindings, Stage::Measured);
    return measuredEntry(mixed, physics::waterFromWeight(mixed, after),
                         fmt::format("weighed {:.1f} g strained", after.grams()));
}

std::optional<DilutionEntry> dilutionFromVolume(const Spec& spec, const Bindings& bindings,
                                                quantity::Volume after) {
    const auto mixed = compositionOf(spec, bindings, Stage::Measured);
    return measuredEntry(mixed, physics::waterFromVolume(mixed, after),
                         fmt::format("{:.1f} ml strained, read at 20 °C", after.ml()));
}

std::optional<DilutionEntry> dilutionFromTemperature(const Spec& spec, const Bindings& bindings,
                                                     quantity::Temperature onIce) {
    const auto mixed = compositionOf(spec, bindings, Stage::Measured);
    return measuredEntry(mixed, physics::waterFromTemperature(mixed, onIce),
                         fmt::format("{:.1f} °C on ice; by its freezing point", onIce.celsius()));
}

std::vector<DilutionObservation> dilutionObservations(std::span<const Spec> specs,
                                                      const larder::Larder& larder, const HouseRules& rules) {
    HouseRules uncalibrated = rules;
    uncalibrated.bench.reset();
    std::vector<DilutionObservation> result;
    for (const Spec& spec : specs) {
        const auto& entry = spec.method.dilution;
        if (!entry || entry->origin != DilutionOrigin::Measured || !(entry->ratio > 0)) continue;
        Spec asPredicted = spec;
        asPredicted.method.dilution.reset();
        const Bindings bindings(asPredicted, larder, uncalibrated);
        const DilutionSource source = dilutionSource(asPredicted, bindings);
        const bool predicted = source.kind == DilutionSource::Kind::Curve ||
                               source.kind == DilutionSource::Kind::FixedFigure ||
                               source.kind == DilutionSource::Kind::HeatBalance;
        if (!predicted || !(source.predictedRatio > 0)) continue;
        result.push_back({spec.method.technique, source.predictedRatio, entry->ratio});
    }
    return result;
}

BenchCalibration benchCalibration(std::span<const DilutionObservation> observations) {
    BenchCalibration bench;
    for (std::size_t i = 0; i < kTechniqueCount; ++i) {
        std::vector<physics::PredictedAndMeasured> pairs;
        for (const DilutionObservation& one : observations)
            if (static_cast<std::size_t>(one.technique) == i) pairs.push_back({one.predicted, one.measured});
        bench.byTechnique[i] = physics::calibrated(pairs);
    }
    return bench;
}

DilutionSource dilutionSource(const Spec& spec, const Bindings& bindings) {
    const Pass read = pass(spec, bindings.data(), {});
    DilutionSource source;
    switch (read.waterBasis) {
    case WaterBasis::None:
        source.kind = DilutionSource::Kind::None;
        break;
    case WaterBasis::Curve:
        source.kind = DilutionSource::Kind::Curve;
        break;
    case WaterBasis::Fixed:
        source.kind = DilutionSource::Kind::FixedFigure;
        break;
    case WaterBasis::Balance:
        source.kind = DilutionSource::Kind::HeatBalance;
        break;
    case WaterBasis::AllIce:
        source.kind = DilutionSource::Kind::AllIce;
        break;
    case WaterBasis::Typed:
        source.kind = DilutionSource::Kind::Typed;
        break;
    case WaterBasis::Measured:
        source.kind = DilutionSource::Kind::Measured;
        break;
    case WaterBasis::UnknownIce:
        source.kind = DilutionSource::Kind::UnknownIce;
        break;
    }
    source.ratio = read.dilution;
    source.predictedRatio = read.dilution / read.benchFactor;
    source.estimate = read.waterEstimate;
    if (read.calibrated) source.calibration = bindings.rules().bench->of(spec.method.technique);
    return source;
}

std::string_view dilutionKindId(DilutionSource::Kind kind) {
    switch (kind) {
    case DilutionSource::Kind::None:
        return "none";
    case DilutionSource::Kind::Curve:
        return "curve";
    case DilutionSource::Kind::FixedFigure:
        return "fixed_figure";
    case DilutionSource::Kind::HeatBalance:
        return "heat_balance";
    case DilutionSource::Kind::AllIce:
        return "all_ice";
    case DilutionSource::Kind::Typed:
        return "typed";
    case DilutionSource::Kind::Measured:
        return "measured";
    case DilutionSource::Kind::UnknownIce:
        return "unknown_ice";
    }
    return {};
}

} // namespace stillroom::spec
