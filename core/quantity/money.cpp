#include "core/quantity/money.h"

#include "core/quantity/currency_table.h"

#include <algorithm>
#include <charconv>
#include <limits>

namespace stillroom::quantity {

namespace {

__extension__ using Wide = __int128;

constexpr int kCostDecimals = 6;

constexpr std::int64_t powerOfTen(int exponent) {
    std::int64_t power = 1;
    for (int i = 0; i < exponent; ++i)
        power *= 10;
    return power;
}

bool allDigits(std::string_view text) {
    return !text.empty() &&
           std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

std::optional<std::int64_t> narrowed(Wide value) {
    constexpr Wide top = std::numeric_limits<std::int64_t>::max();
    if (value > top || value < -top) return std::nullopt;
    return static_cast<std::int64_t>(value);
}

// One more than `whole` when rest/divisor is above a half, or is a half and `whole` is odd. All >= 0.
Wide roundedHalfEven(Wide whole, Wide rest, Wide divisor) {
    const Wide missing = divisor - rest; // comparing this way cannot overflow
    return rest > missing || (rest == missing && whole % 2 != 0) ? whole + 1 : whole;
}

} // namespace

std::optional<Currency> Currency::fromCode(std::string_view code) {
    if (code.size() != 3 || code.find(' ') != std::string_view::npos) return std::nullopt;
    for (const CurrencyRow& row : kCurrencyTable) {
        for (std::size_t at = 0; at + 3 <= row.codes.size(); at += 4)
            if (row.codes.substr(at, 3) == code) return Currency{{code[0], code[1], code[2]}, row.exponent};
    }
    return std::nullopt;
}

std::optional<Money> Money::fromText(std::string_view amount, Currency currency) {
    const bool negative = !amount.empty() && amount.front() == '-';
    if (negative) amount.remove_prefix(1);
    std::string digits;
    std::size_t decimals = 0;
    if (const auto point = amount.find('.'); point != std::string_view::npos) {
        decimals = amount.size() - point - 1;
        if (decimals > currency.exponent || !allDigits(amount.substr(point + 1))) return std::nullopt;
        digits = amount.substr(point + 1);
        amount = amount.substr(0, point);
    }
    if (!allDigits(amount)) return std::nullopt;
    digits.insert(0, amount);
    digits.append(currency.exponent - decimals, '0');
    Money money{0, currency};
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), money.minor);
    if (error != std::errc{} || end != digits.data() + digits.size()) return std::nullopt;
    if (negative) money.minor = -money.minor;
    return money;
}

std::string Money::text() const {
    // Unsigned, so that the lowest int64 has a text too.
    const auto magnitude =
        minor < 0 ? 0 - static_cast<std::uint64_t>(minor) : static_cast<std::uint64_t>(minor);
    std::string digits = std::to_string(magnitude);
    if (currency.exponent > 0) {
        if (digits.size() <= currency.exponent) digits.insert(0, currency.exponent + 1 - digits.size(), '0');
        digits.insert(digits.size() - currency.exponent, 1, '.');
    }
    return (minor < 0 ? "-" : "") + digits;
}

std::optional<Cost> costOf(const Money& price, std::int64_t numerator, std::int64_t denominator) {
    if (denominator == 0 || price.currency.exponent > kCostDecimals) return std::nullopt;
    bool negative = false;
    const auto magnitude = [&negative](Wide value) {
        if (value < 0) negative = !negative;
        return value < 0 ? -value : value;
    };
    const Wide whole = magnitude(price.minor) * powerOfTen(kCostDecimals - price.currency.exponent);
    const Wide num = magnitude(numerator);
    const Wide den = magnitude(denominator);
    // whole*num/den without the product whole*num, which may need more than 128 bits: with
    // whole = q*den + r it is q*num + r*num/den, and r*num stays below 2^126.
    Wide result = 0;
    if (__builtin_mul_overflow(whole / den, num, &result)) return std::nullopt;
    const Wide rest = (whole % den) * num;
    if (__builtin_add_overflow(result, rest / den, &result)) return std::nullopt;
    result = roundedHalfEven(result, rest % den, den);
    const auto millionths = narrowed(negative ? -result : result);
    return millionths ? std::optional(Cost{*millionths}) : std::nullopt;
}

Money roundedToMoney(Cost cost, Currency currency) {
    const std::int64_t step = powerOfTen(kCostDecimals - std::min<int>(currency.exponent, kCostDecimals));
    const Wide magnitude = cost.millionths < 0 ? -static_cast<Wide>(cost.millionths) : cost.millionths;
    const Wide rounded = roundedHalfEven(magnitude / step, magnitude % step, step);
    return {static_cast<std::int64_t>(cost.millionths < 0 ? -rounded : rounded), currency};
}

} // namespace stillroom::quantity
