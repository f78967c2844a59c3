#include "core/physics/hydrometer.h"

#include "core/physics/ethanol_water.h"
#include "core/physics/facts_to_masses.h"

namespace stillroom::physics {

namespace {

using quantity::Density;
using quantity::MassFraction;
using quantity::Strength;
using quantity::Temperature;

constexpr double kGlassExpansionPerK = 25e-6;
constexpr double kAirKgPerM3 = 1.2;
constexpr double kBrassKgPerM3 = 8400;

// The mixture in which a hydrometer made for `made` floats at `t` where it shows `shown`.
std::optional<Marked<MassFraction>> floatingIn(MassFraction shown, Temperature made, Temperature t) noexcept {
    const auto scale = ethanolWaterDensity(shown, made);
    if (!scale) return std::nullopt;
    return massFractionFromDensity(scale->value * (1 - kGlassExpansionPerK * t.minus(made)), t);
}

} // namespace

std::optional<Marked<UsProof>> trueProof(UsProof indication, Temperature t) noexcept {
    const auto shown = massFractionOf(indication);
    if (!shown) return std::nullopt;
    const auto p = floatingIn(*shown, kSixtyFahrenheit, t);
    if (!p) return std::nullopt;
    return Marked<UsProof>{*usProofOf(p->value), p->estimate};
}

std::optional<Marked<Strength>> trueStrength(Strength indication, Temperature t) noexcept {
    const auto shown = massFractionOf(indication);
    if (!shown) return std::nullopt;
    const auto p = floatingIn(*shown, Temperature::fromCelsius(20), t);
    if (!p) return std::nullopt;
    return Marked<Strength>{*strengthOf(p->value), p->estimate};
}

std::optional<UsProof> obscuration(Strength actual, double sugarGPerL) noexcept {
    LiquidFacts facts;
    facts.strength = actual;
    facts.gramsPerLitre[Substance::Sucrose] = sugarGPerL;
    const auto masses = massesPerMl(facts);
    const auto trueDegrees = usProofOf(actual);
    if (!masses || !trueDegrees) return std::nullopt;
    const auto seen = massFractionFromDensity(masses->modelDensity, Temperature::fromCelsius(20));
    if (!seen) return std::nullopt;
    return *trueDegrees - *usProofOf(seen->value);
}

Density apparentDensityInAir(Density inVacuo) noexcept {
    return Density::fromKgPerM3((inVacuo.kgPerM3() - kAirKgPerM3) / (1 - kAirKgPerM3 / kBrassKgPerM3));
}

Density densityFromAir(Density apparent) noexcept {
    return Density::fromKgPerM3(apparent.kgPerM3() * (1 - kAirKgPerM3 / kBrassKgPerM3) + kAirKgPerM3);
}

} // namespace stillroom::physics
