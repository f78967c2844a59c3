#pragma once

#include "core/physics/heat.h"
#include "core/physics/ice_balance.h"
#include "core/spec/bindings.h"

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <span>

// A spec's liquids as the heat balance wants them: masses at a temperature each. For the evaluation's own
// files; nothing here allocates.
namespace stillroom::spec {

inline constexpr double kAssumedRoomC = 20; // of liquids, vessels and glasses nobody spoke of
// Of carbonated lines topped or floated: added cold, or the gas leaves (costing, batching rules: common
// practice, no source); the same figure as the word "chilled".
inline constexpr double kAssumedFizzC = 5;

struct LineTemperature {
    double celsius = kAssumedRoomC;
    bool assumed = true;
};
// Typed for the line, by its words (an assumed figure), chilled when `carbonated` and topped or floated
// (assumed), typed for the method, else 20 °C assumed.
LineTemperature lineTemperature(const Line& line, const Method& method, bool carbonated) noexcept;
LineTemperature lineTemperature(const Line& line, const Method& method, const BoundLine& bound) noexcept;

// One unit of a line's ingredient, its unknown facts of `atLargest` at their largest.
physics::Composition unitComposition(const PreparedFacts& facts, std::uint8_t atLargest) noexcept;

class HeatParts {
  public:
    // Lines beyond the room left are stirred into the last one at its temperature: 32 mixed lines are more
    // than any drink has.
    static constexpr std::size_t kMost = 32;

    HeatParts() noexcept {} // leaves the room raw
    void add(const physics::Composition& masses, double factor, double celsius) noexcept;
    std::span<const physics::LiquidPart> all() const noexcept { return {first(), m_size}; }
    bool isEmpty() const noexcept { return m_size == 0; }

  private:
    // Left raw until used: clearing all of it would cost more than the balance of a short drink.
    alignas(physics::LiquidPart) std::byte m_room[kMost * sizeof(physics::LiquidPart)];
    std::size_t m_size = 0;

    physics::LiquidPart* first() noexcept { return reinterpret_cast<physics::LiquidPart*>(m_room); }
    const physics::LiquidPart* first() const noexcept {
        return reinterpret_cast<const physics::LiquidPart*>(m_room);
    }
};

// The share of one shake that the whole spec stands for: twelve serves shaken two at a time are six shakes.
double shakes(const Spec& spec) noexcept;

// The vessels of all shakes together, at room temperature (or `startC`); nullopt when none is named.
std::optional<physics::HeatStore> vesselOf(const Spec& spec) noexcept;

struct IceOf {
    physics::IceLoad load; // of all shakes
    bool assumed = true;   // something of it was not stated
};
IceOf iceOf(const Spec& spec) noexcept;

} // namespace stillroom::spec
