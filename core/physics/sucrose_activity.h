#pragma once

#include <cmath>

namespace stillroom::physics {

// Water activity of sucrose + water: M. Starzak and S. D. Peacock, Zuckerindustrie 122 (1997) 380-387. Agrees
// with the activities behind the CRC freezing points within 0.0004 up to 42 g/100 g.
class SucroseActivity {
  public:
    explicit SucroseActivity(double sucroseMassShare) noexcept // 0 <= share < 1
    {
        const double sugar = sucroseMassShare / 342.30;
        const double water = (1 - sucroseMassShare) / 18.015;
        const double x = sugar / (sugar + water);
        m_lnWater = std::log(1 - x);
        m_overT = -17638.0 / 8.314 * (1 + (-1.0038 - 0.24653 * x) * x) * x * x;
    }
    double lnAt(double kelvin) const noexcept { return m_lnWater + m_overT / kelvin; }
    double slopeAt(double kelvin) const noexcept { return -m_overT / (kelvin * kelvin); }

  private:
    double m_lnWater;
    double m_overT;
};

} // namespace stillroom::physics
