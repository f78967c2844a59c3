#include "core/spec/vessels.h"

#include <algorithm>
#include <array>

namespace stillroom::spec {

using physics::Material;
using quantity::Mass;

namespace {

constexpr std::array<Vessel, 7> kVessels{
    {{"steel_tins", "pair of steel tins", Material::Steel, Mass::fromGrams(400)},
     {"cobbler", "three-piece steel shaker", Material::Steel, Mass::fromGrams(350)},
     {"mixing_glass", "mixing glass", Material::SodaLimeGlass, Mass::fromGrams(700)},
     {"steel_pitcher", "steel pitcher", Material::Steel, Mass::fromGrams(400)},
     {"porcelain_mug", "porcelain mug", Material::Porcelain, Mass::fromGrams(350)},
     {"glass_mug", "handled glass mug", Material::SodaLimeGlass, Mass::fromGrams(300)},
     {"copper_pan", "copper pan", Material::Copper, Mass::fromGrams(900)}}};

} // namespace

std::span<const Vessel> vessels() {
    return kVessels;
}

const Vessel* vesselById(std::string_view id) noexcept {
    const auto* found =
        std::find_if(kVessels.begin(), kVessels.end(), [id](const Vessel& v) { return v.id == id; });
    return found == kVessels.end() ? nullptr : &*found;
}

} // namespace stillroom::spec
