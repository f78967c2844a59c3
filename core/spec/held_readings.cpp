#include "core/spec/held_readings.h"

#include "core/physics/dilution.h"
#include "core/spec/heat_parts.h"
#include "core/spec/scenario.h"
#include "core/spec/temperature.h"
#include "core/spec/thermal_words.h"

#include <algorithm>

namespace stillroom::spec {

using physics::Composition;
using physics::HeldStart;
using quantity::Mass;
using quantity::Temperature;

namespace {

constexpr double kWarmRoomC = 30;
constexpr double kAssumedIceG = 100; // of cubes: what physics/held.h assumes its surface for

Composition oneServe(const Spec& spec, const Bindings& bindings) {
    Composition serve;
    serve.addScaled(compositionOf(spec, bindings, Stage::Served), 1.0 / std::max(spec.serves, 1));
    return serve;
}

// "strain over fresh ice", "pour into an ice-filled tumbler": the words from the last pouring on.
std::string_view pouredWords(const Spec& spec) noexcept {
    const std::string_view text = spec.method.text;
    if (spec.method.technique == Technique::Build) return text;
    std::size_t from = std::string_view::npos;
    for (const std::string_view verb : {"strain", "Strain", "pour", "Pour", "serve", "Serve"})
        if (const std::size_t at = text.rfind(verb); at != std::string_view::npos)
            from = from == std::string_view::npos ? at : std::max(from, at);
    return from == std::string_view::npos ? std::string_view() : text.substr(from);
}

} // namespace

bool standsOnIce(const Spec& spec) noexcept {
    if (namesIce(spec.glass)) return true;
    const std::string_view words = pouredWords(spec);
    if (!namesIce(words) || spec.method.ice.empty()) return false; // "without ice" is no ice of the method's
    for (const std::string_view off : {"off the ice", "discard", "from the ice", "ice cream"})
        if (words.find(off) != std::string_view::npos) return false;
    return true;
}

HeldIn usualHeldIn(const Spec& spec) noexcept {
    const bool ice = spec.iceInGlassG.value_or(0) > 0 || standsOnIce(spec);
    return ice ? HeldIn::GlassWithIce : HeldIn::GlassWithoutIce;
}

std::string_view heldInId(HeldIn in) {
    switch (in) {
    case HeldIn::GlassWithIce:
        return "with_ice";
    case HeldIn::GlassWithoutIce:
        return "without_ice";
    case HeldIn::WarmRoom:
        return "warm_room";
    }
    return {};
}

std::optional<HeldCurve> heldReadings(const Spec& spec, const Bindings& bindings, const HeldAsk& ask) {
    const Reading served = temperatures(spec, bindings)[static_cast<std::size_t>(Stage::Served)];
    if (served.bound == Bound::Unknown || served.bound == Bound::NotApplicable) return std::nullopt;

    HeldCurve curve;
    auto ice = spec.iceInGlassG ? spec.iceInGlassG : iceGramsOfWords(spec.glass);
    if (ask.in == HeldIn::GlassWithoutIce) {
        ice = 0;
    } else if (!ice) {
        const bool wanted = ask.in == HeldIn::GlassWithIce || standsOnIce(spec);
        curve.iceAssumed = wanted;
        ice = wanted ? kAssumedIceG : 0;
    }
    HeldStart start;
    start.liquid = oneServe(spec, bindings);
    start.t = Temperature::fromCelsius(served.value);
    start.ice = Mass::fromGrams(*ice);
    start.room = ask.in == HeldIn::WarmRoom ? Temperature::fromCelsius(kWarmRoomC) : ask.room;
    // The glass is in the served temperature already: from there it moves with the drink.
    if (spec.glassGrams)
        start.glass =
            physics::vessel(Mass::fromGrams(*spec.glassGrams), physics::Material::SodaLimeGlass, start.t);
    if (ask.measured) {
        const auto transfer = physics::calibratedToRoom(start, ask.measured->minutes, ask.measured->celsius);
        if (!transfer) return std::nullopt;
        start.transfer = *transfer;
    }

    const Pass read = pass(spec, bindings.data(), {});
    const double serves = std::max(spec.serves, 1);
    const double measuredMl = read.volumeMl[0] / serves;
    const double already = measuredMl > 0 ? read.dilution : 0;
    for (const physics::HeldPoint& p : physics::heldCurve(start, ask.minutes, ask.stepMinutes)) {
        const double more =
            measuredMl > 0 ? physics::dilutionFromWater(p.meltedSoFar, quantity::Volume::fromMl(measuredMl))
                           : 0;
        curve.points.push_back({p.minutes, p.strength.percentVol(), already + more, p.t.celsius(),
                                p.volume.ml(), p.ice.grams()});
    }
    if (curve.points.empty()) return std::nullopt;
    curve.iceAtStartG = *ice;
    curve.startAssumed = served.estimate;
    curve.temperatureBound = served.bound;
    curve.strengthBound = evaluate(spec, bindings)[Stage::Served][Quantity::Strength].bound;
    curve.transferAssumed = start.transfer.assumed;
    curve.roomWPerK = start.transfer.roomWPerK;
    curve.iceWPerK = start.transfer.iceWPerK;
    curve.roomC = start.room.celsius();
    return curve;
}

} // namespace stillroom::spec
