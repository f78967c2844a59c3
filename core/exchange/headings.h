#pragma once

#include "core/exchange/tokens.h"

#include <cstdint>
#include <string>

namespace stillroom::exchange {

// What a heading or a label announces.
enum class Section : std::uint8_t {
    None,
    Title,
    Ingredients,
    Method,
    Garnish,
    Glass,
    Ice,
    Yield,
    Notes,
    Credit,
    Technique,
    Part, // "For the syrup": something made apart, or a group of lines
    Drink // "For the drink": back to the drink itself
};

struct Heading {
    Section section = Section::None;
    std::size_t next = 0; // the token after the label; the rest of the line is its content
    std::string name;     // of a Part: "syrup"
};

// A label at the start of [first, last): "Method", "Glass: coupe", "For the syrup (makes 300 ml):".
Heading headingAt(const TokenLine& line, std::size_t first, std::size_t last);

} // namespace stillroom::exchange
