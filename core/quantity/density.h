#pragma once

#include "core/quantity/mass.h"
#include "core/quantity/volume.h"

namespace stillroom::quantity {

class Density : public Scalar<Density> {
  public:
    constexpr Density() = default;
    static constexpr Density fromKgPerM3(double rho) { return fromRaw(rho); }
    constexpr double kgPerM3() const { return m_raw; }
    constexpr double gPerMl() const { return m_raw / 1000.0; }

  private:
    friend class Scalar<Density>;
};

constexpr Density operator/(Mass m, Volume v) {
    return Density::fromKgPerM3(m.grams() / v.ml() * 1000.0);
}
constexpr Volume operator/(Mass m, Density rho) {
    return Volume::fromMl(m.grams() / rho.gPerMl());
}
constexpr Mass operator*(Volume v, Density rho) {
    return Mass::fromGrams(v.ml() * rho.gPerMl());
}

} // namespace stillroom::quantity
