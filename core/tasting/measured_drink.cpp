#include "core/tasting/measured_drink.h"

#include "core/physics/bracketed_root.h"
#include "core/physics/dilution.h"
#include "core/physics/measured_dilution.h"
#include "core/physics/mixture.h"
#include "core/preparation/measured_facts.h"
#include "core/spec/held_readings.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace stillroom::tasting {

using quantity::Mass;
using quantity::Volume;
using spec::Quantity;
using spec::Stage;

namespace {

constexpr std::array<std::string_view, 11> kReasons{
    "nothing_measured", "no_method",    "open_amounts",  "stood_on_ice", "topped_volume", "less_than_went_in",
    "too_much",         "age_not_said", "not_predicted", "cloudy",       "too_thin"};

constexpr double kModelBrix = 1; // preparation/measured_facts.h
constexpr double kThinnest = 5; // °Bx before ice; our own rule: below it 1 °Bx is more than a fifth of it all
constexpr double kCloudyShare = 0.01; // of fat and protein by mass; our own rule

bool isMixedWithIce(const spec::Spec& spec) {
    using spec::Technique;
    switch (spec.method.technique) {
    case Technique::Stir:
    case Technique::Shake:
    case Technique::Throw:
    case Technique::Build:
    case Technique::Blend:
    case Technique::Whip:
        return true;
    default:
        return false;
    }
}

// What the lines put in, all known.
bool isWhole(const spec::Readings& readings) {
    return readings[Stage::Measured][Quantity::Mass].bound == spec::Bound::Exact &&
           readings[Stage::Served][Quantity::Mass].bound == spec::Bound::Exact;
}

// Read at some temperature, at 20 °C: the volume of a mixture that fills as much there. The water sought
// changes how much it shrinks, so it is found anew from each guess; four rounds settle it.
Volume at20(const physics::Composition& mixed, Volume read, quantity::Temperature t) {
    Volume result = read;
    for (int round = 0; round < 4; ++round) {
        const auto water = physics::waterFromVolume(mixed, result);
        if (!water) return result;
        physics::Composition whole = mixed;
        whole[physics::Substance::Water] += water->grams();
        const auto there = physics::volumeAt(whole, t);
        if (!there || !(there->value.ml() > 0)) return result;
        result = Volume::fromMl(read.ml() * physics::volumeAt20(whole).ml() / there->value.ml());
    }
    return result;
}

tl::expected<spec::DilutionEntry, NotCounted> entryFrom(const physics::Composition& mixed,
                                                        std::optional<Mass> water, std::string how) {
    if (!water) return tl::unexpected(NotCounted::LessThanWentIn);
    const Volume before = physics::volumeAt20(mixed);
    const double ratio = physics::dilutionFromWater(*water, before);
    if (!std::isfinite(ratio) || !(ratio > 0)) return tl::unexpected(NotCounted::LessThanWentIn);
    if (ratio > kMostDilution) return tl::unexpected(NotCounted::TooMuch);
    return spec::DilutionEntry{ratio, spec::DilutionOrigin::Measured, std::move(how)};
}

// So much water added, what a refractometer shows of it all.
double shownWith(const physics::Composition& dry, double waterGrams) {
    physics::Composition wetter = dry;
    wetter[physics::Substance::Water] += waterGrams;
    return preparation::refractometerShows(wetter).value_or(std::nan(""));
}

tl::expected<spec::DilutionEntry, NotCounted>
dilutionFromBrix(const physics::Composition& mixed, const physics::Composition& onTop, double read) {
    physics::Composition dry = mixed;
    dry += onTop;
    if (dry[physics::Substance::Fat] + dry[physics::Substance::Protein] > kCloudyShare * dry.totalGrams())
        return tl::unexpected(NotCounted::Cloudy);
    const double before = shownWith(dry, 0);
    if (!(before >= kThinnest)) return tl::unexpected(NotCounted::TooThin); // or beyond the tables
    if (read >= before) return tl::unexpected(NotCounted::LessThanWentIn);
    const double most = kMostDilution * physics::volumeAt20(mixed).ml();
    const auto waterAt = [&](double brix) {
        return physics::bracketedRoot([&](double water) { return brix - shownWith(dry, water); }, 0.0, most,
                                      1e-6);
    };
    const auto water = waterAt(read);
    if (!water) return tl::unexpected(NotCounted::TooMuch);
    auto entry = entryFrom(mixed, Mass::fromGrams(*water), {});
    const auto least = waterAt(std::min(read + kModelBrix, before));
    if (entry && least)
        entry->how = fmt::format(
            "{:.1f} °Bx when tasted, good to ±{:.2f} of the ratio", read,
            physics::dilutionFromWater(Mass::fromGrams(*water - *least), physics::volumeAt20(mixed)));
    return entry;
}

} // namespace

