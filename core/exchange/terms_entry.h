#pragma once

#include "core/quantity/rational.h"

#include <optional>
#include <string_view>

// What somebody types who says how a purchase is used: exact, a comma or a point marks decimals.
namespace stillroom::exchange {

// "15", "15 %", "12,5 per cent", "1/3": per cent. Any size and sign: core/larder says what cannot be.
std::optional<quantity::Rational> readPercent(std::string_view text);
// "5", "5 days", "2 weeks": whole days, 1 to 36,500.
std::optional<int> readDays(std::string_view text);

} // namespace stillroom::exchange
