#include "core/spec/more_values.h"

#include "core/physics/acid_ph.h"
#include "core/physics/carbonation.h"
#include "core/physics/mixture.h"
#include "core/physics/proof.h"
#include "core/physics/refraction.h"
#include "core/physics/sucrose_water.h"
#include "core/physics/sweetness.h"
#include "core/physics/titratable_acid.h"
#include "core/physics/water_activity.h"
#include "core/spec/heat_parts.h"
#include "core/spec/thermal_words.h"

#include <algorithm>

namespace stillroom::spec {

using physics::Composition;
using physics::Substance;
using quantity::Strength;
using quantity::Temperature;

namespace {

constexpr double kLeastAcidG = 0.005; // in 100 ml; below it a pH is that of the water
constexpr double kNoAlcohol = 0.005;

// Crystals apart from what they are dissolved in: sucrose 1.587 g/ml at 20 °C (Bubník et al. 1995, Sugar
// Technologists Manual), taken for every sugar.
double dryMl(const Composition& part) {
    constexpr double kCrystalGPerMl = 1.587;
    Composition rest = part;
    double sugar = 0;
    for (const Substance s :
         {Substance::Sucrose, Substance::Glucose, Substance::Fructose, Substance::Lactose}) {
        sugar += rest[s];
        rest[s] = 0;
    }
    return sugar / kCrystalGPerMl + physics::volumeAt20(rest).ml();
}

class PartsListener : public LineListener {
  public:
    PartsListener(const Spec& spec, const Bindings::Data& data, std::uint8_t atLargest, Stage stage)
        : m_spec(spec),
          m_data(data),
          m_atLargest(atLargest),
          m_stage(stage) {}
    void stays(std::size_t line, double units) override {
        if (m_stage != Stage::Served && m_spec.lines[line].role != Role::Mixed) return;
        if (line >= m_data.lines.size() || !(units > 0)) return;
        const PreparedFacts& facts = *m_data.lines[line].facts;
        Composition part;
        part.addScaled(unitComposition(facts, static_cast<std::uint8_t>(facts.unknown & m_atLargest)), units);
        parts.push_back(
            {static_cast<int>(line), part, facts.dry ? dryMl(part) : physics::volumeAt20(part).ml()});
    }
    std::vector<PartApart> parts;

