#include "core/exchange/weighed_shake.h"

#include "core/exchange/clean_text.h"
#include "core/exchange/number_reader.h"
#include "core/exchange/tokens.h"

#include <vector>

namespace stillroom::exchange {

namespace {

bool isGrams(const Token& unit) {
    return unit.isWord("g") || unit.isWord("gram") || unit.isWord("grams") || unit.isWord("gr");
}

std::optional<double> gramsAt(const TokenLine& line, std::size_t i) {
    const TokenKind kind = line.at(i).kind;
    if (kind != TokenKind::Digits || (i > 0 && line.at(i - 1).kind == TokenKind::Digits)) return std::nullopt;
    const auto number = readNumber(line, i);
    if (!number || number->refusal || !number->amount.isStated() ||
        number->amount.kind != quantity::Amount::Kind::Exact)
        return std::nullopt;
    if (!isGrams(line.at(number->next))) return std::nullopt;
    return number->amount.low.toDouble();
}

} // namespace

std::optional<WeighedShake> weighedShake(std::string_view methodText) {
    const TokenLine line{cleanLine(methodText).text};
    std::vector<double> grams;
    std::vector<bool> isAfter;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (const auto weight = gramsAt(line, i)) grams.push_back(*weight);
        if (line.at(i).isWord("before")) isAfter.push_back(false);
        if (line.at(i).isWord("after")) isAfter.push_back(true);
    }
    if (grams.size() != 2 || isAfter.size() != 2 || isAfter[0] == isAfter[1]) return std::nullopt;
    const double before = grams[isAfter[0] ? 1 : 0];
    const double after = grams[isAfter[0] ? 0 : 1];
    if (!(before > 0) || !(after >= before)) return std::nullopt;
    return WeighedShake{quantity::Mass::fromGrams(before), quantity::Mass::fromGrams(after)};
}

} // namespace stillroom::exchange
