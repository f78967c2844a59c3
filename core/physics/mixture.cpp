#include "core/physics/mixture.h"

#include "core/physics/bracketed_root.h"
#include "core/physics/ethanol_water.h"
#include "core/physics/solute_volumes.h"
#include "core/physics/sucrose_water.h"

#include <algorithm>
#include <cmath>

namespace stillroom::physics {

namespace {

using quantity::Density;
using quantity::Mass;
using quantity::MassFraction;
using quantity::Strength;
using quantity::Temperature;
using quantity::Volume;

MassFraction ethanolShare(const Composition& mixture) noexcept {
    const double ethanol = mixture[Substance::Ethanol];
    const double both = ethanol + mixture[Substance::Water];
    return MassFraction::fromFraction(both > 0 ? std::clamp(ethanol / both, 0.0, 1.0) : 0.0);
}

Mass ethanolAndWater(const Composition& mixture) noexcept {
    return Mass::fromGrams(mixture[Substance::Ethanol] + mixture[Substance::Water]);
}

Volume soluteVolume(const Composition& mixture) noexcept {
    double ml = 0;
    for (std::size_t i = 0; i < kSubstanceCount; ++i)
        ml += kSoluteMlPerGram[i] * mixture.grams[i];
    return Volume::fromMl(ml);
}

// Strength and volume are each solved for, so that a strength given comes back this much off.
constexpr double kSlip = 1e-12;
// 100 % vol is mass fraction 1 by definition, and the formula stops just below it.
constexpr double kTopOfScale = 2e-6;

double reachOf(const Composition& mixture) noexcept {
    return mixture[Substance::Water] > 0 ? kSlip : kTopOfScale;
}

} // namespace

VolumeTerms volumeTermsAt20(const Composition& mixture) noexcept {
    return {
        ethanolAndWater(mixture) / ethanolWaterDensityAt20(ethanolShare(mixture)),
        sugarVolumeAt20(Mass::fromGrams(mixture.sugarGrams()), Mass::fromGrams(mixture[Substance::Water])),
        soluteVolume(mixture)};
}

Volume volumeAt20(const Composition& mixture) noexcept {
    const VolumeTerms terms = volumeTermsAt20(mixture);
    return terms.ethanolWater + terms.sugar + terms.otherSolutes;
}

std::optional<Marked<Volume>> volumeAt(const Composition& mixture, Temperature t) noexcept {
    const MassFraction ethanol = ethanolShare(mixture);
    auto rho = ethanolWaterDensity(ethanol, t);
    if (!rho || !mixture.isSound()) return std::nullopt;
    if (ethanol.fraction() == 0) // SPS-4 knows water further than R 22 does
        rho->estimate = t < Temperature::fromCelsius(0) || t > Temperature::fromCelsius(100);
    const Volume sugar =
        sugarVolume(Mass::fromGrams(mixture.sugarGrams()), Mass::fromGrams(mixture[Substance::Water]), t);
    return Marked<Volume>{ethanolAndWater(mixture) / rho->value + sugar + soluteVolume(mixture),
                          rho->estimate};
}

Volume ethanolVolumeAt20(const Composition& mixture) noexcept {
    return Mass::fromGrams(mixture[Substance::Ethanol]) / Density::fromKgPerM3(kEthanolKgPerM3At20);
}

std::optional<Strength> strengthAt20(const Composition& mixture) noexcept {
    const Volume volume = volumeAt20(mixture);
    if (!(volume.ml() > 0) || !mixture.isSound()) return std::nullopt;
    return Strength::fromFraction(std::min(ethanolVolumeAt20(mixture) / volume, 1.0));
}

std::optional<Density> densityAt20(const Composition& mixture) noexcept {
    const Volume volume = volumeAt20(mixture);
    if (!(volume.ml() > 0) || !mixture.isSound()) return std::nullopt;
    return Mass::fromGrams(mixture.totalGrams()) / volume;
}

std::optional<MassFraction> brix(const Composition& mixture) noexcept {
    const double total = mixture.totalGrams();
    if (!(total > 0) || !mixture.isSound()) return std::nullopt;
    return MassFraction::fromFraction(mixture.sugarGrams() / total);
}

Volume contractionAt20(std::span<const Composition> parts) noexcept {
    Volume apart;
    Composition together;
    for (const Composition& part : parts) {
        apart += volumeAt20(part);
        together += part;
    }
    return apart - volumeAt20(together);
}

std::optional<Mass> waterToReach(const Composition& mixture, Strength target) noexcept {
    const auto now = strengthAt20(mixture);
    if (!now || !(target.fraction() > 0) || !(target.fraction() <= now->fraction() + reachOf(mixture)))
        return std::nullopt;
    if (target.fraction() >= now->fraction() - kSlip) return Mass();
    Composition diluted = mixture;
    const auto excess = [&](double water) {
        diluted[Substance::Water] = mixture[Substance::Water] + water;
        return ethanolVolumeAt20(diluted) / volumeAt20(diluted) - target.fraction();
    };
    // All the ethanol in this volume of water is weaker than wanted, contraction or not.
    const double plenty = 1.1 * ethanolVolumeAt20(mixture).ml() / target.fraction() + 1;
    const auto water = bracketedRoot(excess, 0.0, plenty, 1e-10 * plenty);
    if (!water) return std::nullopt;
    return Mass::fromGrams(*water);
}

} // namespace stillroom::physics
