#pragma once

#include <array>
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace stillroom::quantity {

// ISO 4217: three letters and how many decimals its minor unit has.
struct Currency {
    std::array<char, 3> code{'E', 'U', 'R'};
    std::uint8_t exponent = 2;

    static std::optional<Currency> fromCode(std::string_view code); // nullopt when not in ISO 4217
    std::string_view text() const { return {code.data(), code.size()}; }
    friend auto operator<=>(const Currency&, const Currency&) = default;
};

// A price: whole minor units (cents), never a double.
struct Money {
    std::int64_t minor = 0;
    Currency currency;

    // "12.50" in the currency's own decimals; refuses more decimals than it has, and overflow.
    static std::optional<Money> fromText(std::string_view amount, Currency currency);
    std::string text() const; // "12.50"
    friend auto operator<=>(const Money&, const Money&) = default;
};

// A cost inside a sum: integer millionths of a major unit. Rounded to Money once, when shown.
struct Cost {
    std::int64_t millionths = 0;

    double major() const { return static_cast<double>(millionths) / 1e6; }
    friend auto operator<=>(const Cost&, const Cost&) = default;
};

// price x numerator / denominator in millionths, half to even, 128-bit inside. nullopt on overflow or
// a denominator of zero.
std::optional<Cost> costOf(const Money& price, std::int64_t numerator, std::int64_t denominator);
Money roundedToMoney(Cost cost, Currency currency); // half to even

} // namespace stillroom::quantity
