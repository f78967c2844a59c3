#include "core/spec/temperature.h"

#include "core/physics/dilution.h"
#include "core/physics/freezing.h"
#include "core/spec/scenario.h"
#include "core/spec/thermal_words.h"
#include "core/spec/tried.h"

#include <algorithm>
#include <cmath>

namespace stillroom::spec {

using physics::Composition;
using physics::HeatStore;
using physics::Substance;
using quantity::Mass;
using quantity::Temperature;

namespace {

constexpr double kPreheatedC = 60; // a glass rinsed with near-boiling water: common practice, no source
constexpr double kWarmC = 30;

// What a part below its own freezing point has less than the same liquid undercooled: its ice is to be
// melted.
double frozenJ(const Composition& c, double celsius) noexcept {
    if (!(celsius < 0)) return 0;
    const auto cold = physics::atTemperature(c, Temperature::fromCelsius(celsius));
    return cold ? cold->ice.grams() *
                      (physics::kFusionJPerG + (physics::kWaterCpJPerGK - physics::kIceCpJPerGK) * celsius)
                : 0;
}

class PartCollector : public LineListener {
  public:
    PartCollector(const Spec& spec, const Bindings::Data& data, const Scenario& scenario, HeatStages& out)
        : m_spec(spec),
          m_data(data),
          m_atLargest(scenario.factsAtLargest),
          m_out(out) {}
    void stays(std::size_t i, double units) override {
        if (i >= m_data.lines.size() || !(units > 0)) return;
        const Line& line = m_spec.lines[i];
        const PreparedFacts& facts = *m_data.lines[i].facts;
        const auto unknown = static_cast<std::uint8_t>(facts.unknown & m_atLargest);
        const Composition perUnit = unitComposition(facts, unknown);
        const LineTemperature t = lineTemperature(line, m_spec.method, m_data.lines[i]);
        const bool mixed = line.role == Role::Mixed;
        (mixed ? m_out.mixed : m_out.later).add(perUnit, units, t.celsius);
        (mixed ? m_out.mixedLiquid : m_out.laterLiquid).addScaled(perUnit, units);
        (mixed ? m_out.mixedFrozenJ : m_out.laterFrozenJ) += units * frozenJ(perUnit, t.celsius);
        (mixed ? m_out.assumedMixed : m_out.assumedLater) |= t.assumed;
        m_out.warm |= mixed && t.celsius >= kWarmC;
    }

