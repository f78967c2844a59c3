#pragma once

#include "core/physics/composition.h"
#include "core/physics/marked.h"

#include <optional>

namespace stillroom::physics {

// pH at 25 °C by charge balance over the acids of the mixture (constants in acid_ph.cpp), without activity
// corrections (0.01 from the published table; with them 0.012). Juices are buffered: `alkali` mol/l of
// potassium and the like stands for that, about 0.02 to 0.04 in lemon and lime juice; without it a
// juice comes out near 1.9 and lies at 2.0 to 2.6. An estimate always, except for pure acid in water up to
// 0.2 mol/l: measure. nullopt without water, for an alkali below zero or more of it than the acids hold
// (pH beyond 12).
// Sugar enters by the volume it takes, alcohol's shift of the constants is not modelled.
std::optional<Marked<double>> pH(const Composition& mixture, double alkaliMolPerL = 0) noexcept;

// The alkali that would give a measured pH: what calibrates a juice. nullopt when no alkali does (the
// measured pH is below that of the acids alone) or the pH is outside 1…8.
std::optional<double> alkaliForPh(const Composition& mixture, double measuredPh) noexcept;

} // namespace stillroom::physics
