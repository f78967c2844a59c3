#include "core/physics/held.h"

#include "core/physics/bracketed_root.h"
#include "core/physics/freezing.h"
#include "core/physics/mixture.h"

#include <algorithm>
#include <cmath>

namespace stillroom::physics {

namespace {

using quantity::Mass;
using quantity::Temperature;

constexpr double kSecondsPerStep = 7.5;
constexpr double kColdest = -30;
constexpr double kHottest = 100;
constexpr double kLeastTransfer = 0.01;
constexpr double kMostTransfer = 20;

bool makesSense(const HeldStart& s) noexcept {
    const auto inRange = [](Temperature t) { return t.celsius() >= kColdest && t.celsius() <= kHottest; };
    return s.liquid[Substance::Water] > 0 && s.liquid.isSound() && s.ice.grams() >= 0 && inRange(s.t) &&
           inRange(s.room) && s.glass.joulesPerK >= 0 && std::isfinite(s.glass.joulesPerK) &&
           s.transfer.roomWPerK > 0 && s.transfer.iceWPerK > 0 && std::isfinite(s.transfer.roomWPerK) &&
           std::isfinite(s.transfer.iceWPerK);
}

struct State {
    Composition liquid;
    double celsius;
    double ice;
    double melted = 0;
};

// The glass and the drink share their heat at once; the ice melts as fast as its surface lets it.
State started(const HeldStart& start) noexcept {
    const HeatStore stores[] = {{heatCapacityJPerK(start.liquid, start.t).value, start.t}, start.glass};
    return {start.liquid, balancedTemperature(stores)->celsius(), start.ice.grams()};
}

// One step, exact for a constant capacity: the drink relaxes towards where room and ice balance.
void advance(State& s, const HeldStart& start, double seconds) noexcept {
    const double capacity =
        heatCapacityJPerK(s.liquid, Temperature::fromCelsius(s.celsius)).value + start.glass.joulesPerK;
    const double room = start.transfer.roomWPerK;
    // Less ice has less surface.
    const double surface =
        start.ice.grams() > 0 ? std::pow(std::max(s.ice, 0.0) / start.ice.grams(), 2.0 / 3) : 0;
    const double ice = start.transfer.iceWPerK * surface;
    const double onset = ice > 0 ? freezingOnset(s.liquid).value.celsius() : 0;
    const double target = (room * start.room.celsius() + ice * onset) / (room + ice);
    const double rate = (room + ice) / capacity;
    const double fade = std::exp(-rate * seconds);
    const double mean = target + (s.celsius - target) * (1 - fade) / (rate * seconds);
    // From ice at the onset, by way of 0 °C, to water of the drink's temperature: the path of chill().
    const double perGram = kFusionJPerG - kIceCpJPerGK * onset + kWaterCpJPerGK * mean;
    const double melt = ice > 0 ? std::min(ice * (mean - onset) * seconds / perGram, s.ice) : 0;
    s.celsius = target + (s.celsius - target) * fade;
    s.ice -= melt;
    s.melted += melt;
    s.liquid[Substance::Water] += melt;
}

HeldPoint pointOf(const State& s, double minutes) noexcept {
    HeldPoint p;
    p.minutes = minutes;
    p.t = Temperature::fromCelsius(s.celsius);
    p.ice = Mass::fromGrams(s.ice);
    p.meltedSoFar = Mass::fromGrams(s.melted);
    p.strength = strengthAt20(s.liquid).value_or(quantity::Strength{});
    p.volume = volumeAt20(s.liquid);
    return p;
}

State after(const HeldStart& start, State s, double seconds) noexcept {
    const int steps = std::max(1, static_cast<int>(std::ceil(seconds / kSecondsPerStep)));
    for (int i = 0; i < steps; ++i)
        advance(s, start, seconds / steps);
    return s;
}

} // namespace

std::vector<HeldPoint> heldCurve(const HeldStart& start, double minutes, double stepMinutes) {
    std::vector<HeldPoint> curve;
    if (!makesSense(start) || !(minutes >= 1 && minutes <= 240) ||
        !(stepMinutes >= 0.25 && stepMinutes <= 60))
        return curve;
    State s = started(start);
    double at = 0;
    curve.push_back(pointOf(s, at));
    while (at < minutes) {
        const double next = std::min(at + stepMinutes, minutes);
        s = after(start, s, 60 * (next - at));
        at = next;
        curve.push_back(pointOf(s, at));
    }
    return curve;
}

std::optional<HeatTransfer> calibratedToRoom(const HeldStart& start, double minutes, Temperature measured) {
    if (!makesSense(start) || !(minutes > 0 && minutes <= 240)) return std::nullopt;
    HeldStart trial = start;
    const auto miss = [&](double logTransfer) {
        trial.transfer.roomWPerK = std::exp(logTransfer);
        return after(trial, started(trial), 60 * minutes).celsius - measured.celsius();
    };
    const auto found = bracketedRoot(miss, std::log(kLeastTransfer), std::log(kMostTransfer), 1e-6);
    if (!found) return std::nullopt;
    return HeatTransfer{std::exp(*found), start.transfer.iceWPerK, false};
}

} // namespace stillroom::physics
