#pragma once

#include <array>
#include <cstddef>

namespace stillroom::physics {

// a[0] + a[1] x + a[2] x² …
template <std::size_t N>
constexpr double horner(const std::array<double, N>& a, double x) noexcept {
    double sum = a[N - 1];
    for (std::size_t i = N - 1; i-- > 0;)
        sum = sum * x + a[i];
    return sum;
}

template <std::size_t N>
constexpr double hornerSlope(const std::array<double, N>& a, double x) noexcept {
    double sum = 0;
    for (std::size_t i = N - 1; i > 0; --i)
        sum = sum * x + static_cast<double>(i) * a[i];
    return sum;
}

} // namespace stillroom::physics
