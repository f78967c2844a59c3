#pragma once

#include "core/quantity/mass.h"

#include <optional>
#include <string_view>

namespace stillroom::exchange {

struct WeighedShake {
    quantity::Mass before;
    quantity::Mass after;
};

// "Measured: 85 g before, 130 g after": what went into the ice and what was strained off it. Only when a text
// says one weight with each of the two words, in their order, and the second is no less.
std::optional<WeighedShake> weighedShake(std::string_view methodText);

} // namespace stillroom::exchange
