#pragma once

#include "core/larder/larder.h"
#include "core/physics/conversions/conversions.h"
#include "core/preparation/measured_facts.h"
#include "core/spec/calibration.h"

#include <optional>
#include <string>
#include <vector>

// The measurements people can make at the bench, as forms: what is asked, in which range, and what comes of
// it with its band. They have the shape of conversions, so that one reader of typed figures serves both.
namespace stillroom::preparation {

enum class Finds : std::uint8_t { Sugar, Acid, Yield, Dilution };

struct Measuring {
    // Its compute gives the value first, then "band" (so much either way), then what the band is made of.
    physics::Conversion form;
    Finds finds = Finds::Sugar;
};
const std::vector<Measuring>& measurings(); // the ids are stable: "weighed", "refractometer", …

// For one ingredient at this house: its own strength stands where the label's is asked, the house's scale
// where one is used.
Measuring measuringFor(const Measuring& measuring, const larder::FactState& facts, quantity::Mass scaleStep);

// As it would be kept. Values as physics::convert took them without a problem; nullopt for Dilution, which is
// a drink's and no ingredient's.
std::optional<larder::Fact> factMeasured(const Measuring& measuring, const physics::ConversionValues& values,
                                         const std::string& on);

// The water of a shake against a drink's own lines. nullopt: nothing is mixed in it, or it got lighter.
struct ShakeWeighed {
    spec::DilutionEntry entry;
    double band = 0;       // of the ratio, either way, by the scale
    quantity::Mass served; // of one serve, as a tasting measures it
};
std::optional<ShakeWeighed> shakeWeighed(const Measuring& measuring, const physics::ConversionValues& values,
                                         const spec::Spec& spec, const spec::Bindings& bindings);

// Whose fact it becomes: what is poured for a kind; of fruit the juice got from it.
base::IngredientId measuredOn(Finds finds, base::IngredientId chosen, const larder::Larder& larder);

// What keeping it writes. Sugar and acid of a thing that is bought become its facts. What is made here has
// its facts from its own spec, so the lot in hand takes them: the one in use, else a new one of the day. A
// yield goes into what one piece gives, where the larder says what it is got from, and stands with its
// inputs as a lot of the day.
struct MeasuredKeep {
    larder::Ingredient before, after;
    std::optional<larder::Lot> lotBefore, lotAfter;
};
std::optional<MeasuredKeep> keepMeasured(Finds finds, const larder::Fact& fact, base::IngredientId ingredient,
                                         const larder::Larder& larder);

} // namespace stillroom::preparation
