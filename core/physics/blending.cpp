#include "core/physics/blending.h"

#include "core/physics/bracketed_root.h"
#include "core/physics/facts_to_masses.h"
#include "core/physics/mixture.h"

#include <cmath>

namespace stillroom::physics {

namespace {

using quantity::Density;
using quantity::Mass;
using quantity::MassFraction;
using quantity::Strength;
using quantity::Volume;

// Shares of the mass of each, first and second together 1 g.
Composition mixed(const Composition& first, const Composition& second, double shareOfFirst) noexcept {
    Composition c;
    c.addScaled(first, shareOfFirst / first.totalGrams());
    c.addScaled(second, (1 - shareOfFirst) / second.totalGrams());
    return c;
}

bool isWet(const Composition& c) noexcept {
    return c.isSound() && c.totalGrams() > 0 && volumeAt20(c).ml() > 0;
}

} // namespace

std::optional<Blend> blendToStrength(const Composition& first, const Composition& second, Strength target,
                                     Volume volume) noexcept {
    if (!isWet(first) || !isWet(second) || !(volume.ml() > 0)) return std::nullopt;
    const auto excess = [&](double share) {
        const Composition c = mixed(first, second, share);
        return ethanolVolumeAt20(c) / volumeAt20(c) - target.fraction();
    };
    const auto share = bracketedRoot(excess, 0.0, 1.0, 1e-14);
    if (!share) return std::nullopt;
    const Composition gram = mixed(first, second, *share);
    const double grams = volume / volumeAt20(gram);
    Blend blend;
    blend.first = volumeAt20(first) * (grams * *share / first.totalGrams());
    blend.second = volumeAt20(second) * (grams * (1 - *share) / second.totalGrams());
    blend.mixture.addScaled(gram, grams);
    return blend;
}

std::optional<Mass> sugarToReach(const Composition& mixture, MassFraction brix) noexcept {
    const double total = mixture.totalGrams();
    const double wanted = brix.fraction();
    if (!(total > 0) || !mixture.isSound() || !(wanted >= 0 && wanted < 1)) return std::nullopt;
    const double sugar = (wanted * total - mixture.sugarGrams()) / (1 - wanted);
    if (!(sugar >= 0)) return std::nullopt;
    return Mass::fromGrams(sugar);
}

std::optional<Mass> waterToReachBrix(const Composition& mixture, MassFraction brix) noexcept {
    if (!(mixture.totalGrams() > 0) || !mixture.isSound() || !(brix.fraction() > 0)) return std::nullopt;
    const double water = mixture.sugarGrams() / brix.fraction() - mixture.totalGrams();
    if (!(water >= 0) || !std::isfinite(water)) return std::nullopt;
    return Mass::fromGrams(water);
}

std::optional<double> sugarGPerLFrom(Strength strength, Density density) noexcept {
    constexpr double kMost = 1300; // g/l; no syrup holds more
    LiquidFacts facts;
    facts.strength = strength;
    // Where sugar and ethanol no longer fit into a litre the bracket must end: find that first.
    double most = kMost;
    for (int i = 0; i < 60; ++i) {
        facts.gramsPerLitre[Substance::Sucrose] = most;
        if (massesPerMl(facts)) break;
        most *= 0.95;
    }
    if (!massesPerMl(facts)) return std::nullopt;
    return bracketedRoot(
        [&](double sugar) {
            facts.gramsPerLitre[Substance::Sucrose] = sugar;
            return massesPerMl(facts)->modelDensity.kgPerM3() - density.kgPerM3();
        },
        0.0, most, 1e-9);
}

} // namespace stillroom::physics
