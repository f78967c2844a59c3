#pragma once

#include "core/quantity/density.h"
#include "core/quantity/fraction.h"

#include <optional>

namespace stillroom::physics {

// Pure sucrose in water at 20 °C, sodium D line, against air: a fit to the ICUMSA 1974 scale, within 0.022
// g/100 g of its five-figure table and 0.07 of the CRC Handbook from 5 to 80 g/100 g. Other solutes and
// alcohol shift a refractometer: what it then shows is an apparent Brix. 0…85 g/100 g of sugar
// (index 1.333…1.504); nullopt outside.
std::optional<quantity::MassFraction> brixFromRefractiveIndex(double index) noexcept;
std::optional<double> refractiveIndex(quantity::MassFraction sucrose) noexcept;

// Degrees Baumé of liquids heavier than water, modulus 145 at 20 °C: 145 - 145/d, d the relative density
// 20/20 °C. The older scale at 15.5 °C uses 144.32, so an unstated Baumé figure is good to about 0.2.
// nullopt for liquids lighter than water.
std::optional<double> baume(quantity::Density at20) noexcept;
std::optional<quantity::Density> densityFromBaume(double degrees) noexcept; // 0 <= degrees < 145

} // namespace stillroom::physics
