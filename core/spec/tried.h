#pragma once

#include "core/spec/scenario.h"

#include <algorithm>
#include <optional>

// How one number comes to a reading when a spec leaves questions open: tried at the ends of its ranges in
// every combination (of six; further ones together), and with every set of missing facts at their largest.
namespace stillroom::spec {

struct Tried {
    std::optional<double> low, high;
    bool estimate = false;

    void take(std::optional<double> value, bool isEstimate) noexcept {
        if (!value || *value != *value) return;
        low = low ? std::min(*low, *value) : *value;
        high = high ? std::max(*high, *value) : *value;
        estimate = estimate || isEstimate;
    }
    // More ranges than were combined: half as far again.
    void widen() noexcept {
        if (!low) return;
        const double more = 0.5 * (*high - *low);
        *low -= more;
        *high += more;
    }
};

// Calls `attempt(scenario)` for each combination of range ends.
template <class Attempt>
void atRangeEnds(const Questions& open, Attempt attempt) {
    const int bits = std::min(open.ranged, kCornerLines + 1);
    for (std::uint32_t ends = 0; ends < std::uint32_t{1} << bits; ++ends) {
        Scenario scenario;
        scenario.rangesHigh = ends;
        attempt(scenario);
    }
}
// And for each set of missing facts, with all ranges low and all high.
template <class Attempt>
void atLargestFacts(const Questions& open, Attempt attempt) {
    for (std::uint8_t facts = 1; facts <= kAllFacts; ++facts) {
        if ((facts & ~open.unknownFacts) != 0) continue;
        Scenario scenario;
        scenario.factsAtLargest = facts;
        attempt(scenario);
        if (open.ranged == 0) continue;
        scenario.rangesHigh = ~std::uint32_t{0};
        attempt(scenario);
    }
}

// `half`: half the last digit shown; what moves less is not seen.
inline Reading readingOfTried(const Tried& plain, const Tried& largest, const OpenLines& open, double half) {
    Reading r;
    if (open.amount != 0) {
        r.gapLines = open.amount;
        return r;
    }
    const std::uint64_t facts = open.strength | open.sugar | open.acid;
    if (!plain.low) {
        r.bound = largest.low ? Bound::Unknown : Bound::NotApplicable;
        r.gapLines = largest.low ? facts : 0;
        return r;
    }
    r.value = *plain.low;
    r.bound = Bound::Exact;
    r.estimate = plain.estimate;
    if (*plain.high - *plain.low >= half) {
        // Between its ends a curve may bend: rounded outward.
        r.bound = Bound::Between;
        r.value -= half;
        r.upper = *plain.high + half;
    }
    if (!largest.low) return r;
    const bool below = *plain.low - *largest.low >= half;
    const bool above = *largest.high - *plain.high >= half;
    if (!below && !above) return r;
    r.gapLines = facts;
    r.upper = 0;
    if (below && above) return Reading{0, 0, Bound::Unknown, false, facts};
    r.bound = below ? Bound::AtMost : Bound::AtLeast;
    r.value = below ? *plain.high : *plain.low;
    return r;
}

} // namespace stillroom::spec
