#pragma once

#include "core/larder/facts.h"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// The allergens that have to be named: the 14 of Regulation (EU) 1169/2011 Annex II and the 9 of the US
// (FALCPA 2004, FASTER Act 2021); from memory of the legal lists, both widely restated. Local law comes
// first.
namespace stillroom::larder {

struct AllergenClass {
    std::string_view id;
    std::string_view name;
};
const std::array<AllergenClass, 14>& euAllergenClasses(); // in the order of the Annex; ids as facts name them
const std::array<AllergenClass, 9>& usAllergenClasses();

// The US class of a European one. "gluten" is wheat only where the cereal is wheat, which the facts do not
// say. nullopt: the US names none (celery, mustard, sulphites, lupin, molluscs).
struct UsClass {
    std::string_view id;
    bool certain = true;
};
std::optional<UsClass> usClassOf(std::string_view euId);

// What facts say of allergens. Unknown is never none: without `complete`, others may be in it.
struct AllergenReading {
    std::vector<std::string> eu;      // in the order of the Annex
    std::vector<std::string> us;      // in the order of the US list
    std::vector<std::string> usMayBe; // wheat, of a cereal nobody named
    std::vector<std::string> other;   // what a person wrote beyond the lists
    bool complete = true;             // everything in it states its allergens
    friend bool operator==(const AllergenReading&, const AllergenReading&) = default;
};
AllergenReading allergensOf(const FactState& facts);
// Of a mixture: everything any part contains; complete when all parts are.
AllergenReading together(const std::vector<AllergenReading>& parts);

// Why a thing made of an allergen states none: what the Annex exempts. A spirit distilled from cereals, whey
// or nuts is exempt, a liqueur of them is not, and neither is a spirit that something was put into
// afterwards. nullopt: no exemption is needed or none is known to apply.
std::optional<std::string_view> exemptionOf(const FactState& facts);
const std::array<std::string_view, 5>& euExemptions();

// Sulphites have to be named above this, as SO2 in what is served, mg per kg or litre. No fact of ours states
// them in mg: where they are stated they are named.
inline constexpr double kSulphitesNamedAboveMg = 10;

} // namespace stillroom::larder
