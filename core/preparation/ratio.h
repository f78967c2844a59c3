#pragma once

#include "core/larder/ratio_syrup.h"
#include "core/quantity/density.h"
#include "core/quantity/fraction.h"
#include "core/quantity/mass.h"

#include <cstdint>
#include <optional>
#include <string_view>

namespace stillroom::preparation {

// What the parts of a syrup's ratio are measured by. A ratio without it is two syrups.
enum class RatioBasis : std::uint8_t { ByWeight, ByCup };
std::string_view ratioBasisId(RatioBasis basis); // "by_weight"

struct SyrupReading {
    quantity::MassFraction brix;
    quantity::Density density; // at 20 °C
    quantity::Mass sugarPer30Ml;
};

// Granulated sugar in the cup, g/ml.
inline constexpr double kGranulatedSugarGPerMl = larder::kGranulatedGPerMl;

// Sugar to water. nullopt: a part that is not above zero, or above a thousand.
std::optional<SyrupReading> syrupOf(double sugarParts, double waterParts, RatioBasis basis);

struct RatioOutcomes {
    SyrupReading byWeight;
    SyrupReading byCup;
};
// "2:1", "2 : 1", "1,5:1", with sugar first; "2:1 honey syrup" of what it names. nullopt: not a ratio, or of
// nothing whose syrups are its ratio alone.
std::optional<RatioOutcomes> outcomesOf(std::string_view ratio);

} // namespace stillroom::preparation
