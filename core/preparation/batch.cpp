#include "core/preparation/batch.h"

#include "core/preparation/targets.h"

#include <algorithm>
#include <cmath>

namespace stillroom::preparation {

using quantity::Amount;
using quantity::Dimension;
using quantity::Mass;
using quantity::Rational;
using quantity::Volume;

namespace {

constexpr double kLargestFactor = 1e6; // a slip of the pen

std::optional<double> sound(double factor) {
    if (!std::isfinite(factor) || !(factor > 0) || factor > kLargestFactor) return std::nullopt;
    return factor;
}

std::optional<Rational> scaled(const Rational& value, double factor) {
    constexpr std::int64_t kParts = 1000;
    const double parts = std::round(value.toDouble() * factor * static_cast<double>(kParts));
    if (!(std::abs(parts) < 9e15)) return std::nullopt;
    return Rational::make(static_cast<std::int64_t>(parts), kParts);
}

bool scale(spec::Measured& measured, double factor) {
    if (!measured.amount.isStated()) return true;
    const auto low = scaled(measured.amount.low, factor);
    const auto high = scaled(measured.amount.high, factor);
    if (!low || !high) return false;
    measured.amount = Amount{measured.amount.kind, *low, *high};
    return true;
}

bool scale(spec::Line& line, double factor) {
    if (line.poured.measure == quantity::Measure::Part) return true;
    bool fits = scale(line.poured, factor);
    if (line.retained) fits = scale(*line.retained, factor) && fits;
    for (spec::Alternative& alternative : line.alternatives)
        fits = scale(alternative.measured, factor) && fits;
    return fits;
}

void scale(spec::Step& step, double factor) {
    for (auto* figure : {&step.waterLostG, &step.waterGainedG, &step.heldBackMl, &step.gotMl, &step.gotG})
        if (*figure) **figure *= factor;
}

// Grams of a line written by weight; the upper end of a range.
std::optional<double> gramsOf(const spec::Line& line) {
    if (!line.poured.measure || line.optional || line.toTaste) return std::nullopt;
    const auto& info = quantity::measureInfo(*line.poured.measure);
    if (info.dimension != Dimension::Mass || !info.exactMicrograms) return std::nullopt;
    const double grams = line.poured.amount.high.toDouble() * line.poured.multiplier.toDouble() *
                         info.exactMicrograms->toDouble() / 1e6;
    return grams > 0 ? std::optional(grams) : std::nullopt;
}

} // namespace

std::optional<double> factorForOutput(const Made& made, Volume wanted) {
    if (!(made.yield.ml() > 0)) return std::nullopt;
    return sound(wanted.ml() / made.yield.ml());
}

std::optional<double> factorForOutput(const Made& made, Mass wanted) {
    if (!(made.mass.grams() > 0)) return std::nullopt;
    return sound(wanted.grams() / made.mass.grams());
}

std::optional<double> factorForInput(const spec::Spec& spec, std::size_t line, double have) {
    if (line >= spec.lines.size()) return std::nullopt;
    const auto& poured = spec.lines[line].poured;
    const double written = poured.amount.high.toDouble() * poured.multiplier.toDouble();
    if (!poured.amount.isStated() || !(written > 0)) return std::nullopt;
    return sound(have / written);
}

std::optional<spec::Spec> scaledBatch(const spec::Spec& spec, double factor) {
    if (!sound(factor)) return std::nullopt;
    spec::Spec next = spec;
    for (spec::Line& line : next.lines)
        if (!scale(line, factor)) return std::nullopt;
    for (spec::Step& step : next.steps)
        scale(step, factor);
    if (next.yieldMl) *next.yieldMl *= factor;
    return next;
}

std::vector<Weighing> weighings(const spec::Spec& spec, double factor, Mass scaleStep) {
    std::vector<Weighing> all;
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        const auto grams = gramsOf(spec.lines[i]);
        if (!grams) continue;
        const double mass = *grams * factor;
        all.push_back({i, Mass::fromGrams(mass), mass > 0 ? scaleStep.grams() / 2 / mass : 1});
    }
    return all;
}

std::optional<double> smallestFactor(const spec::Spec& spec, Mass scaleStep, double share) {
    std::vector<double> doses;
    for (const Weighing& weighing : weighings(spec, 1, scaleStep))
        doses.push_back(weighing.mass.grams());
    if (doses.empty()) return std::nullopt;
    // The written batch stands for the litre that smallestBatch counts by.
    const auto batch = smallestBatch(doses, scaleStep, share);
    return batch ? std::optional(batch->ml() / 1000) : std::nullopt;
}

} // namespace stillroom::preparation
