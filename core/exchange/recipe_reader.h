#pragma once

#include "core/exchange/read_text.h"

#include <string>
#include <vector>

namespace stillroom::exchange {

// What the place a line was found in says about it: a page's lists, a JSON recipe's fields.
enum class LineHint : std::uint8_t { None, Title, Ingredient, Method, Note };

struct SourceLine {
    std::string text;
    int number = 0;
    bool recovered = false; // not all of its bytes were UTF-8
    LineHint hint = LineHint::None;
};

struct RecipeRead {
    ReadRecipe recipe;
    std::vector<ReadLine> every; // in order, one for each line that is not blank
};

// The structure of one recipe: title, lines, method, garnish, notes, and what is made apart for it.
RecipeRead readRecipe(const std::vector<SourceLine>& lines, const ReadOptions& options);

} // namespace stillroom::exchange
