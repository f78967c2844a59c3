#pragma once

#include <cmath>
#include <optional>

namespace stillroom::physics {

// The x in [low, high] where `f` is zero, by the secant of the bracket with bisection whenever that is
// slow (Illinois rule); nullopt when f has one sign at both ends or is no number. Stops when the bracket
// is narrower than `width` or f is exactly zero.
template <class F>
std::optional<double> bracketedRoot(F&& f, double low, double high, double width) {
    double atLow = f(low);
    double atHigh = f(high);
    if (atLow == 0) return low;
    if (atHigh == 0) return high;
    if (!(atLow * atHigh < 0)) return std::nullopt;
    int side = 0;
    for (int i = 0; i < 200 && high - low > width; ++i) {
        double x = (low * atHigh - high * atLow) / (atHigh - atLow);
        const bool everyFourth = i % 4 == 3;
        if (everyFourth || !(x > low && x < high)) x = 0.5 * (low + high);
        const double y = f(x);
        if (y == 0) return x;
        if (std::isnan(y)) return std::nullopt;
        if (y * atLow < 0) {
            high = x;
            atHigh = y;
            if (side == -1) atLow *= 0.5;
            side = -1;
        } else {
            low = x;
            atLow = y;
            if (side == 1) atHigh *= 0.5;
            side = 1;
        }
    }
    return 0.5 * (low + high);
}

} // namespace stillroom::physics
