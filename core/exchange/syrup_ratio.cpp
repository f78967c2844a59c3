#include "core/exchange/line_draft.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace stillroom::exchange {

namespace {

bool isAny(const Token& token, std::initializer_list<std::string_view> words) {
    return std::any_of(words.begin(), words.end(), [&](std::string_view word) { return token.isWord(word); });
}

bool holdsAny(const TokenLine& line, std::size_t first, std::size_t last,
              std::initializer_list<std::string_view> words) {
    for (std::size_t i = first; i < last; ++i)
        if (isAny(line.at(i), words)) return true;
    return false;
}

// "2:1" or "2 : 1"; empty: none.
std::string ratioIn(const TokenLine& line, std::size_t first, std::size_t last) {
    for (std::size_t i = first; i + 2 < last; ++i) {
        const bool ratio = line.at(i).kind == TokenKind::Digits && line.at(i + 1).isMark(":") &&
                           line.at(i + 2).kind == TokenKind::Digits;
        if (ratio) return std::string(line.raw(i)) + ":" + std::string(line.raw(i + 2));
    }
    return {};
}

} // namespace

void judgeRatio(const TokenLine& line, std::size_t first, std::size_t last, ReadLine& out) {
    if (out.kind != ReadKind::Ingredient) return;
    if (!holdsAny(line, first, last, {"syrup", "sirup", "sirop", "jarabe", "sciroppo", "zuckersirup"}))
        return;
    const std::string ratio = ratioIn(line, first, last);
    if (ratio.empty()) return;
    if (holdsAny(line, first, last,
                 {"weight", "mass", "wt", "weighed", "grams", "volume", "vol", "cup", "cups", "poids", "peso",
                  "gewicht", "volumen", "volumenteile"}))
        return;
    // Of another sweetener the parts are its own, and give other figures.
    const bool sugar = !holdsAny(line, first, last, {"honey", "agave", "maple", "honig", "miel", "miele"});
    std::string detail = sugar ? ratio : out.line.name;
    out.doubts.push_back({DoubtCode::RatioBasisUnstated, DoubtWeight::Warn, std::move(detail)});
}

} // namespace stillroom::exchange
