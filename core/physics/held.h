#pragma once

#include "core/physics/composition.h"
#include "core/physics/heat.h"
#include "core/physics/marked.h"
#include "core/quantity/fraction.h"
#include "core/quantity/mass.h"
#include "core/quantity/temperature.h"
#include "core/quantity/volume.h"

#include <optional>
#include <vector>

namespace stillroom::physics {

// What a drink does while it stands: heat comes in from the room, and ice, if any, takes it up by melting.
// How fast is assumed, with no source: it depends on the glass, the hand and the air. A measured temperature
// sets it right (calibratedToRoom). Evaporation, which cools a hot drink further and takes alcohol with it,
// is not modelled.
struct HeatTransfer {
    double roomWPerK = 0.3; // assumed: 200 ml in an open glass, 10 W/(m² K) over 0.03 m²
    double iceWPerK = 4.0;  // assumed: 100 g of cubes at rest
    bool assumed = true;    // false once a measurement has set the room's
};

struct HeldStart {
    Composition liquid;
    quantity::Temperature t;
    quantity::Mass ice; // counted as standing at the drink's freezing point already
    HeatStore glass;    // moves with the drink
    quantity::Temperature room = quantity::Temperature::fromCelsius(20);
    HeatTransfer transfer;
};

struct HeldPoint {
    double minutes = 0;
    quantity::Temperature t;
    quantity::Mass ice;
    quantity::Mass meltedSoFar; // below zero when the drink started below its freezing point with ice
    quantity::Strength strength;
    quantity::Volume volume; // at 20 °C
    bool estimate = true;
};

// From 0 to `minutes` (1…240) at every `stepMinutes` (0.25…60) and at the end. Empty when the start makes no
// sense: no water, negative ice, temperatures outside -30…100 °C, transfer not above zero.
std::vector<HeldPoint> heldCurve(const HeldStart& start, double minutes = 30, double stepMinutes = 1);

// The room's heat transfer with which the curve passes through a temperature measured after `minutes`;
// nullopt when none between 0.01 and 20 W/K does.
std::optional<HeatTransfer> calibratedToRoom(const HeldStart& start, double minutes,
                                             quantity::Temperature measured);

} // namespace stillroom::physics