std::string_view notCountedId(NotCounted why) {
    return kReasons[static_cast<std::size_t>(why)];
}

tl::expected<spec::DilutionEntry, NotCounted>
dilutionMeasured(const spec::Spec& spec, const spec::Bindings& bindings, const Circumstances& circumstances) {
    const auto& measured = circumstances.measured;
    if (!measured.weight && !measured.volume && !measured.brixRead)
        return tl::unexpected(NotCounted::NothingMeasured);
    if (circumstances.problem()) return tl::unexpected(NotCounted::NothingMeasured);
    if (!isMixedWithIce(spec)) return tl::unexpected(NotCounted::NoMethod);
    if (spec::standsOnIce(spec) &&
        circumstances.glassAgeMinutes.value_or(kAtOnceMinutes + 1) > kAtOnceMinutes)
        return tl::unexpected(NotCounted::StoodOnIce);
    if (!isWhole(spec::evaluate(spec, bindings))) return tl::unexpected(NotCounted::OpenAmounts);
    const auto mixed = spec::compositionOf(spec, bindings, Stage::Measured);
    if (!(mixed.totalGrams() > 0)) return tl::unexpected(NotCounted::OpenAmounts);
    physics::Composition poured = spec::compositionOf(spec, bindings, Stage::Served);
    poured.addScaled(spec::compositionOf(spec, bindings, Stage::Mixed), -1);
    const double onTop = poured.totalGrams();
    const int serves = std::max(1, spec.serves);
    if (measured.weight) {
        const double all = measured.weight->grams() * serves - std::max(0.0, onTop);
        return entryFrom(mixed, physics::waterFromWeight(mixed, Mass::fromGrams(all)),
                         fmt::format("weighed {:.1f} g when tasted", measured.weight->grams()));
    }
    if (!measured.volume) return dilutionFromBrix(mixed, poured, measured.brixRead->percent());
    if (onTop > 0.05) return tl::unexpected(NotCounted::ToppedVolume);
    Volume all = Volume::fromMl(measured.volume->ml() * serves);
    std::string how = fmt::format("{:.1f} ml when tasted", measured.volume->ml());
    if (measured.temperature) {
        all = at20(mixed, all, *measured.temperature);
        how += fmt::format(", at {:.1f} °C", measured.temperature->celsius());
    } else {
        how += ", taken as read at 20 °C";
    }
    return entryFrom(mixed, physics::waterFromVolume(mixed, all), std::move(how));
}

tl::expected<TemperatureFound, NotCounted> temperatureMeasured(const spec::Spec& spec,
                                                               const spec::Bindings& bindings,
                                                               const Circumstances& circumstances) {
    if (!circumstances.measured.temperature) return tl::unexpected(NotCounted::NothingMeasured);
    if (!circumstances.glassAgeMinutes) return tl::unexpected(NotCounted::AgeNotSaid);
    spec::HeldAsk ask;
    ask.in = spec::usualHeldIn(spec);
    ask.minutes = std::max(1, *circumstances.glassAgeMinutes);
    if (ask.minutes > 240) return tl::unexpected(NotCounted::NotPredicted);
    const auto held = spec::heldReadings(spec, bindings, ask);
    if (!held || held->points.empty() || held->temperatureBound != spec::Bound::Exact)
        return tl::unexpected(NotCounted::NotPredicted);
    const auto age = static_cast<double>(*circumstances.glassAgeMinutes);
    const auto& point =
        *std::min_element(held->points.begin(), held->points.end(), [age](const auto& a, const auto& b) {
            return std::abs(a.minutes - age) < std::abs(b.minutes - age);
        });
    return TemperatureFound{*circumstances.measured.temperature,
                            quantity::Temperature::fromCelsius(point.celsius)};
}

TemperatureBench temperatureBench(std::span<const TemperatureFound> found) {
    TemperatureBench bench;
    double sum = 0;
    for (const auto& one : found)
        sum += one.warmer();
    bench.measurements = static_cast<int>(found.size());
    if (found.empty()) return bench;
    const auto count = static_cast<double>(found.size());
    bench.warmer = sum / count;
    double squares = 0;
    for (const auto& one : found)
        squares += (one.warmer() - bench.warmer) * (one.warmer() - bench.warmer);
    if (found.size() > 1) bench.standardDeviation = std::sqrt(squares / (count - 1));
    return bench;
}

} // namespace stillroom::tasting
