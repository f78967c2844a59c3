#pragma once

#include "core/larder/ingredient.h"
#include "core/quantity/fraction.h"

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

// Facts that cannot be true together, or not under the name they stand beside.
namespace stillroom::larder {

enum class FactDoubt : std::uint8_t {
    SugarAboveName, // more sugar than the law lets this name have: "extra dry" at 40 g/l
    SugarBelowName, // less: a "liqueur" at 60 g/l
    StrengthBelowName,
    EthanolNotOfStrength, // a food table's ethanol makes another strength than the label's
    EthanolOfUnsweetened, // and it is that of a spirit of this strength without any sugar
};
std::string_view factDoubtId(FactDoubt doubt); // "sugar_above_name"

struct FoundDoubt {
    FactDoubt doubt = FactDoubt::SugarAboveName;
    double stated = 0;
    double limit = 0;        // the law's, or the strength computed; g/l or % vol
    std::string_view term;   // "extra dry"
    std::string_view source; // whose limit
    bool verified = false;   // the source was read
};

// The sugar and strength that a name in law allows, by the words of name and group. Empty where the name
// promises nothing or the fact is not known. A range is judged by its typical figure.
std::vector<FoundDoubt> doubtsOfName(const Ingredient& ingredient);

// One row of a food table, as such tables give it.
struct FoodRow {
    double ethanolGPer100G = 0;
    double gramsPerMl = 0;
    double sugarGPer100G = 0;
};
// The strength that the row's ethanol really makes; nullopt for figures that are none.
std::optional<quantity::Strength> strengthOfRow(const FoodRow& row);
// Against the strength on the label. Half a per cent vol is let pass.
std::optional<FoundDoubt> doubtOfRow(const FoodRow& row, quantity::Strength label);

} // namespace stillroom::larder
