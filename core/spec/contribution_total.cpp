#include "core/spec/contribution_total.h"

namespace stillroom::spec {

namespace {

struct Ends {
    double low;
    double high;
    bool openAbove; // nothing is known above `low`
    bool openBelow;
};

Ends endsOf(const Reading& reading) {
    switch (reading.bound) {
    case Bound::AtLeast:
        return {reading.value, reading.value, true, false};
    case Bound::AtMost:
        return {0, reading.value, false, true};
    case Bound::Between:
        return {reading.value, reading.upper, false, false};
    case Bound::Unknown:
        return {0, 0, true, false};
    case Bound::Exact:
    case Bound::NotApplicable:
        break;
    }
    return {reading.value, reading.value, false, false};
}

} // namespace

Reading sumOf(const Reading& a, const Reading& b) {
    if (a.bound == Bound::NotApplicable) return b;
    if (b.bound == Bound::NotApplicable) return a;
    Reading sum;
    sum.estimate = a.estimate || b.estimate;
    sum.gapLines = a.gapLines | b.gapLines;
    if (a.bound == Bound::Unknown && b.bound == Bound::Unknown) return sum;
    const Ends x = endsOf(a);
    const Ends y = endsOf(b);
    sum.value = x.low + y.low;
    sum.upper = x.high + y.high;
    if (x.openAbove || y.openAbove) {
        sum.bound = Bound::AtLeast;
    } else if (x.openBelow && y.openBelow) {
        sum.bound = Bound::AtMost;
        sum.value = sum.upper;
    } else {
        sum.bound = sum.value == sum.upper ? Bound::Exact : Bound::Between;
    }
    if (sum.bound != Bound::Between) sum.upper = 0;
    return sum;
}

Contribution total(const std::vector<Contribution>& contributions) {
    Reading nothing;
    nothing.bound = Bound::NotApplicable;
    Contribution sum{nothing, nothing, nothing, nothing, nothing};
    for (const auto& line : contributions) {
        sum.volumeMl = sumOf(sum.volumeMl, line.volumeMl);
        sum.ethanolMl = sumOf(sum.ethanolMl, line.ethanolMl);
        sum.sugarG = sumOf(sum.sugarG, line.sugarG);
        sum.acidG = sumOf(sum.acidG, line.acidG);
        sum.costMajor = sumOf(sum.costMajor, line.costMajor);
    }
    return sum;
}

} // namespace stillroom::spec
