#include "core/history/reading_difference.h"

#include <cmath>
#include <optional>

namespace stillroom::history {

using spec::Bound;
using spec::Reading;

namespace {

// What a reading may be, at least and at most, in units of the last digit shown; none: no such end.
struct Ends {
    std::optional<double> low, high;
};

Ends endsOf(const Reading& reading, double unit) {
    const double value = std::round(reading.value * unit);
    switch (reading.bound) {
    case Bound::Exact:
        return {value, value};
    case Bound::AtLeast:
        return {value, std::nullopt};
    case Bound::AtMost:
        return {std::nullopt, value};
    case Bound::Between:
        return {value, std::round(reading.upper * unit)};
    case Bound::Unknown:
    case Bound::NotApplicable:
        break;
    }
    return {};
}

} // namespace

ReadingDifference readingDifference(const Reading& before, const Reading& after, spec::Quantity quantity) {
    if (before.bound == Bound::NotApplicable || after.bound == Bound::NotApplicable)
        return {Known::NoSuch, 0, 0, false};
    if (before.bound == Bound::Unknown || after.bound == Bound::Unknown) return {};
    const double unit = std::pow(10.0, spec::quantityDecimals(quantity));
    const Ends a = endsOf(before, unit);
    const Ends b = endsOf(after, unit);
    ReadingDifference difference;
    difference.estimate = before.estimate || after.estimate;
    std::optional<double> least, most;
    if (b.low && a.high) least = (*b.low - *a.high) / unit;
    if (b.high && a.low) most = (*b.high - *a.low) / unit;
    if (least && most) {
        difference.known = *least < *most ? Known::Between : Known::Exactly;
        difference.value = *least;
        difference.upper = *least < *most ? *most : 0;
    } else if (least) {
        difference.known = Known::AtLeast;
        difference.value = *least;
    } else if (most) {
        difference.known = Known::AtMost;
        difference.value = *most;
    } else if (a.low && b.low) {
        difference.known = Known::FloorMoved;
        difference.value = (*b.low - *a.low) / unit;
    } else if (a.high && b.high) {
        difference.known = Known::CeilingMoved;
        difference.value = (*b.high - *a.high) / unit;
    }
    return difference;
}

} // namespace stillroom::history
