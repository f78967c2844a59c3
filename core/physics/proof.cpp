#include "core/physics/proof.h"

#include "core/physics/bracketed_root.h"
#include "core/physics/ethanol_water.h"
#include "core/physics/sucrose_water.h"

#include <algorithm>

namespace stillroom::physics {

namespace {

using quantity::MassFraction;
using quantity::Strength;
using quantity::Temperature;

double rhoAt60F(double p) noexcept {
    return ethanolWaterDensity(MassFraction::fromFraction(p), kSixtyFahrenheit)->value.kgPerM3();
}

double usDegrees(double p) noexcept {
    static const double ethanol = rhoAt60F(1);
    return 200 * p * rhoAt60F(p) / ethanol;
}

// The strength of British proof spirit as a fraction at 20 °C.
double ukProofSpirit() noexcept {
    static const double fraction = [] {
        const Temperature t = Temperature::fromFahrenheit(51);
        const double water = ethanolWaterDensity(MassFraction::fromFraction(0), t)->value.kgPerM3();
        const auto p = massFractionFromDensity(quantity::Density::fromKgPerM3(water * 12 / 13), t);
        return strengthOf(p->value)->fraction();
    }();
    return fraction;
}

} // namespace

std::optional<UsProof> usProofOf(MassFraction ethanol) noexcept {
    if (!(ethanol.fraction() >= 0 && ethanol.fraction() <= 1)) return std::nullopt;
    return UsProof::fromDegrees(usDegrees(ethanol.fraction()));
}

std::optional<MassFraction> massFractionOf(UsProof proof) noexcept {
    if (!(proof.degrees() >= 0 && proof.degrees() <= 200)) return std::nullopt;
    const auto p = bracketedRoot([&](double x) { return usDegrees(x) - proof.degrees(); }, 0.0, 1.0, 1e-14);
    if (!p) return std::nullopt;
    return MassFraction::fromFraction(*p);
}

std::optional<UkProof> ukProofOf(MassFraction ethanol) noexcept {
    const auto strength = strengthOf(ethanol);
    if (!strength) return std::nullopt;
    return ukProofOf(*strength);
}

std::optional<MassFraction> massFractionOf(UkProof proof) noexcept {
    const auto strength = strengthOf(proof);
    if (!strength) return std::nullopt;
    return massFractionOf(*strength);
}

std::optional<UsProof> usProofOf(Strength strength) noexcept {
    const auto p = massFractionOf(strength);
    if (!p) return std::nullopt;
    return usProofOf(*p);
}

std::optional<Strength> strengthOf(UsProof proof) noexcept {
    const auto p = massFractionOf(proof);
    if (!p) return std::nullopt;
    return strengthOf(*p);
}

std::optional<UkProof> ukProofOf(Strength strength) noexcept {
    if (!(strength.fraction() >= 0 && strength.fraction() <= 1)) return std::nullopt;
    return UkProof::fromDegrees(100 * strength.fraction() / ukProofSpirit());
}

std::optional<Strength> strengthOf(UkProof proof) noexcept {
    const double fraction = proof.degrees() / 100 * ukProofSpirit();
    if (!(fraction >= 0 && fraction <= 1)) return std::nullopt;
    return Strength::fromFraction(fraction);
}

} // namespace stillroom::physics
