#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::exchange {

// A schema.org Recipe as found in a page, in words; its lines are still to be read.
struct JsonRecipe {
    std::string name;
    std::string yield; // as written: "2", "8 servings"
    std::string credit;
    std::vector<std::string> ingredients;
    std::vector<std::string> method;
    std::vector<std::string> sections; // names of the method's sections, outer before inner
    std::vector<std::string> notes;
};

enum class JsonOutcome { Found, NoRecipe, Invalid, TooDeep };

struct JsonRead {
    JsonOutcome outcome = JsonOutcome::NoRecipe;
    JsonRecipe recipe;
};

// The first Recipe in a JSON-LD text: in @graph, in arrays, with ingredients as text, list or objects, and
// instructions as text, steps, sections within sections or item lists. Depth is measured before parsing.
JsonRead readJsonRecipe(std::string_view json);
bool looksLikeJson(std::string_view text);

} // namespace stillroom::exchange
