#include "core/preparation/made_readings.h"

#include "core/larder/at_least.h"

namespace stillroom::preparation {

using spec::Bound;
using spec::Quantity;
using spec::Reading;

namespace {

Reading exact(double value) {
    Reading reading;
    reading.value = value;
    reading.bound = Bound::Exact;
    return reading;
}

// Known whole, at least so much, or unknown; the lines it lacks a fact of stay named.
void put(Reading& reading, const std::optional<larder::Fact>& fact, const std::optional<double>& least,
         double perUnit) {
    const std::uint64_t gaps = reading.gapLines;
    Reading next;
    if (fact && fact->high > fact->low) {
        next.bound = Bound::Between;
        next.value = fact->low * perUnit;
        next.upper = fact->high * perUnit;
    } else if (fact) {
        next = exact(fact->typical * perUnit);
    } else if (least) {
        next = exact(*least * perUnit);
        next.bound = Bound::AtLeast;
    }
    if (!fact) next.gapLines = gaps;
    reading = next;
}

} // namespace

spec::Readings withSteps(spec::Readings readings, const Made& made) {
    auto& served = readings[spec::Stage::Served];
    if (made.facts.dry) return readings;
    constexpr double kPer100Ml = 0.1; // of g/l
    put(served[Quantity::Strength], made.facts.abvPercent, made.least.strengthPercent, 1);
    put(served[Quantity::Sugar], made.facts.sugarGPerL, made.least.sugarGPerL, kPer100Ml);
    put(served[Quantity::Acid], made.facts.acidGPerL, made.least.acidGPerL, kPer100Ml);
    std::optional<larder::Fact> brix;
    if (made.brix) brix = larder::Fact::single(*made.brix, larder::SourceKind::Assumed, {});
    put(served[Quantity::Brix], brix, made.least.brix, 1);
    put(served[Quantity::Density], made.facts.densityKgPerM3, std::nullopt, 1);
    const Reading& sugar = served[Quantity::Sugar];
    const Reading& acid = served[Quantity::Acid];
    constexpr double kNoAcid = 0.005; // half of the last digit shown
    Reading ratio;
    if (sugar.bound == Bound::Exact && acid.bound == Bound::Exact) {
        if (acid.value < kNoAcid)
            ratio.bound = Bound::NotApplicable;
        else
            ratio = exact(sugar.value / acid.value);
    }
    served[Quantity::SugarAcidRatio] = ratio;
    const double serves = readings.serves > 0 ? readings.serves : 1;
    served[Quantity::Volume] = exact(made.yield.ml() / serves);
    served[Quantity::Mass] = exact(made.mass.grams() / serves);
    if (made.yieldAtMost) served[Quantity::Volume].bound = served[Quantity::Mass].bound = Bound::AtMost;
    return readings;
}

Reading strengthOf(const larder::FactState& facts) {
    Reading reading;
    if (facts.dry) {
        reading.bound = Bound::NotApplicable;
        return reading;
    }
    put(reading, facts.abvPercent, std::nullopt, 1);
    if (facts.abvPercent && larder::hasTag(facts, larder::kStrengthAtLeast)) reading.bound = Bound::AtLeast;
    return reading;
}

} // namespace stillroom::preparation
