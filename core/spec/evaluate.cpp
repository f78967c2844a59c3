#include "core/spec/evaluate.h"

#include "core/physics/ethanol_water.h"
#include "core/spec/bounds.h"
#include "core/spec/scenario.h"
#include "core/spec/temperature.h"

#include <algorithm>
#include <limits>

namespace stillroom::spec {

namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();
// Half of the last digit an acid is shown with: below it there is no acid to compare sugar with.
constexpr double kLeastAcid = 0.005;

} // namespace

RawStages rawReadings(const Pass& pass, int serves, double standardDrinkGrams) noexcept {
    RawStages raw;
    for (std::size_t s = 0; s < kStageCount; ++s) {
        const StageSums& sums = pass.stages[s];
        const Totals& t = sums.totals;
        const double ml = pass.volumeMl[s];
        const double per = 1.0 / serves;
        const auto set = [&raw, s](Quantity q, double value) { raw[s][static_cast<std::size_t>(q)] = value; };
        const double perMl = ml > 0 ? 1 / ml : kNone;
        const double acid = 100 * t.acidG * perMl;
        set(Quantity::PouredVolume, sums.pouredMl * per);
        set(Quantity::Volume, ml * per);
        set(Quantity::Strength, 1e5 / physics::kEthanolKgPerM3At20 * t.ethanolG * perMl);
        set(Quantity::Ethanol, t.ethanolG * per);
        set(Quantity::Sugar, 100 * t.sugarG * perMl);
        set(Quantity::Brix, t.massG > 0 ? 100 * t.sugarG / t.massG : kNone);
        set(Quantity::Acid, acid);
        set(Quantity::SugarAcidRatio, acid >= kLeastAcid ? t.sugarG / t.acidG : kNone);
        set(Quantity::Mass, t.massG * per);
        set(Quantity::Density, 1000 * t.massG * perMl);
        set(Quantity::Dilution, s > 0 && pass.waterApplies ? pass.dilution : kNone);
        set(Quantity::Temperature, kNone);
        set(Quantity::Cost, static_cast<double>(sums.costMillionths) / 1e6 * per);
        set(Quantity::EnergyKj, t.kj * per);
        set(Quantity::EnergyKcal, t.kcal * per);
        set(Quantity::StandardDrinks, t.ethanolG * per / standardDrinkGrams);
    }
    return raw;
}

namespace {

// Water of an estimated method does not move what it only thins.
bool movedByWater(Quantity q) {
    switch (q) {
    case Quantity::PouredVolume:
    case Quantity::Ethanol:
    case Quantity::SugarAcidRatio:
    case Quantity::Cost:
    case Quantity::EnergyKj:
    case Quantity::EnergyKcal:
    case Quantity::StandardDrinks:
        return false;
    default:
        return true;
    }
}

Readings exactReadings(const RawStages& raw, const Pass& pass) noexcept {
    Readings readings;
    for (std::size_t s = 0; s < kStageCount; ++s) {
        const bool assumed = s == 2 ? pass.questions.assumedAll : pass.questions.assumedMixed;
        for (std::size_t q = 0; q < kQuantityCount; ++q) {
            Reading& reading = readings.stages[s].of[q];
            const double value = raw[s][q];
            if (value != value) {
                reading.bound = Bound::NotApplicable;
                continue;
            }
            reading.value = value;
            reading.bound = Bound::Exact;
            reading.estimate =
                assumed || (s > 0 && pass.waterEstimate && movedByWater(static_cast<Quantity>(q)));
        }
        readings.stages[s][Quantity::Temperature].bound = Bound::Unknown;
    }
    return readings;
}

} // namespace

Readings evaluate(const Spec& spec, const Bindings& bindings) {
    const Bindings::Data& data = bindings.data();
    const int serves = std::max(spec.serves, 1);
    const double grams = data.rules->standardDrinkGrams;
    const Pass plain = pass(spec, data, {});
    const RawStages raw = rawReadings(plain, serves, grams);
    Readings readings = exactReadings(raw, plain);
    if (!plain.questions.none()) applyBounds(spec, data, plain, raw, readings);
    Reading& cost = readings[Stage::Served][Quantity::Cost];
    cost.estimate |= plain.questions.guessedCost;
    // What decorates in words alone was bought too, and nobody says for how much.
    if (hasGarnishInWords(spec) && (cost.bound == Bound::Exact || cost.bound == Bound::Between)) {
        cost.bound = Bound::AtLeast;
        cost.upper = 0;
    }
    readings.standardDrinkGrams = grams;
    readings.serves = spec.serves;
    return readings;
}

Readings evaluateWithTemperatures(const Spec& spec, const Bindings& bindings) {
    Readings readings = evaluate(spec, bindings);
    const auto celsius = temperatures(spec, bindings);
    for (std::size_t s = 0; s < kStageCount; ++s)
        readings.stages[s][Quantity::Temperature] = celsius[s];
    return readings;
}

Readings evaluate(const Spec& spec, const larder::Larder& larder, const HouseRules& rules) {
    return evaluateWithTemperatures(spec, Bindings(spec, larder, rules));
}

} // namespace stillroom::spec
