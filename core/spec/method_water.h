#pragma once

#include "core/spec/scenario.h"

#include <optional>

// The water a method adds to what was poured: stated, weighed in as ice, balanced against the ice's heat, or
// predicted from the strength.
namespace stillroom::spec {

class HeatParts;

struct Water {
    double ratio = 0;
    WaterBasis basis = WaterBasis::None;
    bool applies = true;
    bool estimate = false;
    double chilledC = 0; // of a heat balance: where it ended
    double allIceG = 0;  // of AllIce, whole
};

// The method carries a dilution that somebody typed or measured.
bool isStated(const Method& method) noexcept;
Water statedWater(const DilutionEntry& entry) noexcept;

// The drink touches ice that is taken out again.
bool meetsIce(const Spec& spec) noexcept;

Water predictedWater(const Spec& spec, quantity::Strength before, const Scenario& scenario,
                     Questions& questions) noexcept;

// From the heat of the drink, its ice and its vessel; nothing where the balance cannot be struck.
std::optional<Water> balancedWater(const Spec& spec, const HeatParts& parts, bool assumedStart,
                                   double beforeMl) noexcept;

// Of a blended drink whose ice has a weight; nothing otherwise.
std::optional<Water> blendedWater(const Spec& spec, const Bindings::Data& data, double beforeMl) noexcept;

} // namespace stillroom::spec
