#include "core/exchange/read_text.h"

#include "core/exchange/clean_text.h"
#include "core/exchange/line_draft.h"

#include <algorithm>

namespace stillroom::exchange {

namespace {

bool asks(const NumberRead& number) {
    return std::any_of(number.doubts.begin(), number.doubts.end(),
                       [](const Doubt& d) { return d.weight == DoubtWeight::Ask; });
}

} // namespace

std::optional<spec::Measured> readAmount(std::string_view text) {
    constexpr std::size_t kLongestAmount = 80;
    if (text.size() > kLongestAmount) return std::nullopt;
    const TokenLine line(cleanLine(text).text);
    if (line.size() == 0) return std::nullopt;
    auto number = readNumber(line, 0);
    if (!number || number->refusal || number->vague || !number->amount.isStated()) return std::nullopt;
    if (figureDescribes(line, number->next)) return std::nullopt;
    spec::Measured out;
    const bool times = line.at(number->next).isWord("x") || line.at(number->next).isMark("×");
    if (times && number->amount.kind == quantity::Amount::Kind::Exact) {
        out.multiplier = number->amount.low;
        number = readNumber(line, number->next + 1);
        if (!number || number->refusal || !number->amount.isStated()) return std::nullopt;
    }
    out.amount = number->amount;
    std::size_t next = number->next;
    if (next < line.size()) {
        if (line.at(next).isMark("-") && line.at(next).isTight()) ++next;
        const auto unit = readUnit(line, next);
        if (!unit || unit->next != line.size()) return std::nullopt;
        out.measure = measureOf(*unit, false, {});
        if (!out.measure) return std::nullopt;
    }
    // in a cell of its own, "1,000 ml" is a thousand and "0,75" three quarters; what could be both is no
    // amount
    if (number->groupMark != GroupMark::None) {
        const bool small = out.measure == quantity::Measure::Ml || out.measure == quantity::Measure::G;
        if (number->groupMark == GroupMark::Comma && small)
            out.amount = quantity::Amount::exact(number->grouped);
        else if (number->groupMark == GroupMark::Point)
            out.amount = quantity::Amount::exact(number->decimal);
        else
            return std::nullopt;
    }
    if (asks(*number)) return std::nullopt;
    return out;
}

} // namespace stillroom::exchange
