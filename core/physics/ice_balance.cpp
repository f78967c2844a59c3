#include "core/physics/ice_balance.h"

#include "core/physics/bracketed_root.h"
#include "core/physics/freezing.h"

#include <algorithm>
#include <cmath>

namespace stillroom::physics {

namespace {

using quantity::Mass;
using quantity::Temperature;

constexpr double kColdest = -45;
constexpr double kHottest = 100;
constexpr double kMixedAtCelsius = 25;

// Everything that does not change while the melt is sought.
struct Balance {
    Composition liquid; // all parts together, before any melt
    double heatJ = 0;   // what parts, vessels and leak bring, from 25 °C
    double vesselJPerK = 0;
    double solidIce = 0; // g, when weighed
    double iceCelsius = 0;
    bool weighed = false;
    bool mixingHeat = true;
    bool estimate = false;

    Composition with(double melted) const noexcept {
        Composition c = liquid;
        c[Substance::Water] += melted;
        return c;
    }

    double enthalpy(const Composition& c, double celsius) const noexcept {
        const double h = liquidEnthalpyJ(c, Temperature::fromCelsius(celsius)).value;
        return (mixingHeat ? h : h - mixingHeatJ(c)) + vesselJPerK * (celsius - kMixedAtCelsius);
    }

    // Heat still missing (above zero) when `melted` g have melted and all stands at `celsius`.
    double missing(const Composition& c, double melted, double celsius) const noexcept {
        const double toWaterAt25 = kFusionJPerG + kWaterCpJPerGK * kMixedAtCelsius;
        const double iceBefore =
            melted > 0 ? iceCelsius : celsius; // water freezes at the drink's temperature
        double heat = enthalpy(c, celsius) - heatJ + melted * (toWaterAt25 - kIceCpJPerGK * iceBefore);
        if (weighed) {
            const double kept = solidIce - std::max(melted, 0.0);
            heat += kept * kIceCpJPerGK * (celsius - iceCelsius);
        }
        return heat;
    }

    double missingAtFreezing(double melted) const noexcept {
        const Composition c = with(melted);
        return missing(c, melted, freezingOnset(c).value.celsius());
    }
};

bool sound(double value) noexcept {
    return std::isfinite(value);
}

Balance gathered(std::span<const LiquidPart> liquids, std::span<const HeatStore> vessels,
                 const BalanceOptions& options) noexcept {
    Balance b;
    b.mixingHeat = options.countMixingHeat;
    b.heatJ = options.heatLeakJ;
    for (const LiquidPart& part : liquids) {
        const auto h = liquidEnthalpyJ(part.masses, part.t);
        b.heatJ += h.value - (options.countMixingHeat ? 0 : mixingHeatJ(part.masses));
        b.estimate = b.estimate || h.estimate;
        b.liquid += part.masses;
    }
    for (const HeatStore& store : vessels) {
        b.vesselJPerK += store.joulesPerK;
        b.heatJ += store.joulesPerK * (store.t.celsius() - kMixedAtCelsius);
    }
    return b;
}

// The melt at which the drink stands at its freezing point. Secant from what the sensible heat could melt;
// the balance is nearly straight in the melt, so few steps do. nullopt: not between least and most.
std::optional<double> meltAtFreezing(const Balance& b, double least, double most) noexcept {
    double m0 = std::clamp(0.0, least, most);
    double f0 = b.missingAtFreezing(m0);
    double m1 = std::clamp(m0 - f0 / (1.25 * kFusionJPerG), least, most);
    for (int i = 0; i < 12 && m1 != m0; ++i) {
        const double f1 = b.missingAtFreezing(m1);
        const double next = std::clamp(m1 - f1 * (m1 - m0) / (f1 - f0), least, most);
        m0 = m1;
        f0 = f1;
        m1 = next;
        if (std::abs(m1 - m0) < 1e-3) { // what is left after such a step is below 1e-8 g
            const bool inside = m1 > least && m1 < most;
            if (inside) return m1;
            break;
        }
    }
    return bracketedRoot([&b](double m) { return b.missingAtFreezing(m); }, least, most, 1e-7);
}

std::optional<double> temperatureAfter(const Balance& b, double melted, double lowest) noexcept {
    const Composition c = b.with(melted);
    return bracketedRoot([&](double celsius) { return b.missing(c, melted, celsius); }, lowest, kHottest,
                         1e-7);
}

} // namespace

std::optional<Chilled> chill(std::span<const LiquidPart> liquids, const IceLoad& ice,
                             std::span<const HeatStore> vessels, const BalanceOptions& options) noexcept {
    Balance b = gathered(liquids, vessels, options);
    const double load = ice.mass ? ice.mass->grams() : 0;
    if (!sound(b.heatJ) || !(b.liquid[Substance::Water] > 0) || !(ice.t.celsius() <= 0) || !(load >= 0) ||
        !(ice.wetShare >= 0 && ice.wetShare <= 1))
        return std::nullopt;
    b.weighed = ice.mass.has_value();
    b.iceCelsius = ice.t.celsius();
    b.solidIce = load * (1 - ice.wetShare);
    Chilled result;
    result.surfaceWater = Mass::fromGrams(load * ice.wetShare);
    if (load * ice.wetShare > 0) {
        Composition film;
        film[Substance::Water] = load * ice.wetShare;
        b.liquid += film;
        b.heatJ += liquidEnthalpyJ(film, Temperature::fromCelsius(0)).value;
    }

    const double most = b.weighed ? b.solidIce : 20 * b.liquid.totalGrams();
    const double least = b.weighed && b.solidIce > 0 ? -0.95 * b.liquid[Substance::Water] : 0;
    double melted = 0;
    const bool leavesIce = !b.weighed || (most > 0 && b.missingAtFreezing(most) > 0);
    Marked<Temperature> onset;
    if (leavesIce) {
        const auto found = meltAtFreezing(b, least, most);
        if (found) {
            melted = *found;
            onset = freezingOnset(b.with(melted));
            result.t = onset.value;
        } else { // colder than its freezing point already, and no ice is weighed that could take up its cold
            const auto celsius = temperatureAfter(b, 0, kColdest);
            if (!celsius) return std::nullopt;
            onset = freezingOnset(b.liquid);
            result.t = Temperature::fromCelsius(*celsius);
        }
    } else {
        melted = most;
        const auto celsius = temperatureAfter(b, melted, kColdest);
        if (!celsius) return std::nullopt;
        onset = freezingOnset(b.with(melted));
        result.t = Temperature::fromCelsius(*celsius);
        result.allMelted = most > 0;
    }
    if (result.t.celsius() < kColdest) return std::nullopt;
    result.melted = Mass::fromGrams(melted);
    result.iceLeft = Mass::fromGrams(b.weighed ? b.solidIce - melted : 0);
    result.drink = b.with(melted);
    result.estimate = b.estimate || onset.estimate;
    return result;
}

std::optional<Marked<Temperature>> mixedTemperature(std::span<const LiquidPart> liquids,
                                                    std::span<const HeatStore> vessels,
                                                    const BalanceOptions& options) noexcept {
    const Balance b = gathered(liquids, vessels, options);
    if (!sound(b.heatJ) || !(b.liquid.totalGrams() > 0)) return std::nullopt;
    const auto celsius = temperatureAfter(b, 0, kColdest);
    if (!celsius) return std::nullopt;
    const Temperature t = Temperature::fromCelsius(*celsius);
    return Marked<Temperature>{t, b.estimate || liquidEnthalpyJ(b.liquid, t).estimate};
}

} // namespace stillroom::physics
