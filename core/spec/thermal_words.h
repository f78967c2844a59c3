#pragma once

#include "core/physics/ice_in_glass.h"

#include <optional>
#include <string_view>

// What the words of a spec say about heat and ice. No allocation: evaluation reads them.
namespace stillroom::spec {

// "near-boiling water", "chilled sparkling wine": a temperature in °C, common practice, no source. "hot
// sauce" and "cold brew" name a thing, not a temperature.
//   boiling 97, near boiling 92, hot 80, warm 45, chilled or cold 5, frozen or ice cream -15.
std::optional<double> celsiusOfWords(std::string_view text) noexcept;

// The first temperature written with its scale: "60 °C", "60°C", "140 F".
std::optional<double> celsiusWritten(std::string_view text) noexcept;

// The first gauge pressure written with its unit, in bar: "2.4 bar", "35 psi".
std::optional<double> barWritten(std::string_view text) noexcept;

// Ice named with a weight ("120 g of wet cubes") or by its edge ("one 45 mm cube", "two 3 cm spheres"), at
// 0.917 g/ml (CRC, from memory). nullopt when the words give no size.
std::optional<double> iceGramsOfWords(std::string_view text) noexcept;
// The same with the number and size of the pieces, where they are named; edgeMm 0 where only a weight is.
std::optional<physics::IceInGlass> iceOfWords(std::string_view text) noexcept;

bool namesIce(std::string_view text) noexcept; // "over ice", "one large cube"

} // namespace stillroom::spec
