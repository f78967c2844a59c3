#include "core/physics/facts_to_masses.h"

#include "core/physics/bracketed_root.h"
#include "core/physics/ethanol_water.h"
#include "core/physics/mixture.h"

#include <algorithm>
#include <cmath>

namespace stillroom::physics {

namespace {

using quantity::Density;

// Ethanol of 100 % vol is 0.000001 ml more than the formula allows in one ml.
constexpr double kRoundingMl = 2e-6;

bool canBeTrue(const LiquidFacts& facts) noexcept {
    if (!(facts.strength.fraction() >= 0 && facts.strength.fraction() <= 1)) return false;
    if (facts.gramsPerLitre[Substance::Ethanol] != 0 || facts.gramsPerLitre[Substance::Water] != 0)
        return false;
    return std::all_of(facts.gramsPerLitre.grams.begin(), facts.gramsPerLitre.grams.end(),
                       [](double g) { return g >= 0 && std::isfinite(g); });
}

// The water that brings `mixture` to one ml, without touching its other masses.
std::optional<double> waterToOneMl(Composition mixture) noexcept {
    const auto excess = [&mixture](double water) {
        mixture[Substance::Water] = water;
        return volumeAt20(mixture).ml() - 1;
    };
    const double dry = excess(0);
    if (dry > kRoundingMl) return std::nullopt;
    if (dry >= 0) return 0.0;
    return bracketedRoot(excess, 0.0, 1.1, 1e-15);
}

// Solids that nobody stated, so that mass and volume are both right.
std::optional<Composition> withUnstatedSolids(const Composition& model, double missingGrams) noexcept {
    Composition mixture = model;
    const auto excess = [&](double solids) {
        mixture[Substance::OtherSolids] = model[Substance::OtherSolids] + solids;
        mixture[Substance::Water] = model[Substance::Water] + missingGrams - solids;
        return volumeAt20(mixture).ml() - 1;
    };
    const double most = model[Substance::Water] + missingGrams;
    const auto solids = bracketedRoot(excess, 0.0, most, 1e-15);
    if (!solids) return std::nullopt;
    mixture[Substance::OtherSolids] = model[Substance::OtherSolids] + *solids;
    mixture[Substance::Water] = most - *solids;
    return mixture;
}

} // namespace

std::optional<MassesPerMl> massesPerMl(const LiquidFacts& facts) noexcept {
    if (!canBeTrue(facts)) return std::nullopt;
    Composition perMl;
    perMl.addScaled(facts.gramsPerLitre, 1e-3);
    perMl[Substance::Ethanol] = facts.strength.fraction() * kEthanolKgPerM3At20 / 1000;
    const auto water = waterToOneMl(perMl);
    if (!water) return std::nullopt;
    perMl[Substance::Water] = *water;
    const Density model = Density::fromKgPerM3(perMl.totalGrams() * 1000);
    if (!facts.measuredDensity) return MassesPerMl{perMl, model, std::nullopt};

    const Density contradiction = *facts.measuredDensity - model;
    const double missingGrams = contradiction.gPerMl();
    if (!std::isfinite(missingGrams) || perMl[Substance::Water] + missingGrams < 0) return std::nullopt;
    if (missingGrams > 0) {
        const auto heavier = withUnstatedSolids(perMl, missingGrams);
        if (!heavier) return std::nullopt;
        perMl = *heavier;
    } else {
        perMl[Substance::Water] += missingGrams;
    }
    return MassesPerMl{perMl, model, contradiction};
}

} // namespace stillroom::physics