  private:
    const Spec& m_spec;
    const Bindings::Data& m_data;
    std::uint8_t m_atLargest;
    HeatStages& m_out;
};

std::span<const HeatStore> asSpan(const std::optional<HeatStore>& store) noexcept {
    return store ? std::span(&*store, 1) : std::span<const HeatStore>();
}

StageTemperature balanced(const HeatParts& parts, const std::optional<HeatStore>& store, bool assumed,
                          double heatJ = 0) noexcept {
    StageTemperature t;
    const auto together = physics::mixedTemperature(parts.all(), asSpan(store), {heatJ, true});
    if (!together) return t;
    t.celsius = together->value.celsius();
    t.estimate = assumed || together->estimate;
    t.rule = TemperatureRule::Balance;
    return t;
}

// Frozen parts melt as far as there is heat for it: never below the freezing point of all together.
StageTemperature thawed(StageTemperature t, double frozen, const Composition& whole) noexcept {
    if (!(frozen > 0) || !(whole[Substance::Water] > 0)) return t;
    const double onset = physics::freezingOnset(whole).value.celsius();
    return {std::max(t.celsius.value_or(onset), onset), true, TemperatureRule::Thawed};
}

// Of one serve, times serves: where the drink ends up. Only weighed glasses take heat.
std::optional<HeatStore> glassesOf(const Spec& spec) noexcept {
    if (!spec.glassGrams || !(*spec.glassGrams > 0)) return std::nullopt;
    const double celsius =
        spec.preheatedGlass ? kPreheatedC : celsiusOfWords(spec.glass).value_or(kAssumedRoomC);
    return physics::vessel(Mass::fromGrams(*spec.glassGrams * std::max(spec.serves, 1)),
                           physics::Material::SodaLimeGlass, Temperature::fromCelsius(celsius));
}

StageTemperature withIce(const Spec& spec, const Pass& read, const HeatStages& heat,
                         TemperatureTrace& trace) {
    StageTemperature t;
    if (read.waterBasis == WaterBasis::Balance && !read.calibrated) {
        t = {read.chilledC, read.waterEstimate, TemperatureRule::IceBalance};
        return t;
    }
    const auto vessel = vesselOf(spec);
    trace.meltG =
        physics::waterFromDilution(read.dilution, quantity::Volume::fromMl(read.volumeMl[0])).grams();
    const double iceC = std::min(spec.method.iceC.value_or(0), 0.0);
    trace.fusionJ = trace.meltG * (physics::kFusionJPerG - physics::kIceCpJPerGK * iceC);
    HeatParts parts = heat.mixed;
    Composition melt;
    melt[Substance::Water] = 1;
    parts.add(melt, trace.meltG, 0);
    t = balanced(parts, vessel, true, -trace.fusionJ - heat.mixedFrozenJ);
    Composition drink = heat.mixedLiquid;
    drink[Substance::Water] += trace.meltG;
    if (!(drink[Substance::Water] > 0)) return t;
    trace.freezingC = physics::freezingOnset(drink).value.celsius();
    if (t.celsius) trace.balanceC = *t.celsius;
    t.rule = TemperatureRule::MeltBalance;
    // Below -45 °C the balance has no answer; the drink still stops at its freezing point.
    if (!t.celsius || *t.celsius < trace.freezingC) {
        t.celsius = trace.freezingC;
        t.rule = TemperatureRule::FreezingPoint;
    }
    t.estimate = true;
    return t;
}

StageTemperature warmed(const Spec& spec, const HeatStages& heat) {
    const bool bath = spec.method.technique == Technique::WaterBath;
    if (const auto written = celsiusWritten(spec.method.text); written && (bath || !heat.warm))
        return {*written, true, TemperatureRule::Written};
    if (bath || !heat.warm) return {};
    return thawed(balanced(heat.mixed, vesselOf(spec), heat.assumedMixed || !spec.method.vessel.empty(),
                           -heat.mixedFrozenJ),
                  heat.mixedFrozenJ, heat.mixedLiquid);
}

StageTemperature mixedStage(const Spec& spec, const Pass& read, const HeatStages& heat,
                            TemperatureTrace& trace) {
    const Technique technique = spec.method.technique;
    if (read.waterBasis == WaterBasis::UnknownIce) return {};
    if (technique == Technique::Hot || technique == Technique::WaterBath) return warmed(spec, heat);
    if (technique == Technique::Carbonate)
        if (const auto written = celsiusWritten(spec.method.text))
            return {*written, true, TemperatureRule::Written};
    if (read.dilution > 0 || read.waterBasis == WaterBasis::Balance) return withIce(spec, read, heat, trace);
    StageTemperature same = trace.stages[0];
    same.rule = TemperatureRule::AsBefore;
    return same;
}

StageTemperature servedStage(const Spec& spec, const Pass& read, const HeatStages& heat,
                             TemperatureTrace& trace) {
    const StageTemperature& mixed = trace.stages[1];
    const auto glasses = glassesOf(spec);
    if (heat.later.isEmpty() && !glasses) {
        StageTemperature same = mixed;
        same.rule = TemperatureRule::AsBefore;
        return same;
    }
    const bool nothingMixed = heat.mixed.isEmpty();
    if (!nothingMixed && !mixed.celsius) return {};
    HeatParts parts = heat.later;
    Composition drink = heat.mixedLiquid;
    drink[Substance::Water] +=
        physics::waterFromDilution(read.dilution, quantity::Volume::fromMl(read.volumeMl[0])).grams();
    parts.add(drink, 1, mixed.celsius.value_or(kAssumedRoomC));
    if (glasses) {
        trace.glassJPerK = glasses->joulesPerK;
        trace.glassC = glasses->t.celsius();
    }
    const bool assumed = (!nothingMixed && mixed.estimate) || heat.assumedLater || glasses.has_value();
    Composition whole = drink;
    whole += heat.laterLiquid;
    return thawed(balanced(parts, glasses, assumed, -heat.laterFrozenJ), heat.laterFrozenJ, whole);
}

} // namespace

TemperatureTrace traceTemperatures(const Spec& spec, const Bindings::Data& data, const Scenario& scenario) {
    TemperatureTrace trace;
    HeatStages heat;
    PartCollector collector(spec, data, scenario, heat);
    const Pass read = pass(spec, data, scenario, &collector);
    trace.mixedMassG = heat.mixedLiquid.totalGrams();
    trace.laterMassG = heat.laterLiquid.totalGrams();
    trace.mixedFrozenJ = heat.mixedFrozenJ;
    trace.laterFrozenJ = heat.laterFrozenJ;
    if (const auto vessel = vesselOf(spec)) trace.vesselJPerK = vessel->joulesPerK;
    trace.stages[0] = thawed(balanced(heat.mixed, std::nullopt, heat.assumedMixed, -heat.mixedFrozenJ),
                             heat.mixedFrozenJ, heat.mixedLiquid);
    trace.stages[1] = mixedStage(spec, read, heat, trace);
    trace.stages[2] = servedStage(spec, read, heat, trace);
    return trace;
}

namespace {

constexpr double kHalfShown = 0.05;

std::optional<double> highest(const Reading& reading) noexcept {
    if (reading.bound == Bound::Between) return reading.upper;
    if (reading.bound == Bound::Exact || reading.bound == Bound::AtMost) return reading.value;
    return std::nullopt;
}

// A hot drink in a mug nobody weighed, nor named as the vessel it was mixed in: the mug takes heat, and how
// much nobody knows.
bool takesUnknownHeat(const Spec& spec, const Reading& served) noexcept {
    const double mugC = spec.preheatedGlass ? kPreheatedC : kWarmC;
    return !spec.glassGrams && spec.method.vessel.empty() && highest(served) > mugC;
}

Reading atMost(Reading reading) noexcept {
    reading.value = *highest(reading);
    reading.bound = Bound::AtMost;
    reading.estimate = true;
    return reading;
}

} // namespace

std::array<Reading, kStageCount> temperatures(const Spec& spec, const Bindings& bindings) {
    const Bindings::Data& data = bindings.data();
    const Pass read = pass(spec, data, {});
    const Questions& open = read.questions;
    std::array<Tried, kStageCount> plain, largest;
    const auto tryInto = [&](std::array<Tried, kStageCount>& into) {
        return [&spec, &data, &into](const Scenario& scenario) {
            const auto trace = traceTemperatures(spec, data, scenario);
            for (std::size_t s = 0; s < kStageCount; ++s)
                into[s].take(trace.stages[s].celsius, trace.stages[s].estimate);
        };
    };
    atRangeEnds(open, tryInto(plain));
    atLargestFacts(open, tryInto(largest));
    if (open.ranged > kCornerLines)
        for (Tried& tried : plain)
            tried.widen();
    std::array<Reading, kStageCount> readings;
    for (std::size_t s = 0; s < kStageCount; ++s) {
        readings[s] = readingOfTried(plain[s], largest[s], s == 2 ? open.all : open.mixed, kHalfShown);
        if (s == 2 && takesUnknownHeat(spec, readings[s])) readings[s] = atMost(readings[s]);
        // Every drink has a temperature, known or not.
        if (readings[s].bound == Bound::NotApplicable && read.stages[s].totals.massG > 0)
            readings[s].bound = Bound::Unknown;
    }
    return readings;
}

} // namespace stillroom::spec
