#pragma once

#include "core/physics/composition.h"
#include "core/physics/marked.h"
#include "core/quantity/fraction.h"
#include "core/quantity/scalar.h"
#include "core/quantity/temperature.h"

#include <optional>

namespace stillroom::physics {

// Pressure above the air's, as a regulator shows it.
class GaugePressure : public quantity::Scalar<GaugePressure> {
  public:
    constexpr GaugePressure() = default;
    static constexpr GaugePressure fromBar(double bar) { return fromRaw(bar); }
    static constexpr GaugePressure fromPsi(double psi) { return fromRaw(psi * 0.0689475729); }
    constexpr double bar() const { return m_raw; }
    constexpr double psi() const { return m_raw / 0.0689475729; }

  private:
    friend class quantity::Scalar<GaugePressure>;
};

// Dissolved carbon dioxide. One volume is one litre of gas (0 °C, 1 atm) per litre of drink, 44.0095/22.2605
// = 1.977 g/l (molar volume of IUPAC-NIST SRD 106); some scales use the ideal 1.963.
class Fizz : public quantity::Scalar<Fizz> {
  public:
    constexpr Fizz() = default;
    static constexpr Fizz fromGPerL(double g) { return fromRaw(g); }
    static constexpr Fizz fromVolumes(double v) { return fromRaw(v * kGPerLPerVolume); }
    constexpr double gPerL() const { return m_raw; }
    constexpr double volumes() const { return m_raw / kGPerLPerVolume; }

  private:
    friend class quantity::Scalar<Fizz>;
    static constexpr double kGPerLPerVolume = 44.0095 / 22.2605;
};

// What stays dissolved under pure CO₂ at this pressure, given time: R. F. Weiss, Mar. Chem. 2 (1974) 203,
// pure water (within 2 % of the CRC table, 3 % near 0 °C; vapour and non-ideality neglected). 0…40 °C, 0…10
// bar; nullopt outside. In water with up to 30 % vol ethanol solubility is that of water or a few per cent
// lower (Postigo and Katz 1987): an estimate above 0 % vol; nullopt above 30 % vol, where no figure was
// found. Sugar lowers it a little and is not counted.
std::optional<Marked<Fizz>> dissolvedAt(GaugePressure pressure, quantity::Temperature t,
                                        quantity::Strength strength = {}) noexcept;
// The pressure for a wanted fizz, in the same range; nullopt when that is below the air's or above 10 bar.
std::optional<Marked<GaugePressure>> pressureFor(Fizz wanted, quantity::Temperature t,
                                                 quantity::Strength strength = {}) noexcept;

// Upper bound of what a drink holds: all the gas of its parts in its volume, nothing lost in pouring. nullopt
// for an empty drink.
std::optional<Fizz> fizzAtMost(const Composition& mixture) noexcept;

} // namespace stillroom::physics
