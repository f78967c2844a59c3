#include "core/spec/heat_parts.h"

#include "core/spec/bindings.h"
#include "core/spec/thermal_words.h"
#include "core/spec/vessels.h"

#include <algorithm>

namespace stillroom::spec {

using physics::Composition;
using physics::HeatStore;
using physics::LiquidPart;
using physics::Substance;
using quantity::Mass;
using quantity::Temperature;

LineTemperature lineTemperature(const Line& line, const Method& method, bool carbonated) noexcept {
    if (line.temperatureC) return {*line.temperatureC, false};
    if (const auto said = celsiusOfWords(line.written.empty() ? line.name : line.written))
        return {*said, true};
    if (const auto said = celsiusOfWords(line.note)) return {*said, true};
    if (carbonated && (line.role == Role::Topped || line.role == Role::Floated)) return {kAssumedFizzC, true};
    if (method.startC) return {*method.startC, false};
    return {};
}

LineTemperature lineTemperature(const Line& line, const Method& method, const BoundLine& bound) noexcept {
    return lineTemperature(line, method, bound.poured != nullptr && bound.poured->facts.carbonated);
}

Composition unitComposition(const PreparedFacts& facts, std::uint8_t atLargest) noexcept {
    if (atLargest == 0) return facts.perUnit;
    // Of facts nobody knows the kinds are unknown as well.
    const Totals& t = facts.totals[atLargest];
    Composition c;
    c[Substance::Ethanol] = t.ethanolG;
    c[Substance::Water] = t.waterG;
    c[Substance::Sucrose] = t.sugarG;
    c[Substance::Citric] = t.acidG;
    c[Substance::OtherSolids] = std::max(0.0, t.massG - t.ethanolG - t.waterG - t.sugarG - t.acidG);
    return c;
}

void HeatParts::add(const Composition& masses, double factor, double celsius) noexcept {
    if (!(factor > 0)) return;
    if (m_size == kMost) {
        first()[kMost - 1].masses.addScaled(masses, factor);
        return;
    }
    LiquidPart* part = std::construct_at(first() + m_size);
    part->masses.addScaled(masses, factor);
    part->t = Temperature::fromCelsius(celsius);
    ++m_size;
}

double shakes(const Spec& spec) noexcept {
    return static_cast<double>(std::max(spec.serves, 1)) / std::max(spec.method.drinksPerShake, 1);
}

std::optional<HeatStore> vesselOf(const Spec& spec) noexcept {
    const Vessel* vessel = spec.method.vessel.empty() ? nullptr : vesselById(spec.method.vessel);
    if (vessel == nullptr) return std::nullopt;
    const double grams = spec.method.vesselGrams.value_or(vessel->assumedMass.grams());
    return physics::vessel(Mass::fromGrams(grams * shakes(spec)), vessel->material,
                           Temperature::fromCelsius(kAssumedRoomC));
}

IceOf iceOf(const Spec& spec) noexcept {
    const Method& method = spec.method;
    IceOf ice;
    auto grams = method.iceGrams;
    if (!grams && !method.ice.empty()) grams = iceGramsOfWords(method.ice);
    if (grams) ice.load.mass = Mass::fromGrams(*grams * shakes(spec));
    ice.load.t = Temperature::fromCelsius(method.iceC.value_or(0));
    ice.load.wetShare = grams ? method.iceWetShare.value_or(0) : 0;
    ice.assumed = !grams || !method.iceC || !method.iceWetShare;
    return ice;
}

} // namespace stillroom::spec
