#pragma once

#include "core/larder/ingredient.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

// Syrups by their ratio: sugar, honey, agave or maple to water, in parts by mass or by volume. The handbook
// holds the common ones; every other is a kind of its own, computed from the ratio, never a neighbour's.
namespace stillroom::larder {

enum class SyrupBasis : std::uint8_t { Unsaid, Mass, Volume };

// Granulated sugar in the cup, g/ml (measures, bulk densities: about 0.85).
inline constexpr double kGranulatedGPerMl = 0.85;

// A ratio as written in a name or beside it: "1.5:1 simple syrup by weight", "honey syrup, 2:1", "simple
// syrup (equal parts by volume)". Sweetener first.
struct RatioWords {
    std::uint32_t sweetMilli = 0, waterMilli = 0; // thousandths of a part; above 0
    SyrupBasis basis = SyrupBasis::Unsaid;
    std::string rest;          // the name without them: "simple syrup"
    std::string ratio() const; // "1.5:1"
};
// nullopt: no ratio, two of them, or a part that is not above 0 or above a thousand.
std::optional<RatioWords> ratioWords(std::string_view written);

struct RatioKinds {
    base::IngredientId first;                       // of the basis as said; by mass where the handbook has it
    std::optional<base::IngredientId> mass, volume; // when the basis is not said
};
// The kinds that a ratio makes of the sweetener or syrup which the rest of the name is. nullopt: that is
// neither, or a syrup of fruit, whose sugar is not its ratio alone.
std::optional<RatioKinds> ratioKinds(const RatioWords& words, const Ingredient& rest);

bool isOfSugar(const Ingredient& syrup); // and not of honey, agave or maple

// Such a kind by its id, in every book alike; nullptr: it is none. Sugar and density of an unsaid basis
// range over both. Lives as long as the program.
const Ingredient* ratioSyrup(base::IngredientId id);

} // namespace stillroom::larder
