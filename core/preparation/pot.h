#pragma once

#include "core/physics/composition.h"
#include "core/quantity/mass.h"
#include "core/quantity/volume.h"

// What is in the pot, brought to an amount that somebody measured.
namespace stillroom::preparation {

// Water boiled off until the rest fills `target` at 20 °C; as far down as no water at all.
physics::Composition boiledDown(const physics::Composition& pot, quantity::Volume target);
// Water put in until it fills `target`, which is more than there is.
physics::Composition wateredUp(const physics::Composition& pot, quantity::Volume target);
// A part of the whole, as strong as the whole.
physics::Composition shareOf(const physics::Composition& pot, double share);

} // namespace stillroom::preparation
