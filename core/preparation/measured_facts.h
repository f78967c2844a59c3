#pragma once

#include "core/larder/facts.h"
#include "core/quantity/density.h"
#include "core/quantity/fraction.h"
#include "core/quantity/mass.h"
#include "core/quantity/temperature.h"
#include "core/quantity/volume.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

// What a measurement at the bench says about an ingredient: a fact "measured here" whose source names the
// inputs, on its day, and whose low and high are the propagated errors of all inputs and of the model (square
// root of the sum of squares; never below zero).
namespace stillroom::preparation {

// A liqueur of known strength: so many ml weigh so many g. What the balance shows, in air.
struct WeighedLiqueur {
    quantity::Volume volume; // as read at `t`
    quantity::Mass net;
    quantity::Temperature t;
    quantity::Strength label;
    quantity::Volume volumeError = quantity::Volume::fromMl(0.1);
    quantity::Mass scaleError = quantity::Mass::fromGrams(0.05); // half the last digit of a 0.1 g scale
    // Regulation (EU) 1169/2011, Annex XII: labelled strength may be off by 0.3 % vol.
    quantity::Strength labelError = quantity::Strength::fromPercentVol(0.3);
};
// The model itself is good to about 1 kg/m³ (physics/mixture.h); that is 2.6 to 2.9 g/l of sugar.
inline constexpr double kMixtureModelKgPerM3 = 1;
// g/l of sugar. nullopt: figures that are none, or a liquid lighter than its spirit by more than the errors,
// or heavier than any sugar makes it.
std::optional<larder::Fact> sugarFromWeighing(const WeighedLiqueur& measured, const std::string& on);

// What a band is made of: each error by itself, in the unit of the fact. The band is the square root of the
// sum of their squares.
enum class ErrorOf : std::uint8_t { Scale, Volume, Label, Reading, Model };
struct ErrorShare {
    ErrorOf of = ErrorOf::Model;
    double by = 0;
};
std::vector<ErrorShare> errorShares(const WeighedLiqueur& measured); // empty: no sugar comes of it

// A refractometer's Brix of a liquid with alcohol in it: both bend light, and what ethanol bends is taken off
// (CRC Handbook, 20 °C, up to 50 g/100 g; that both add is an assumption, taken as good to 1 °Bx).
struct Refracted {
    double brix = 0; // as read, corrected to 20 °C
    quantity::Strength label;
    double brixError = 0.2;
    quantity::Strength labelError = quantity::Strength::fromPercentVol(0.3);
};
std::optional<larder::Fact> sugarFromRefractometer(const Refracted& measured, const std::string& on);
std::vector<ErrorShare> errorShares(const Refracted& measured);
// And what it shows, in °Bx at 20 °C, of a clear liquid made of this: all that is dissolved taken as sugar,
// and what its alcohol bends. nullopt beyond the tables (50 g of alcohol in 100 g), and of nothing.
std::optional<double> refractometerShows(const physics::Composition& of);

// A syrup without alcohol and a hydrometer made for 20 °C, read at `t`.
struct Floated {
    double brix = 0; // as read on the stem
    quantity::Temperature t;
    double brixError = 0.2;
};
struct SyrupMeasured {
    quantity::MassFraction brix;
    larder::Fact sugarGPerL; // at 20 °C
};
std::optional<SyrupMeasured> brixFromHydrometer(const Floated& measured, const std::string& on);

// Titrated to pH 8.2 with a base of known strength.
struct Titrated {
    quantity::Volume sample;
    quantity::Volume base;
    double molPerL = 0.1; // of a base with one OH, as sodium hydroxide
    quantity::Volume sampleError = quantity::Volume::fromMl(0.05);
    quantity::Volume baseError = quantity::Volume::fromMl(0.1);
};
// g/l as anhydrous citric acid.
std::optional<larder::Fact> acidFromTitration(const Titrated& measured, const std::string& on);
std::vector<ErrorShare> errorShares(const Titrated& measured); // Volume is the sample's, Reading the base's

// ml of juice from one fruit: of a bowl squeezed together, or each by itself (then low and high are the
// smallest and the largest).
std::optional<larder::Fact> yieldOfFruit(quantity::Volume got, int pieces, quantity::Volume error,
                                         const std::string& on);
std::optional<larder::Fact> yieldOfFruit(const std::vector<quantity::Volume>& each, const std::string& on);

} // namespace stillroom::preparation
