#pragma once

#include <compare>

namespace stillroom::quantity {

// The arithmetic that every computed quantity has: sums of its own sort and scaling by plain numbers.
// A quantity is made by a named factory and read by a named unit, so no function takes a bare double.
template <class Self>
class Scalar {
  public:
    friend constexpr Self operator+(Self a, Self b) { return Self::fromRaw(a.m_raw + b.m_raw); }
    friend constexpr Self operator-(Self a, Self b) { return Self::fromRaw(a.m_raw - b.m_raw); }
    friend constexpr Self operator*(Self a, double k) { return Self::fromRaw(a.m_raw * k); }
    friend constexpr Self operator*(double k, Self a) { return Self::fromRaw(a.m_raw * k); }
    friend constexpr Self operator/(Self a, double k) { return Self::fromRaw(a.m_raw / k); }
    friend constexpr double operator/(Self a, Self b) { return a.m_raw / b.m_raw; }
    constexpr Self& operator+=(Self other) {
        m_raw += other.m_raw;
        return static_cast<Self&>(*this);
    }
    friend constexpr auto operator<=>(const Scalar&, const Scalar&) = default;

  protected:
    constexpr Scalar() = default;
    static constexpr Self fromRaw(double raw) {
        Self self;
        self.m_raw = raw;
        return self;
    }
    double m_raw = 0.0;
};

} // namespace stillroom::quantity
