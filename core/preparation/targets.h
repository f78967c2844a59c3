#pragma once

#include "core/physics/composition.h"
#include "core/quantity/fraction.h"
#include "core/quantity/mass.h"
#include "core/quantity/volume.h"

#include <optional>
#include <utility>
#include <vector>

// How to bring a preparation to what it shall be. Volumes at 20 °C; nothing is added that is not said.
namespace stillroom::preparation {

using Dose = std::pair<physics::Substance, quantity::Mass>;

struct AcidAdjustment {
    std::vector<Dose> add; // so that the finished liquid holds as much of each acid per litre as the target
    // The same by plain difference per litre of juice, as the trade counts: less, because the acid added
    // takes room of its own and thins the rest.
    std::vector<Dose> byDifference;
    std::vector<physics::Substance> over; // the juice holds more of these than the target: nothing to add
    quantity::Volume finished;
};
// What to add to `juice` (all of it) to give it the acids of `target` (any amount of it). nullopt: either is
// empty, or the acids would fill the whole of it.
std::optional<AcidAdjustment> acidToMatch(const physics::Composition& juice,
                                          const physics::Composition& target);

// One of three is set; none when the syrup stands there already.
struct ToBrix {
    std::optional<quantity::Mass> addSugar;
    std::optional<quantity::Mass> addWater;
    std::optional<quantity::Mass> boilOff; // instead of sugar: water to lose, where that suffices
};
std::optional<ToBrix> toBrix(const physics::Composition& syrup, quantity::MassFraction target);

struct ToStrength {
    std::optional<quantity::Mass> addWater;
    std::optional<quantity::Volume> addSpirit; // of the stronger one
    quantity::Volume finished;
};
// Down with water, up with `stronger` (any amount of it). nullopt: a strength that is none, or out of reach.
std::optional<ToStrength> toStrength(const physics::Composition& infusion, quantity::Strength target,
                                     const physics::Composition& stronger);

struct ToCordial {
    quantity::Mass sugar;
    quantity::Mass acid;
    quantity::Volume finished;
};
// Sucrose and one acid so that the finished liquid holds so many g of sugar and of acid as citric per litre:
// both at once, since each thins the other. nullopt: more of one than wanted is there already, or it does
// not fit.
std::optional<ToCordial> toSugarAndAcid(const physics::Composition& base, double sugarGPerL,
                                        double acidAsCitricGPerL, physics::Substance acid);

// A scale's last digit is right to half of it. The smallest batch whose every dose (g per litre) is weighed
// to `share`; nullopt when a dose or the scale is not above zero.
std::optional<quantity::Volume> smallestBatch(const std::vector<double>& gramsPerLitre,
                                              quantity::Mass lastDigit, double share = 0.02);

// Juice stretched with peel, acid and water (needs, 15).
struct StretchedJuice {
    quantity::Mass citric, malic;
    quantity::Volume water, juice;
    double juiceAcidShare = 0.06; // g acid per ml of the juice
};
struct StretchedAcid {
    double byPeelRulePercent = 0; // acid over water and juice, as the rule of the peel counts it
    double asCitricGPer100Ml = 0; // titratable, in the finished volume
    quantity::Volume finished;
};
std::optional<StretchedAcid> stretchedAcid(const StretchedJuice& made);

} // namespace stillroom::preparation
