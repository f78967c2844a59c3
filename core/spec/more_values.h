#pragma once

#include "core/physics/carbonation.h"
#include "core/spec/more_readings.h"
#include "core/spec/scenario.h"

#include <array>
#include <optional>
#include <vector>

// Every further reading of a stage with each open question answered one way; the readings, their working and
// their spread are made of these.
namespace stillroom::spec {

struct MoreValue {
    std::optional<double> value;
    bool estimate = false;
};
using MoreValues = std::array<MoreValue, kMoreCount>;

// `whole`, when wanted, is told the masses they were read off.
MoreValues moreValues(const Spec& spec, const Bindings::Data& data, const Scenario& scenario, Stage stage,
                      physics::Composition* whole = nullptr);

// What a carbonated batch takes up at the pressure and temperature its method states, given time; nullopt
// when it states neither or one only, or outside the solubility's range.
std::optional<physics::Fizz> batchGas(const Spec& spec, const physics::Composition& mixed);

struct PartApart {
    int line = -1; // of the spec; -1: water of the method
    physics::Composition composition;
    double ml = 0; // at 20 °C; of a dry good as the crystals it is
};
// What is poured together, each apart, and the water of the method.
std::vector<PartApart> partsApart(const Spec& spec, const Bindings::Data& data, const Scenario& scenario,
                                  Stage stage, const physics::Composition& whole);

// Potassium and the like of a juice, mol/l: the upper of what physics/acid_ph.h states.
inline constexpr double kWellBuffered = 0.04;
// What of it a stage may hold: that of the lines with acid, protein or other solids, diluted as they are.
// Dry goods, spirits, syrups and water bring none.
double alkaliAtMost(const Spec& spec, const Bindings::Data& data, Stage stage,
                    const physics::Composition& whole);

} // namespace stillroom::spec
