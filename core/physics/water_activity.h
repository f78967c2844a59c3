#pragma once

#include "core/physics/composition.h"
#include "core/physics/marked.h"
#include "core/quantity/fraction.h"
#include "core/quantity/temperature.h"

#include <optional>

namespace stillroom::physics {

// Water activity, 0…1: sucrose, lactose and other sugars by Starzak and Peacock (1997), glucose and fructose
// by Norrish (1966, constants from memory), acids and salt as freezing() takes them, multiplied (Ross 1975;
// usual error of the product 0.01 to 0.02, from memory). nullopt without water or outside 0…40 °C. An
// estimate when anything but sucrose is dissolved, since activities of acid, salt and ethanol are those over
// ice, ethanol's the least certain, and of sucrose beyond 42 g/100 g of its water, where the published
// freezing points end that it was checked against. A safety decision rests on a measured value and on local
// food law, never on this.
std::optional<Marked<double>> waterActivity(const Composition& mixture, quantity::Temperature t) noexcept;

// Its natural logarithm as the sum it is; for showing the working.
struct WaterActivityTerms {
    double lnEthanol = 0;
    double lnDisaccharides = 0;
    double lnGlucose = 0;
    double lnFructose = 0;
    double lnAcid = 0;
    double lnSalt = 0;
    double sum() const { return lnEthanol + lnAcid + lnSalt + lnDisaccharides + lnGlucose + lnFructose; }
};
std::optional<WaterActivityTerms> waterActivityTerms(const Composition& mixture,
                                                     quantity::Temperature t) noexcept;

// The most sucrose that stays dissolved in water, g/100 g of solution: Herzfeld 1892, as tabulated by Mohos
// 2010, straight between rows; 0…100 °C, nullopt outside. A newer scale lies 0.5 lower near room temperature.
std::optional<quantity::MassFraction> sucroseSolubility(quantity::Temperature t) noexcept;

} // namespace stillroom::physics
