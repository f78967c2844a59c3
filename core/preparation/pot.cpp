#include "core/preparation/pot.h"

#include "core/physics/bracketed_root.h"
#include "core/physics/mixture.h"

namespace stillroom::preparation {

using physics::Composition;
using physics::Substance;
using quantity::Volume;

Composition boiledDown(const Composition& pot, Volume target) {
    Composition rest = pot;
    const auto excess = [&](double water) {
        rest[Substance::Water] = water;
        return physics::volumeAt20(rest).ml() - target.ml();
    };
    const auto water = physics::bracketedRoot(excess, 0.0, pot[Substance::Water], 1e-9);
    rest[Substance::Water] = water.value_or(0.0);
    return rest;
}

Composition wateredUp(const Composition& pot, Volume target) {
    Composition watered = pot;
    const Volume before = physics::volumeAt20(pot);
    const auto shortfall = [&](double water) {
        watered[Substance::Water] = water;
        return physics::volumeAt20(watered).ml() - target.ml();
    };
    const double most = pot[Substance::Water] + 1.1 * (target - before).ml();
    const auto water = physics::bracketedRoot(shortfall, pot[Substance::Water], most, 1e-9);
    watered[Substance::Water] = water.value_or(most);
    return watered;
}

Composition shareOf(const Composition& pot, double share) {
    Composition part;
    part.addScaled(pot, share);
    return part;
}

} // namespace stillroom::preparation
