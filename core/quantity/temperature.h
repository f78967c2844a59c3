#pragma once

#include <compare>

namespace stillroom::quantity {

// A point on the Celsius scale (ITS-90). Differences are plain kelvins: `a.minus(b)`.
class Temperature {
  public:
    constexpr Temperature() = default;
    static constexpr Temperature fromCelsius(double c) { return Temperature(c); }
    static constexpr Temperature fromFahrenheit(double f) { return Temperature((f - 32.0) / 1.8); }
    constexpr double celsius() const { return m_celsius; }
    constexpr double fahrenheit() const { return m_celsius * 1.8 + 32.0; }
    constexpr double kelvin() const { return m_celsius + 273.15; }
    constexpr double minus(Temperature other) const { return m_celsius - other.m_celsius; }
    constexpr Temperature plusKelvin(double k) const { return Temperature(m_celsius + k); }
    friend constexpr auto operator<=>(const Temperature&, const Temperature&) = default;

  private:
    constexpr explicit Temperature(double c) : m_celsius(c) {}
    double m_celsius = 20.0;
};

} // namespace stillroom::quantity
