#pragma once

#include "core/physics/composition.h"
#include "core/physics/marked.h"
#include "core/quantity/density.h"
#include "core/quantity/fraction.h"

#include <cstdint>

namespace stillroom::physics {

// How ice meets the drink, for the published curves.
enum class IceMethod : std::uint8_t { Stirred, Shaken, Built };

// Water gained over the volume of the mixed lines before it (both at 20 °C): the one base that is stored.
// Curves from memory of D. Arnold, Liquid Intelligence (W. W. Norton 2014), page not seen: small cubes
// tempered to 0 °C, drinks at room temperature, 15…45 % vol. Outside that the end value, as an estimate;
// built over ice is one fixed figure. A real drink may differ by 0.1.
Marked<double> dilutionRatio(IceMethod method, quantity::Strength before) noexcept;

// The water that a ratio stands for: ratio × volume × 0.9982 g/ml, the base decided for this program.
quantity::Mass waterFromDilution(double ratio, quantity::Volume before) noexcept;
double dilutionFromWater(quantity::Mass water, quantity::Volume before) noexcept; // before > 0
// The other base in use, water over the finished drink: shown, named, never stored.
double shareOfFinished(double ratio) noexcept;

} // namespace stillroom::physics
