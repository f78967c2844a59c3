#pragma once

#include "core/physics/composition.h"
#include "core/physics/marked.h"
#include "core/quantity/density.h"
#include "core/quantity/fraction.h"
#include "core/quantity/temperature.h"

#include <optional>
#include <span>

namespace stillroom::physics {

// A mixture's volume is that of its ethanol + water (OIML R 22), plus what its sugar adds to the water
// present (ICUMSA SPS-4), plus the apparent volumes of everything else. Exact in both binary limits. Against
// a real drink expect 0.03 % up to 20 % vol and 150 g/l sugar, 0.1 to 0.3 % in strong sweet liqueurs
// (an estimate: no measured ternary table is freely published). Every sugar counts at the volume of
// sucrose, glucose and fructose with their small constant difference from it (CRC Handbook, 10 g/100 g).
// Grams are taken as not negative; an empty mixture has volume 0.

quantity::Volume volumeAt20(const Composition& mixture) noexcept;
// Between -60 and +110 °C, nullopt outside; an estimate outside -20…+40 °C and below the freezing curve of
// its ethanol and water, in a mixture with no ethanol outside 0…100 °C. Solutes other than sugar keep their
// volume of 20 °C, sugar below 0 °C that of 0 °C.
std::optional<Marked<quantity::Volume>> volumeAt(const Composition& mixture,
                                                 quantity::Temperature t) noexcept;

// The terms volumeAt20 adds, for showing the working.
struct VolumeTerms {
    quantity::Volume ethanolWater;
    quantity::Volume sugar;
    quantity::Volume otherSolutes;
};
VolumeTerms volumeTermsAt20(const Composition& mixture) noexcept;

quantity::Volume ethanolVolumeAt20(const Composition& mixture) noexcept; // its mass over 789.24 kg/m³
// Nullopt for an empty mixture.
std::optional<quantity::Strength> strengthAt20(const Composition& mixture) noexcept;
std::optional<quantity::Density> densityAt20(const Composition& mixture) noexcept;
std::optional<quantity::MassFraction> brix(const Composition& mixture) noexcept; // true: sugar g per g

// How much less there is than the parts measured apart at 20 °C; below zero where mixing gains volume.
quantity::Volume contractionAt20(std::span<const Composition> parts) noexcept;

// Water to add so that the mixture comes down to this strength, none when it has it already; nullopt when it
// is weaker or the strength is not above zero.
std::optional<quantity::Mass> waterToReach(const Composition& mixture, quantity::Strength target) noexcept;

} // namespace stillroom::physics
