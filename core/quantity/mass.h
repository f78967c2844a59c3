#pragma once

#include "core/quantity/scalar.h"

namespace stillroom::quantity {

class Mass : public Scalar<Mass> {
  public:
    constexpr Mass() = default;
    static constexpr Mass fromGrams(double g) { return fromRaw(g); }
    static constexpr Mass fromKg(double kg) { return fromRaw(kg * 1000.0); }
    constexpr double grams() const { return m_raw; }
    constexpr double kg() const { return m_raw / 1000.0; }

  private:
    friend class Scalar<Mass>;
};

} // namespace stillroom::quantity
