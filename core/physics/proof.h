#pragma once

#include "core/physics/marked.h"
#include "core/quantity/density.h"
#include "core/quantity/fraction.h"
#include "core/quantity/scalar.h"
#include "core/quantity/temperature.h"

#include <optional>

namespace stillroom::physics {

// Degrees of US proof: twice the volume of ethanol in 100 volumes of spirit, both at 60 °F (27 CFR 30.11).
class UsProof : public quantity::Scalar<UsProof> {
  public:
    constexpr UsProof() = default;
    static constexpr UsProof fromDegrees(double degrees) { return fromRaw(degrees); }
    constexpr double degrees() const { return m_raw; }

  private:
    friend class quantity::Scalar<UsProof>;
};

// Degrees of the old British proof: 100 is the spirit that weighs 12/13 of its volume of water at 51 °F
// (from memory: Sikes, Customs and Excise Act 1952); others by their ethanol against that.
class UkProof : public quantity::Scalar<UkProof> {
  public:
    constexpr UkProof() = default;
    static constexpr UkProof fromDegrees(double degrees) { return fromRaw(degrees); }
    constexpr double degrees() const { return m_raw; }

  private:
    friend class quantity::Scalar<UkProof>;
};

inline constexpr quantity::Temperature kSixtyFahrenheit = quantity::Temperature::fromFahrenheit(60);

// nullopt outside mass fraction 0…1, 0…200 US proof, 0…UK proof of ethanol (about 175).
std::optional<UsProof> usProofOf(quantity::MassFraction ethanol) noexcept;
std::optional<quantity::MassFraction> massFractionOf(UsProof proof) noexcept;
std::optional<UkProof> ukProofOf(quantity::MassFraction ethanol) noexcept;
std::optional<quantity::MassFraction> massFractionOf(UkProof proof) noexcept;

// By way of the mass fraction: 100 US proof is 50.06 % vol, since % vol is counted at 20 °C.
std::optional<UsProof> usProofOf(quantity::Strength strength) noexcept;
std::optional<quantity::Strength> strengthOf(UsProof proof) noexcept;
std::optional<UkProof> ukProofOf(quantity::Strength strength) noexcept;
std::optional<quantity::Strength> strengthOf(UkProof proof) noexcept;

} // namespace stillroom::physics