  private:
    const Spec& m_spec;
    const Bindings::Data& m_data;
    std::uint8_t m_atLargest;
    Stage m_stage;
};

void gas(const Composition& c, MoreValues& v) {
    if (!(c[Substance::CarbonDioxide] > 0)) return;
    const auto fizz = physics::fizzAtMost(c);
    if (!fizz) return;
    v[static_cast<std::size_t>(More::Co2GPerL)] = {fizz->gPerL(), true};
    v[static_cast<std::size_t>(More::Co2Volumes)] = {fizz->volumes(), true};
}

// The gas of the batch, spread over `whole`, with that of the other lines.
void gasOfBatch(const Spec& spec, const Composition& mixed, const Composition& whole, MoreValues& v) {
    const double litres = physics::volumeAt20(whole).litres();
    const auto taken = batchGas(spec, mixed);
    std::optional<double> gPerL;
    if (taken && litres > 0)
        gPerL =
            (whole[Substance::CarbonDioxide] + taken->gPerL() * physics::volumeAt20(mixed).litres()) / litres;
    v[static_cast<std::size_t>(More::Co2GPerL)] = {gPerL, true};
    v[static_cast<std::size_t>(More::Co2Volumes)] = {
        gPerL ? std::optional(physics::Fizz::fromGPerL(*gPerL).volumes()) : std::nullopt, true};
}

MoreValues valuesOf(const Composition& c, double serves) {
    MoreValues v;
    const auto set = [&v](More m, std::optional<double> value, bool estimate) {
        v[static_cast<std::size_t>(m)] = {value, estimate};
    };
    const double ml = physics::volumeAt20(c).ml();
    if (!(ml > 0)) return v;
    if (const auto f = physics::freezing(c)) set(More::FreezingOnset, f->onset.celsius(), f->estimate);
    if (const auto aw = physics::waterActivity(c, Temperature::fromCelsius(25)))
        set(More::WaterActivity, aw->value, aw->estimate);
    if (100 * physics::titratableAcidAsCitric(c).grams() / ml >= kLeastAcidG)
        if (const auto ph = physics::pH(c)) set(More::Ph, ph->value, true);
    const auto sweet = physics::sucroseEquivalent(c);
    if (c.sugarGrams() > 0) {
        set(More::Sweetness, 100 * sweet.typical.grams() / ml, true);
        set(More::SweetnessLow, 100 * sweet.low.grams() / ml, true);
        set(More::SweetnessHigh, 100 * sweet.high.grams() / ml, true);
    }
    gas(c, v);
    if (c[Substance::Caffeine] > 0) set(More::Caffeine, 1000 * c[Substance::Caffeine] / serves, false);
    const Strength strength = physics::strengthAt20(c).value_or(Strength{});
    if (strength.fraction() > 0) {
        if (const auto us = physics::usProofOf(strength)) set(More::ProofUs, us->degrees(), false);
        if (const auto uk = physics::ukProofOf(strength)) set(More::ProofUk, uk->degrees(), false);
    }
    const auto density = physics::densityAt20(c);
    if (density) {
        set(More::RelativeDensity,
            density->kgPerM3() / physics::waterDensity(Temperature::fromCelsius(20)).kgPerM3(), false);
        if (const auto degrees = physics::baume(*density)) set(More::Baume, *degrees, false);
    }
    const double sugarAndWater = c.sugarGrams() + c[Substance::Water];
    if (strength.fraction() < kNoAlcohol && sugarAndWater > 0)
        if (const auto index = physics::refractiveIndex(
                quantity::MassFraction::fromFraction(c.sugarGrams() / sugarAndWater)))
            set(More::RefractiveIndex, *index, c.totalGrams() - sugarAndWater > 0.001 * c.totalGrams());
    return v;
}

} // namespace

std::optional<physics::Fizz> batchGas(const Spec& spec, const Composition& mixed) {
    const auto bar = barWritten(spec.method.text);
    const auto celsius = celsiusWritten(spec.method.text);
    const auto strength = physics::strengthAt20(mixed);
    if (!bar || !celsius || !strength) return std::nullopt;
    const auto fizz = physics::dissolvedAt(physics::GaugePressure::fromBar(*bar),
                                           Temperature::fromCelsius(*celsius), *strength);
    return fizz ? std::optional(fizz->value) : std::nullopt;
}

std::vector<PartApart> partsApart(const Spec& spec, const Bindings::Data& data, const Scenario& scenario,
                                  Stage stage, const Composition& whole) {
    PartsListener listener(spec, data, scenario.factsAtLargest, stage);
    pass(spec, data, scenario, &listener);
    if (listener.parts.empty()) return {};
    double water = whole[Substance::Water];
    for (const PartApart& part : listener.parts)
        water -= part.composition[Substance::Water];
    Composition melt; // of the method
    melt[Substance::Water] = std::max(water, 0.0);
    listener.parts.push_back({-1, melt, physics::volumeAt20(melt).ml()});
    return std::move(listener.parts);
}

namespace {

// Juice, wine, milk, tea and the like, as against water, spirits and plain syrups.
bool mayBuffer(const Composition& part) {
    return physics::titratableAcidAsCitric(part).grams() > 0 || part[Substance::Protein] > 0 ||
           part[Substance::OtherSolids] > 0 || part[Substance::Fat] > 0;
}

} // namespace

double alkaliAtMost(const Spec& spec, const Bindings::Data& data, Stage stage, const Composition& whole) {
    const double ml = physics::volumeAt20(whole).ml();
    if (!(ml > 0)) return 0;
    double juice = 0;
    for (const PartApart& part : partsApart(spec, data, {}, stage, whole))
        if (part.line >= 0 && !data.lines[static_cast<std::size_t>(part.line)].facts->dry &&
            mayBuffer(part.composition))
            juice += part.ml;
    return kWellBuffered * std::min(juice / ml, 1.0);
}

MoreValues moreValues(const Spec& spec, const Bindings::Data& data, const Scenario& scenario, Stage stage,
                      Composition* whole) {
    const double serves = std::max(spec.serves, 1);
    const Composition c = stageComposition(spec, data, scenario, stage);
    MoreValues values = valuesOf(c, serves);
    if (spec.method.technique == Technique::Carbonate && stage != Stage::Measured)
        gasOfBatch(spec, stageComposition(spec, data, scenario, Stage::Mixed), c, values);
    const auto apart = partsApart(spec, data, scenario, stage, c);
    if (!apart.empty()) {
        double ml = -physics::volumeAt20(c).ml();
        for (const PartApart& part : apart)
            ml += part.ml;
        values[static_cast<std::size_t>(More::Contraction)] = {ml / serves, false};
    }
    if (whole != nullptr) *whole = c;
    return values;
}

} // namespace stillroom::spec
