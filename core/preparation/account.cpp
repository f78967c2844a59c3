#include "core/preparation/account.h"

#include <algorithm>
#include <cmath>

namespace stillroom::preparation {

using quantity::Cost;
using quantity::Mass;
using quantity::Volume;

namespace {

std::optional<Cost> per100Ml(const std::optional<Cost>& whole, Volume volume, bool atMost) {
    // Of at most so much the price per ml is at least this: no figure to show as one.
    if (!whole || atMost || !(volume.ml() > 0)) return std::nullopt;
    return Cost{
        static_cast<std::int64_t>(std::llround(static_cast<double>(whole->millionths) * 100 / volume.ml()))};
}

// Of at most so much, at a price of at least so much: each only makes it dearer.
std::optional<Cost> leastPer100Ml(const std::optional<Cost>& whole, const std::optional<Cost>& least,
                                  Volume volume, bool atMost) {
    if (whole && !atMost) return std::nullopt;
    return per100Ml(whole ? whole : least, volume, false);
}

std::optional<double> typical(const std::optional<larder::Fact>& fact) {
    return fact ? std::optional(fact->typical) : std::nullopt;
}

Stand standOf(const StepTrace& trace, Stand::At at) {
    Stand stand;
    stand.at = at;
    stand.step = trace.step;
    stand.kind = trace.kind;
    stand.mass = trace.mass;
    stand.entered = trace.entered;
    stand.left = trace.left;
    stand.volume = trace.volume;
    stand.atMost = trace.atMost;
    stand.strengthPercent = trace.strengthPercent;
    stand.sugarGPerL = trace.sugarGPerL;
    stand.acidGPerL = trace.acidGPerL;
    stand.brix = trace.brix;
    stand.densityKgPerM3 = trace.densityKgPerM3;
    stand.cost = trace.cost;
    stand.costPer100Ml = per100Ml(trace.cost, trace.volume, trace.atMost);
    stand.least = trace.least;
    stand.leastCostPer100Ml = leastPer100Ml(trace.cost, trace.least.cost, trace.volume, trace.atMost);
    stand.remarks = trace.remarks;
    stand.measured = std::find(trace.remarks.begin(), trace.remarks.end(), StepRemark::MeasuredResult) !=
                     trace.remarks.end();
    return stand;
}

// Between the last trace and the bottle.
void follow(Stand& usable, const Made& made) {
    const auto& process = made.process;
    double in = process.start.entered.grams();
    double before = process.start.mass.grams();
    for (const StepTrace& trace : process.steps) {
        in += trace.entered.grams();
        before = trace.mass.grams();
    }
    const double late =
        std::max(0.0, process.put.totalGrams() + process.gained.totalGrams() - in); // lines after all steps
    const double change = made.mass.grams() - before - late;
    usable.entered = Mass::fromGrams(late + std::max(0.0, change));
    usable.left = Mass::fromGrams(std::max(0.0, -change));
}

} // namespace

std::vector<Stand> account(const Made& made) {
    std::vector<Stand> stands{standOf(made.process.start, Stand::At::Pan)};
    for (const StepTrace& trace : made.process.steps)
        stands.push_back(standOf(trace, Stand::At::Step));
    Stand usable;
    usable.at = Stand::At::Usable;
    usable.mass = made.mass;
    usable.volume = made.yield;
    usable.atMost = made.yieldAtMost;
    usable.measured = made.yieldMeasured;
    if (!made.facts.dry) {
        usable.strengthPercent = typical(made.facts.abvPercent);
        usable.sugarGPerL = typical(made.facts.sugarGPerL);
        usable.acidGPerL = typical(made.facts.acidGPerL);
        usable.densityKgPerM3 = typical(made.facts.densityKgPerM3);
    }
    usable.brix = made.brix;
    usable.cost = made.cost;
    usable.costPer100Ml = per100Ml(made.cost, made.yield, made.yieldAtMost);
    usable.least = made.least;
    usable.leastCostPer100Ml = leastPer100Ml(made.cost, made.least.cost, made.yield, made.yieldAtMost);
    follow(usable, made);
    stands.push_back(std::move(usable));
    return stands;
}

double usableShare(const Made& made) {
    const double in = made.process.put.totalGrams();
    return in > 0 ? made.mass.grams() / in : 0;
}

std::optional<Volume> standsInFor(const Made& made, Volume syrup, double syrupSugarGPerL) {
    constexpr double kHardlyAny = 0.5; // % vol, g/100 ml: what a label calls none
    if (made.facts.dry || !made.facts.sugarGPerL || !made.facts.abvPercent) return std::nullopt;
    if (made.facts.abvPercent->high > kHardlyAny || made.facts.sugarGPerL->typical < 10 * kHardlyAny)
        return std::nullopt;
    return Volume::fromMl(syrup.ml() * syrupSugarGPerL / made.facts.sugarGPerL->typical);
}

} // namespace stillroom::preparation
