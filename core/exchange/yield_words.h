#pragma once

#include "core/exchange/tokens.h"
#include "core/quantity/rational.h"

#include <optional>
#include <string>
#include <string_view>

namespace stillroom::exchange {

// How much a recipe makes: "serves 4", "party of 10", "about 300 ml", "5 gallons".
struct Yield {
    quantity::Rational amount;
    std::string unit; // "drink", or a measure's id
    bool approx = false;
};

// The yield that fills the whole text; nullopt when it says anything else.
std::optional<Yield> readYield(std::string_view text);
// Likewise of a label's content, where a bare number will do: "Serves: 4".
std::optional<Yield> readYieldOfLabel(std::string_view text);

} // namespace stillroom::exchange
