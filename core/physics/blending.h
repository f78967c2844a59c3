#pragma once

#include "core/physics/composition.h"
#include "core/quantity/density.h"
#include "core/quantity/fraction.h"
#include "core/quantity/mass.h"
#include "core/quantity/volume.h"

#include <optional>

namespace stillroom::physics {

// The sums people do beside a recipe. All by mass, contraction counted; volumes at 20 °C.

struct Blend {
    quantity::Volume first;
    quantity::Volume second;
    Composition mixture;
};
// How much of each makes `volume` of this strength, none of one at the strength of the other; nullopt when
// the strength is not between theirs (or both are alike) or the volume is not above zero. `first` and
// `second` may be any amount of each liquid.
std::optional<Blend> blendToStrength(const Composition& first, const Composition& second,
                                     quantity::Strength target, quantity::Volume volume) noexcept;

// Sucrose to add so that sugar is this share of the whole, none when it is; nullopt when there is more
// already, or for a share of 1 or more, or nothing to sweeten.
std::optional<quantity::Mass> sugarToReach(const Composition& mixture, quantity::MassFraction brix) noexcept;
// Water to add for the same.
std::optional<quantity::Mass> waterToReachBrix(const Composition& mixture,
                                               quantity::MassFraction brix) noexcept;

// The sucrose, g per litre, that a liqueur of this strength and density at 20 °C holds, when nothing else is
// dissolved; nullopt when it is lighter than the spirit alone or no sugar makes it so heavy. Within 0.005
// kg/m³, as a density is written, the spirit alone is none too heavy. 1 kg/m³ of density is about 2.6 g/l.
std::optional<double> sugarGPerLFrom(quantity::Strength strength, quantity::Density density) noexcept;
// The most sucrose, g per litre, that fits beside this strength, however it dissolves; 0 to 1300.
double mostSugarGPerL(quantity::Strength strength) noexcept;

} // namespace stillroom::physics
