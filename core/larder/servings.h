#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::larder {

// What a country calls one standard drink: resources/handbook/servings.json. The figure is content, not
// advice.
struct StandardDrink {
    std::string code;            // ISO 3166 ("AU"), or "WHO"
    std::string name;            // "Australia"
    std::string called;          // "standard drink"; "unit" in the United Kingdom
    std::optional<double> grams; // of ethanol; nullopt: no single value is in use there
    bool verified = false;       // read in its source, not remembered
    std::string note;            // other values in use; may be empty
    std::string source;
    friend bool operator==(const StandardDrink&, const StandardDrink&) = default;
};

const std::vector<StandardDrink>& standardDrinks(); // in the file's order
// nullopt: not a list of standard drinks, or not a whole one.
std::optional<std::vector<StandardDrink>> standardDrinksFromJson(std::string_view json);
// By code, upper case; nullptr: not in the list.
const StandardDrink* standardDrinkOf(std::string_view code);

} // namespace stillroom::larder
