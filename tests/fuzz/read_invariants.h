#pragma once

#include "core/base/text.h"
#include "core/exchange/columns.h"
#include "core/exchange/read_text.h"

#include <algorithm>
#include <cmath>
#include <string>

// What holds of every reading, whatever the bytes. Returns the first thing that does not; empty when all do.
namespace stillroom::fuzz {

inline std::string brokenLine(const exchange::ReadLine& line) {
    const auto& amount = line.line.poured.amount;
    const double low = amount.low.toDouble();
    const double high = amount.high.toDouble();
    if (!std::isfinite(low) || !std::isfinite(high)) return "an amount that is no number";
    if (low < 0 || high < low) return "an amount below zero or upside down";
    if (!amount.isStated() && !(amount == quantity::Amount::none())) return "an unstated amount with figures";
    const bool usable =
        line.kind == exchange::ReadKind::Ingredient || line.kind == exchange::ReadKind::Garnish;
    if (!usable && line.kind != exchange::ReadKind::Fused && amount.isStated())
        return "an amount of no ingredient";
    if (usable && !base::isValidUtf8(line.line.name)) return "a name that is no UTF-8";
    if (usable && base::withoutControls(line.line.name) != line.line.name) return "controls in a name";
    const bool mustAsk = line.kind == exchange::ReadKind::Refused ||
                         line.kind == exchange::ReadKind::Unread || line.kind == exchange::ReadKind::Fused;
    if (mustAsk && !line.unsure && line.parts.empty()) return "a refused line that does not ask";
    if (mustAsk && line.doubts.empty() && line.parts.empty()) return "a refused line without its reason";
    for (const exchange::ReadLine& part : line.parts)
        if (std::string broken = brokenLine(part); !broken.empty()) return broken;
    return {};
}

// Every line with something to see stands in the preview, in order.
inline std::string lostLines(const std::string& text, const exchange::ReadResult& result) {
    std::size_t shown = 0;
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find_first_of("\r\n", begin), text.size());
        const std::string line = text.substr(begin, end - begin);
        begin = end + 1;
        const bool plain = std::any_of(line.begin(), line.end(), [](char c) {
            return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
        });
        if (!plain || line.size() > 4000) continue;
        const auto from = result.every.begin() + static_cast<std::ptrdiff_t>(shown);
        const auto found = std::find_if(from, result.every.end(),
                                        [&](const exchange::ReadLine& read) { return read.raw == line; });
        if (found == result.every.end()) return "lost the line: " + line;
        shown = static_cast<std::size_t>(found - result.every.begin()) + 1;
    }
    return {};
}

inline std::string brokenResult(const exchange::ReadResult& result) {
    for (const exchange::ReadLine& line : result.every)
        if (std::string broken = brokenLine(line); !broken.empty()) return broken + ": " + line.raw;
    for (const exchange::ReadRecipe& drink : result.drinks) {
        for (const exchange::ReadLine& line : drink.lines)
            if (std::string broken = brokenLine(line); !broken.empty()) return broken;
        if (drink.yield && !(quantity::Rational(0) < *drink.yield)) return "a yield of nothing";
    }
    if (result.problem == exchange::ReadProblem::None && result.drinks.empty() && result.every.empty())
        return "nothing read and nothing said";
    return {};
}

// An amount read in a line, written plainly and read again, is the same amount.
inline std::string brokenRoundTrip(const exchange::ReadLine& line) {
    const auto& poured = line.line.poured;
    if (line.kind != exchange::ReadKind::Ingredient || poured.amount.kind != quantity::Amount::Kind::Exact ||
        line.unsure)
        return {};
    if (poured.amount.low.denominator() > 1000 || poured.amount.low.numerator() > 1'000'000) return {};
    const auto again = exchange::readAmount(poured.amount.low.text());
    if (!again || !(again->amount == poured.amount))
        return "an amount that does not come back: " + poured.amount.low.text();
    return {};
}

inline std::string brokenReading(const std::string& bytes) {
    const exchange::ReadResult result = exchange::readText(bytes);
    if (std::string broken = brokenResult(result); !broken.empty()) return broken;
    const exchange::ReadLine line = exchange::readLine(bytes);
    if (std::string broken = brokenLine(line); !broken.empty()) return broken;
    if (std::string broken = brokenRoundTrip(line); !broken.empty()) return broken;
    const spec::Method method = exchange::readMethod(bytes.substr(0, 2000));
    if (method.seconds && method.seconds->isNegative()) return "a time below zero";
    if (const auto amount = exchange::readAmount(bytes); amount && amount->amount.low.isNegative())
        return "a negative amount accepted";
    return {};
}

} // namespace stillroom::fuzz
