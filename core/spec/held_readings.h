#pragma once

#include "core/physics/held.h"
#include "core/spec/evaluate.h"

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

// What one serve does while it stands: from the served reading on, heat comes in and ice melts. How fast is
// assumed (physics/held.h says with which figures); a measured temperature sets it right.
namespace stillroom::spec {

enum class HeldIn : std::uint8_t {
    GlassWithIce,
    GlassWithoutIce,
    WarmRoom, // with the ice of the glass, if it has any, at 30 °C
};

struct HeldMeasured {
    double minutes = 0;
    quantity::Temperature celsius;
};

struct HeldAsk {
    HeldIn in = HeldIn::GlassWithIce;
    double minutes = 30; // 1…240
    double stepMinutes = 1;
    quantity::Temperature room = quantity::Temperature::fromCelsius(20); // of the first two
    std::optional<HeldMeasured> measured = std::nullopt; // calibrates the transfer from the room
};

struct HeldReading {
    double minutes = 0;
    double strengthPercent = 0;
    double dilution = 0; // all water so far over the measured volume: the method's, and the ice in the glass
    double celsius = 0;
    double volumeMl = 0; // at 20 °C
    double iceG = 0;
};

struct HeldCurve {
    std::vector<HeldReading> points;
    double iceAtStartG = 0;
    bool iceAssumed = false;   // with ice, and nobody said how much: 100 g
    bool startAssumed = false; // the served temperature is an estimate
    // What the served strength and temperature are bounds of, the curve is a bound of as well.
    Bound strengthBound = Bound::Exact, temperatureBound = Bound::Exact;
    bool transferAssumed = true;
    double roomWPerK = 0, iceWPerK = 0; // the figures used
    double roomC = 20;
};

// Poured over ice: its glass names it, the method ends over it, or it is built in it.
bool standsOnIce(const Spec& spec) noexcept;
// With the ice it stands on, else without.
HeldIn usualHeldIn(const Spec& spec) noexcept;
std::string_view heldInId(HeldIn in); // "with_ice", "without_ice", "warm_room"

// nullopt when the spec has no served temperature or no volume, the ask is out of range, or no transfer from
// the room meets the measured temperature. Unknown facts are left out, ranges at their upper end.
std::optional<HeldCurve> heldReadings(const Spec& spec, const Bindings& bindings, const HeldAsk& ask = {});

} // namespace stillroom::spec
