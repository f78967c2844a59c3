#include "core/exchange/terms_entry.h"

#include "core/base/text.h"
#include "core/exchange/plain_number.h"

#include <algorithm>
#include <string>

namespace stillroom::exchange {

using quantity::Rational;

namespace {

constexpr std::int64_t kLongestDays = 36'500; // a century: more is a slip of the pen

struct NumberAndWord {
    std::optional<Rational> number;
    std::string word;
};

NumberAndWord parted(std::string_view written) {
    std::string text = base::toLower(base::toNfkc(base::trimmed(written)));
    constexpr std::string_view kMinus = "\u2212";
    if (text.compare(0, kMinus.size(), kMinus) == 0) text.replace(0, kMinus.size(), "-");
    const auto end = std::find_if_not(text.begin(), text.end(), [](char c) {
        return (c >= '0' && c <= '9') || c == '.' || c == ',' || c == '/' || c == '-';
    });
    const auto number = plainRational(std::string(text.begin(), end));
    return {number ? std::optional(*number) : std::nullopt,
            std::string(
                base::trimmed(std::string_view(text).substr(static_cast<std::size_t>(end - text.begin()))))};
}

} // namespace

std::optional<Rational> readPercent(std::string_view text) {
    const auto [number, word] = parted(text);
    const bool percent = word.empty() || word == "%" || word == "per cent" || word == "percent";
    return percent ? number : std::nullopt;
}

std::optional<int> readDays(std::string_view text) {
    const auto [number, word] = parted(text);
    if (!number || number->denominator() != 1) return std::nullopt;
    const bool weeks = word == "w" || word == "week" || word == "weeks";
    if (!weeks && !word.empty() && word != "d" && word != "day" && word != "days") return std::nullopt;
    const auto days = number->times(weeks ? 7 : 1);
    if (!days || days->numerator() < 1 || days->numerator() > kLongestDays) return std::nullopt;
    return static_cast<int>(days->numerator());
}

} // namespace stillroom::exchange
