#pragma once

#include "core/physics/composition.h"
#include "core/quantity/mass.h"
#include "core/quantity/money.h"
#include "core/quantity/volume.h"
#include "core/spec/evaluate.h"

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

// A preparation's steps, one after the other, on what is in the pot.
namespace stillroom::preparation {

// What a step's result rests on, or what nobody said about it.
enum class StepRemark : std::uint8_t {
    MeasuredResult,         // what was got was measured: it stands instead of everything assumed
    MoreThanWentIn,         // and it was more than there was: counted as water nobody wrote down
    WaterLostByRate,        // minutes times the pot's own rate
    WaterLostNotStated,     // it simmered: how much thinner it was before nobody knows
    AlcoholLossNotModelled, // it simmered with alcohol in it: how strong it is afterwards nobody knows
    WaterGainedNotStated,   // fruit went in: what it gave is not known
    ShareAssumed,           // so much of the liquid came through: assumed, not measured
    LossNotStated,          // some stayed behind: what there is, is at most this
    FatLeavesWhole,         // all of the fat is taken off: assumed
    CurdTakesFatAndProtein, // all of both stay with the curd: assumed. The allergen stays in the drink
    NotModelled,            // fermenting: sugar, strength and acid afterwards are unknown
    FizzNotStated,
    OverrunNotStated,
    FoamNotLiquid,   // the foam is larger, the liquid in it is not
    TwoLossesStated, // a share and an amount held back: the share is taken
};
std::string_view stepRemarkId(StepRemark remark); // "measured_result"

// A figure of a step that cannot be so. It is left out, as if nobody had written it.
enum class StepProblem : std::uint8_t {
    NotANumber,
    Negative,
    YieldNotAbove0,
    YieldAbove1,
    TooLarge,      // 10^9 ml or g and more: a slip of the pen
    MoreThanThere, // more water boiled off, or more liquid held back, than the pot holds
};
std::string_view stepProblemId(StepProblem problem);

struct StepFault {
    StepProblem problem = StepProblem::NotANumber;
    std::size_t step = 0;
    std::string_view field; // "water_lost_g"
    friend bool operator==(const StepFault&, const StepFault&) = default;
};

// Of figures that are not known whole: what there is at least, where that is true. nullopt beside a known
// figure, and where nobody can say even that.
struct AtLeast {
    std::optional<double> strengthPercent, sugarGPerL, acidGPerL, brix;
    std::optional<quantity::Cost> cost;
};

// After a step, or at the start. A figure is nullopt where something before it leaves it unknown.
struct StepTrace {
    std::size_t step = 0;
    spec::StepKind kind = spec::StepKind::Dissolve;
    quantity::Mass entered; // since the trace before: lines put in, water gained
    quantity::Mass left;    // and what left
    quantity::Mass mass;
    quantity::Volume volume; // at 20 °C
    bool atMost = false;     // mass and volume: a loss before it was not stated
    std::optional<double> strengthPercent, sugarGPerL, acidGPerL, brix, densityKgPerM3;
    std::optional<quantity::Cost> cost; // of all that has gone in so far; nullopt: a price is missing
    AtLeast least;
    std::vector<StepRemark> remarks;
};

struct Process {
    StepTrace start; // what goes in before the first step, in the pan; without steps: everything
    std::vector<StepTrace> steps;
    std::vector<StepFault> faults;
    // put + gained = pot + lost, substance by substance.
    physics::Composition put, gained, pot, lost;
    bool atMost = false;
    bool strengthKnown = true, sugarKnown = true, acidKnown = true, fizzKnown = true;
    // Where it is not known: the figure of `pot` is a lower end.
    bool strengthLeast = false, sugarLeast = false, acidLeast = false, brixLeast = false, costLeast = false;
    std::optional<quantity::Cost> costSoFar; // of the prices there are
    bool carbonated = false, fermented = false;
    std::optional<quantity::Volume> foam; // after a whip with a stated overrun
};

// Lines enter before their step (Line::beforeStep), what is left enters after all; then the water of the
// method. Whole, not per serve.
Process process(const spec::Spec& spec, const spec::Bindings& bindings);

} // namespace stillroom::preparation
