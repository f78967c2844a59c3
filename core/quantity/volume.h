#pragma once

#include "core/quantity/scalar.h"

namespace stillroom::quantity {

// A volume of liquid, at 20 °C unless a name says otherwise.
class Volume : public Scalar<Volume> {
  public:
    constexpr Volume() = default;
    static constexpr Volume fromMl(double ml) { return fromRaw(ml); }
    static constexpr Volume fromLitres(double l) { return fromRaw(l * 1000.0); }
    constexpr double ml() const { return m_raw; }
    constexpr double litres() const { return m_raw / 1000.0; }

  private:
    friend class Scalar<Volume>;
};

} // namespace stillroom::quantity
