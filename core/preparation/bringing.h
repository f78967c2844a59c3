#pragma once

#include "core/physics/conversions/conversions.h"
#include "core/preparation/preparation.h"
#include "core/preparation/targets.h"

#include <tl/expected.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

// A preparation, or so much of a thing in the larder, brought to a target: what to add, what it comes to, and
// the smallest batch a scale still weighs. The forms have the shape of conversions, so that one reader of
// typed figures serves both.
namespace stillroom::preparation {

enum class Target : std::uint8_t { Acid, Brix, Strength, SugarAndAcid };

struct Bringing {
    physics::Conversion form; // its compute answers nothing: it only lets the figures be checked
    Target target = Target::Acid;
};
const std::vector<Bringing>& bringings(); // the ids are stable: "acid", "brix", "strength", "cordial"
// Of a preparation with its own amount: without the field "amount". `scaleStep`: the house's.
Bringing bringingFor(const Bringing& bringing, bool ownAmount, quantity::Mass scaleStep);

enum class BringProblem : std::uint8_t {
    NothingThere,    // nothing with an amount in it
    Dry,             // powders have no volume to bring anything in
    AcidUnknown,     // of what is brought
    SugarUnknown,    // likewise
    StrengthUnknown, // likewise
    NoLike,          // nobody said whose acid it shall have
    LikeUnknown,     // whose acid nobody knows, or that holds none
    NoStronger,      // it must get stronger, and nobody said with what
    StrongerUnknown,
    NotStronger,  // what is added is no stronger than the target
    MoreThanThat, // it holds more sugar or acid already: nothing takes that out
    OutOfReach,   // no amount brings it there, or so much never dissolves
    NoPowder,     // the larder knows nothing to weigh by that name
};
std::string_view bringProblemId(BringProblem problem); // "nothing_there"

struct BringAsk {
    spec::Spec base; // the preparation; of a thing in the larder baseOf()
    std::optional<base::IngredientId> like, stronger;
};
spec::Spec baseOf(base::IngredientId ingredient, quantity::Volume amount, const larder::Larder& larder);

// One thing to add, as a line says it.
struct DoseLine {
    std::string name;
    double amount = 0; // g, or ml of a liquid; whole hundredths
    bool liquid = false;
    std::optional<double> byDifference; // g: what the trade's plain difference says (targets.h)
};

struct Brought {
    std::vector<DoseLine> doses;
    std::optional<quantity::Mass> boilOff; // instead of adding
    bool thereAlready = false;             // nothing to do
    std::vector<physics::Substance> over;  // acids it holds more of than what it shall be like
    spec::Spec spec;                       // the base with the doses in it
    Made before, after;                    // read from base and spec, as any preparation is
    std::string crystals; // a sentence where more is in it than stays dissolved at 20 °C; else empty
    // Of what is brought, so that the scale weighs every dose to 2 %: with the scale asked, and with the two
    // usual ones.
    std::optional<quantity::Volume> smallest, smallestAtTenthGram, smallestAtGram;
};
tl::expected<Brought, BringProblem> bring(const Bringing& bringing, const physics::ConversionValues& values,
                                          const BringAsk& ask, const larder::Larder& larder,
                                          const spec::HouseRules& rules);

} // namespace stillroom::preparation
