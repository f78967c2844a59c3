#include "core/tasting/statistics/binomial.h"

#include "core/base/check.h"
#include "core/tasting/statistics/distributions.h"

#include <algorithm>
#include <cmath>

namespace stillroom::tasting {

namespace {

// From `count` away from the middle, where terms only fall: stops when they no longer matter.
double sumAway(int trials, int count, double probability, int step) {
    double sum = 0;
    for (int k = count; k >= 0 && k <= trials; k += step) {
        const double term = binomialExactly(trials, k, probability);
        sum += term;
        if (term < sum * 1e-18) break;
    }
    return std::min(sum, 1.0);
}

// The probability at which a tail, falling or rising with it, reaches `wanted`.
template <class Tail>
double boundWhere(double wanted, bool rising, Tail tail) {
    double low = 0;
    double high = 1;
    for (int i = 0; i < 100; ++i) {
        const double middle = (low + high) / 2;
        ((tail(middle) < wanted) == rising ? low : high) = middle;
    }
    return (low + high) / 2;
}

} // namespace

double binomialExactly(int trials, int count, double probability) {
    STILLROOM_CHECK(trials >= 0 && probability >= 0 && probability <= 1, return 0);
    if (count < 0 || count > trials) return 0;
    if (probability <= 0) return count == 0 ? 1 : 0;
    if (probability >= 1) return count == trials ? 1 : 0;
    return std::exp(logGamma(trials + 1.0) - logGamma(count + 1.0) - logGamma(trials - count + 1.0) +
                    count * std::log(probability) + (trials - count) * std::log1p(-probability));
}

double binomialAtLeast(int trials, int count, double probability) {
    if (count <= 0) return 1;
    if (count > trials) return 0;
    if (count > trials * probability) return sumAway(trials, count, probability, +1);
    return 1 - sumAway(trials, count - 1, probability, -1);
}

double binomialAtMost(int trials, int count, double probability) {
    return binomialAtLeast(trials, trials - count, 1 - probability);
}

int binomialCritical(int trials, double probability, double alpha) {
    STILLROOM_CHECK(trials >= 0 && alpha > 0, return trials + 1);
    // Twelve deviations above the mean nothing is left to add.
    const double deviation = std::sqrt(trials * probability * (1 - probability));
    const int top = std::min(trials, static_cast<int>(trials * probability + 12 * deviation) + 10);
    double tail = 0;
    for (int k = top; k > 0; --k) {
        tail += binomialExactly(trials, k, probability);
        if (tail > alpha) return k + 1;
    }
    return alpha >= 1 ? 0 : 1;
}

double binomialLowerBound(int trials, int count, double confidence) {
    STILLROOM_CHECK(count <= trials && confidence > 0 && confidence < 1, return 0);
    if (count <= 0) return 0;
    return boundWhere(1 - confidence, true, [=](double p) { return binomialAtLeast(trials, count, p); });
}

double binomialUpperBound(int trials, int count, double confidence) {
    STILLROOM_CHECK(count >= 0 && confidence > 0 && confidence < 1, return 1);
    if (count >= trials) return 1;
    return boundWhere(1 - confidence, false, [=](double p) { return binomialAtMost(trials, count, p); });
}

} // namespace stillroom::tasting
