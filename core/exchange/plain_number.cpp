#include "core/exchange/plain_number.h"

#include "core/base/text.h"

#include <algorithm>

namespace stillroom::exchange {

using quantity::Rational;

namespace {

bool isDigit(char c) {
    return c >= '0' && c <= '9';
}

std::string figures(std::string_view typed) {
    std::string text = base::toNfkc(base::trimmed(typed));
    constexpr std::string_view kMinus = "\u2212";
    if (text.compare(0, kMinus.size(), kMinus) == 0) text.replace(0, kMinus.size(), "-");
    return text;
}

std::string without(std::string text, std::string_view marks) {
    text.erase(std::remove_if(text.begin(), text.end(),
                              [&](char c) { return marks.find(c) != std::string_view::npos; }),
               text.end());
    return text;
}

// "1,000" and not "0,750" or "1,50".
bool couldGroup(std::string_view text) {
    if (!text.empty() && text.front() == '-') text.remove_prefix(1);
    const std::size_t comma = text.find(',');
    if (comma == 0 || comma > 3 || comma == std::string_view::npos || text.front() == '0') return false;
    const std::string_view after = text.substr(comma + 1);
    return after.size() == 3 && std::all_of(after.begin(), after.end(), isDigit);
}

} // namespace

tl::expected<std::string, NumberProblem> plainNumber(std::string_view typed) {
    std::string text = figures(typed);
    const auto commas = std::count(text.begin(), text.end(), ',');
    const bool onlyFigures = !text.empty() && std::all_of(text.begin(), text.end(), [](char c) {
        return isDigit(c) || c == '.' || c == ',' || c == '/' || c == '-';
    });
    if (!onlyFigures) return tl::unexpected(NumberProblem::NotANumber);
    if (commas > 0 && text.find('.') != std::string::npos)
        return tl::unexpected(NumberProblem::CommaAndPoint);
    if (commas == 1 && couldGroup(text)) return tl::unexpected(NumberProblem::CommaAmbiguous);
    std::replace(text.begin(), text.end(), ',', '.');
    if (!Rational::fromText(text)) return tl::unexpected(NumberProblem::NotANumber);
    return text;
}

tl::expected<Rational, NumberProblem> plainRational(std::string_view typed) {
    const auto text = plainNumber(typed);
    if (!text) return tl::unexpected(text.error());
    return *Rational::fromText(*text); // plainNumber has tried it
}

std::string plainlyWritten(std::string_view typed) {
    const std::string text = figures(typed);
    const auto problem = plainNumber(text);
    if (problem || problem.error() == NumberProblem::NotANumber) return {};
    if (problem.error() == NumberProblem::CommaAmbiguous) {
        std::string decimal = text;
        std::replace(decimal.begin(), decimal.end(), ',', '.');
        return without(text, ",") + " or " + decimal;
    }
    const std::size_t last = text.find_last_of(",.");
    const std::string written = without(text.substr(0, last), ",.") + "." + text.substr(last + 1);
    return Rational::fromText(written) ? written : std::string();
}

} // namespace stillroom::exchange
