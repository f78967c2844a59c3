#pragma once

#include "core/larder/cost_of.h"
#include "core/larder/larder.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace stillroom::larder {

// What nobody has said of an ingredient and a reading would ask for, as bits.
enum MissingBit : std::uint8_t { kNoStrength = 1, kNoSugar = 2, kNoAcid = 4, kNoAllergens = 8 };
std::uint8_t missingFacts(const FactState& facts); // a dry good is asked for no strength

// A price as people compare it: for 100 ml, 100 g or one piece, in the asked currency.
struct UnitPrice {
    double major = 0;
    PackUnit unit = PackUnit::Ml;
    int of = 100;
    friend bool operator==(const UnitPrice&, const UnitPrice&) = default;
};
tl::expected<UnitPrice, CostFault> unitPrice(const Larder& larder, const Ingredient& ingredient,
                                             const PriceQuestion& question);

// One row of the list of everything that can go in a drink, worked out once.
struct Listed {
    base::IngredientId id;
    IngredientSort sort = IngredientSort::Kind;
    bool own = false; // of the book; else a handbook kind nobody has touched
    std::string name;
    std::string kind;   // of a bottle the kind it is poured for, else the group of its facts; may be empty
    std::string folded; // name, aliases, kind and maker, for finding it
    std::optional<double> abvPercent;
    std::optional<UnitPrice> price;
    std::optional<CostProblem> noPrice; // why there is none
    Stock stock;
    std::uint8_t missing = 0; // MissingBit
};
// Own ones first, each in the order of people's lists.
std::vector<Listed> listed(const Larder& larder, const PriceQuestion& question);

} // namespace stillroom::larder
