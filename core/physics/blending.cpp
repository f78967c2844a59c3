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

// Strength and volume are each solved for, so that a strength given comes back this much off; and 100 % vol
// lies just above where the formula stops.
constexpr double kSlip = 1e-12;
constexpr double kTopOfScale = 2e-6;
constexpr double kWrittenKgPerM3 = 0.005;
constexpr double kMostGPerL = 1300; // no syrup holds more

// Where `excess` of a share 0…1 is zero, the ends included; nullopt when both ends are.
template <class F>
std::optional<double> shareBetween(F&& excess) noexcept {
    const double none = excess(0.0);
    const double all = excess(1.0);
    const auto isTarget = [](double e, double slack) { return std::abs(e) <= slack; };
    if (std::abs(all - none) <= 2 * kSlip) return std::nullopt;
    if (isTarget(none, kSlip)) return 0.0;
    if (isTarget(all, kSlip)) return 1.0;
    if (none * all < 0) return bracketedRoot(excess, 0.0, 1.0, 1e-14);
    const bool fromBelow = none < 0; // only a target above all there is can be 100 % vol itself
    if (!fromBelow) return std::nullopt;
    if (isTarget(none, kTopOfScale) && none > all) return 0.0;
    if (isTarget(all, kTopOfScale) && all > none) return 1.0;
    return std::nullopt;
}

// What is left of two sums that should be alike.
double withoutSlip(double grams, double of) noexcept {
    return grams < 0 && grams >= -kSlip * of ? 0 : grams;
}

} // namespace

std::optional<Blend> blendToStrength(const Composition& first, const Composition& second, Strength target,
                                     Volume volume) noexcept {
    if (!isWet(first) || !isWet(second) || !(volume.ml() > 0)) return std::nullopt;
    const auto excess = [&](double share) {
        const Composition c = mixed(first, second, share);
        return ethanolVolumeAt20(c) / volumeAt20(c) - target.fraction();
    };
    const auto share = shareBetween(excess);
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
    const double sugar = withoutSlip((wanted * total - mixture.sugarGrams()) / (1 - wanted), total);
    if (!(sugar >= 0)) return std::nullopt;
    return Mass::fromGrams(sugar);
}

std::optional<Mass> waterToReachBrix(const Composition& mixture, MassFraction brix) noexcept {
    if (!(mixture.totalGrams() > 0) || !mixture.isSound() || !(brix.fraction() > 0)) return std::nullopt;
    const double total = mixture.totalGrams();
    const double water = withoutSlip(mixture.sugarGrams() / brix.fraction() - total, total);
    if (!(water >= 0) || !std::isfinite(water)) return std::nullopt;
    return Mass::fromGrams(water);
}

double mostSugarGPerL(Strength strength) noexcept {
    LiquidFacts facts;
    facts.strength = strength;
    const auto fits = [&facts](double sugar) {
        facts.gramsPerLitre[Substance::Sucrose] = sugar;
        return massesPerMl(facts).has_value();
    };
    if (fits(kMostGPerL)) return kMostGPerL;
    double low = 0;
    double high = kMostGPerL;
    while (high - low > 1e-9 * kMostGPerL) {
        const double middle = 0.5 * (low + high);
        (fits(middle) ? low : high) = middle;
    }
    return low;
}

std::optional<double> sugarGPerLFrom(Strength strength, Density density) noexcept {
    LiquidFacts facts;
    facts.strength = strength;
    const auto excess = [&](double sugar) {
        facts.gramsPerLitre[Substance::Sucrose] = sugar;
        const auto masses = massesPerMl(facts);
        return masses ? masses->modelDensity.kgPerM3() - density.kgPerM3() : std::nan("");
    };
    const double unsweetened = excess(0);
    if (unsweetened > 0 && unsweetened <= kWrittenKgPerM3) return 0.0;
    return bracketedRoot(excess, 0.0, mostSugarGPerL(strength), 1e-9);
}

} // namespace stillroom::physics
