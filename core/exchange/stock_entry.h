#pragma once

#include "core/larder/ingredient.h"

#include <tl/expected.hpp>

#include <cstdint>
#include <string>
#include <string_view>

namespace stillroom::exchange {

enum class StockEntryProblem : std::uint8_t {
    NotAnAmount,
    BelowZero,
    TooLarge,    // above 10^9 ml, g or pieces: a slip of the pen
    UnitUnclear, // parts, dashes: nothing stands on a shelf in these
    NoPack,      // "2 bottles" of what has no pack with a size
};

struct StockEntry {
    double amount = 0;
    larder::PackUnit unit = larder::PackUnit::Ml;
    friend bool operator==(const StockEntry&, const StockEntry&) = default;
};

// What somebody types who looks at a shelf: "350 ml", "1.5 l", "2 kg", "12", "3 bottles". A bare number is in
// the unit it was counted in last, else its newest pack's, else ml (g of what is dry). Bottles, packs, boxes,
// cans and crates are so many of the newest pack.
tl::expected<StockEntry, StockEntryProblem> readStockAmount(std::string_view text,
                                                            const larder::Ingredient& ingredient);

// "350 ml", "1.2 kg", "12"; empty when nobody counted.
std::string stockAmountText(const larder::Stock& stock);

} // namespace stillroom::exchange
