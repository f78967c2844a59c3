#pragma once

#include "core/quantity/scalar.h"

namespace stillroom::quantity {

// Alcoholic strength by volume at 20 °C.
class Strength : public Scalar<Strength> {
  public:
    constexpr Strength() = default;
    static constexpr Strength fromPercentVol(double percent) { return fromRaw(percent / 100.0); }
    static constexpr Strength fromFraction(double fraction) { return fromRaw(fraction); }
    constexpr double percentVol() const { return m_raw * 100.0; }
    constexpr double fraction() const { return m_raw; }

  private:
    friend class Scalar<Strength>;
};

// Share of a mass: g per g.
class MassFraction : public Scalar<MassFraction> {
  public:
    constexpr MassFraction() = default;
    static constexpr MassFraction fromFraction(double fraction) { return fromRaw(fraction); }
    static constexpr MassFraction fromPercent(double percent) { return fromRaw(percent / 100.0); }
    constexpr double fraction() const { return m_raw; }
    constexpr double percent() const { return m_raw * 100.0; }

  private:
    friend class Scalar<MassFraction>;
};

} // namespace stillroom::quantity
