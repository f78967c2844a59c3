#pragma once

#include "core/physics/heat.h"
#include "core/quantity/mass.h"

#include <span>
#include <string_view>

namespace stillroom::spec {

// What drinks are shaken, stirred and warmed in. No published mass was found for any of them: these are
// assumed, no source, and a weighed one replaces them (Method::vesselGrams).
struct Vessel {
    std::string_view id; // "steel_tins"; stable, enters files
    std::string_view name;
    physics::Material material;
    quantity::Mass assumedMass;
};

std::span<const Vessel> vessels();
const Vessel* vesselById(std::string_view id) noexcept; // nullptr when there is none

} // namespace stillroom::spec
