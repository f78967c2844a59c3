#pragma once

#include <algorithm>
#include <array>
#include <cstddef>

namespace stillroom::physics {

// Shape-preserving cubic through tabulated points (Fritsch and Butland 1984 slopes, three-point slopes at
// the ends): between two rows it never leaves their range. The x rise. Outside the table the end value.
template <std::size_t N>
class Pchip {
    static_assert(N >= 3);

  public:
    struct Point {
        double x;
        double y;
    };

    constexpr explicit Pchip(const std::array<Point, N>& points) : m_points(points) {
        for (std::size_t i = 1; i + 1 < N; ++i)
            m_slopes[i] = innerSlope(i);
        m_slopes[0] = endSlope(width(0), width(1), rise(0), rise(1));
        m_slopes[N - 1] = endSlope(width(N - 2), width(N - 3), rise(N - 2), rise(N - 3));
    }

    constexpr double operator()(double x) const noexcept {
        if (!(x > m_points.front().x)) return m_points.front().y;
        if (x >= m_points.back().x) return m_points.back().y;
        std::size_t low = 0;
        std::size_t high = N - 1;
        while (high - low > 1) {
            const std::size_t middle = (low + high) / 2;
            (m_points[middle].x <= x ? low : high) = middle;
        }
        const double h = width(low);
        const double t = (x - m_points[low].x) / h;
        const double t2 = t * t;
        const double t3 = t2 * t;
        return m_points[low].y * (2 * t3 - 3 * t2 + 1) + m_points[low + 1].y * (3 * t2 - 2 * t3) +
               h * (m_slopes[low] * (t3 - 2 * t2 + t) + m_slopes[low + 1] * (t3 - t2));
    }

    constexpr double lastX() const noexcept { return m_points.back().x; }

  private:
    constexpr double width(std::size_t i) const { return m_points[i + 1].x - m_points[i].x; }
    constexpr double rise(std::size_t i) const { return (m_points[i + 1].y - m_points[i].y) / width(i); }

    constexpr double innerSlope(std::size_t i) const {
        const double before = rise(i - 1);
        const double after = rise(i);
        if (!(before * after > 0)) return 0; // a turning point stays one
        const double w1 = 2 * width(i) + width(i - 1);
        const double w2 = width(i) + 2 * width(i - 1);
        return (w1 + w2) / (w1 / before + w2 / after);
    }

    static constexpr double endSlope(double h0, double h1, double d0, double d1) {
        const double slope = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1);
        if (slope * d0 <= 0) return 0;
        const double steepest = 3 * d0;
        if (d0 * d1 <= 0 && slope * slope > steepest * steepest) return steepest;
        return slope;
    }

    std::array<Point, N> m_points;
    std::array<double, N> m_slopes{};
};

} // namespace stillroom::physics
