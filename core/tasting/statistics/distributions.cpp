#include "core/tasting/statistics/distributions.h"

#include "core/base/check.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace stillroom::tasting {

namespace {

// The argument at which a rising function reaches the target, halving until doubles end.
template <class Rising>
double whereReaches(double target, double low, double high, Rising rising) {
    for (int i = 0; i < 2000; ++i) {
        const double middle = low + (high - low) / 2;
        if (middle <= low || middle >= high) break;
        (rising(middle) < target ? low : high) = middle;
    }
    return low + (high - low) / 2;
}

template <class Rising>
double quantileOnLine(double probability, Rising rising) {
    double reach = 1;
    while (reach < 1e150 && (rising(-reach) > probability || rising(reach) < probability))
        reach *= 2;
    return whereReaches(probability, -reach, reach, rising);
}

// One coefficient of the continued fraction of the incomplete beta function (Abramowitz & Stegun 26.5.8).
double betaCoefficient(double a, double b, double x, int index) {
    const double m = index / 2;
    if (index % 2 == 0) return m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m));
    return -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1));
}

// Evaluated forwards by Lentz's method, as modified by Thompson and Barnett.
double betaFraction(double a, double b, double x) {
    constexpr double kTiny = 1e-300;
    const auto away = [](double value) { return std::abs(value) < kTiny ? kTiny : value; };
    double c = 1;
    double d = 0;
    double fraction = 1;
    for (int i = 1; i < 10000; ++i) {
        const double coefficient = betaCoefficient(a, b, x, i);
        d = 1 / away(1 + coefficient * d);
        c = away(1 + coefficient / c);
        fraction *= c * d;
        if (std::abs(c * d - 1) < 4 * std::numeric_limits<double>::epsilon()) break;
    }
    return 1 / fraction;
}

} // namespace

double logGamma(double x) {
    STILLROOM_CHECK(x > 0, return 0);
    double shift = 0;
    while (x < 16) {
        shift += std::log(x);
        x += 1;
    }
    const double r = 1 / (x * x);
    // Bernoulli numbers B(2k) / (2k (2k - 1)): Abramowitz & Stegun 6.1.41.
    const double series = (1.0 / 12 - r * (1.0 / 360 - r * (1.0 / 1260 - r * (1.0 / 1680 - r / 1188)))) / x;
    return (x - 0.5) * std::log(x) - x + 0.5 * std::log(2 * std::numbers::pi) + series - shift;
}

double regularizedBeta(double a, double b, double x) {
    STILLROOM_CHECK(a > 0 && b > 0, return 0);
    if (!(x > 0)) return 0;
    if (x >= 1) return 1;
    const double front =
        std::exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * std::log(x) + b * std::log1p(-x));
    if (x < (a + 1) / (a + b + 2)) return front * betaFraction(a, b, x) / a;
    return 1 - front * betaFraction(b, a, 1 - x) / b;
}

double normalUpperTail(double z) {
    return 0.5 * std::erfc(z / std::numbers::sqrt2);
}

double normalQuantile(double probability) {
    STILLROOM_CHECK(probability > 0 && probability < 1, return 0);
    return quantileOnLine(probability, [](double z) { return normalUpperTail(-z); });
}

double studentUpperTail(double t, double degrees) {
    STILLROOM_CHECK(degrees > 0, return 0.5);
    const double beyond = 0.5 * regularizedBeta(degrees / 2, 0.5, degrees / (degrees + t * t));
    return t >= 0 ? beyond : 1 - beyond;
}

double studentQuantile(double probability, double degrees) {
    STILLROOM_CHECK(probability > 0 && probability < 1 && degrees > 0, return 0);
    return quantileOnLine(probability, [degrees](double t) { return studentUpperTail(-t, degrees); });
}

// Steps of two from one or two degrees of freedom, where the tail has a closed form
// (Abramowitz & Stegun 26.4.4 and 26.4.5).
double chiSquareUpperTail(double x, int degrees) {
    STILLROOM_CHECK(degrees > 0, return 1);
    if (!(x > 0)) return 1;
    const double half = x / 2;
    const bool odd = degrees % 2 == 1;
    double tail = odd ? std::erfc(std::sqrt(half)) : std::exp(-half);
    double term =
        odd ? 2 * std::sqrt(half) * std::numbers::inv_sqrtpi * std::exp(-half) : half * std::exp(-half);
    for (int have = odd ? 1 : 2; have < degrees; have += 2) {
        tail += term;
        term *= half / (have / 2.0 + 1);
    }
    return std::min(tail, 1.0);
}

double chiSquareCritical(double alpha, int degrees) {
    STILLROOM_CHECK(alpha > 0 && alpha < 1 && degrees > 0, return 0);
    double high = 1;
    while (high < 1e12 && chiSquareUpperTail(high, degrees) > alpha)
        high *= 2;
    return whereReaches(-alpha, 0, high, [degrees](double x) { return -chiSquareUpperTail(x, degrees); });
}

} // namespace stillroom::tasting
