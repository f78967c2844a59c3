#include "core/exchange/recipe_text.h"

#include "core/exchange/clean_text.h"
#include "core/exchange/headings.h"
#include "core/exchange/line_draft.h"
#include "core/exchange/line_phrases.h"
#include "core/exchange/method_words.h"
#include "core/exchange/name_words.h"

#include "core/base/text.h"

#include <algorithm>

namespace stillroom::exchange {

namespace {

std::string trimmed(std::string_view text) {
    return std::string(base::trimmed(text));
}

// People count before volume: "5 gallons, about 100 people" serves a hundred.
void keepBetter(std::optional<Yield>& best, const std::optional<Yield>& next) {
    if (next && (!best || next->unit == "drink")) best = next;
}

void takeBracketYield(TitleParts& parts) {
    const std::size_t open = parts.name.find('(');
    const std::size_t close = parts.name.find(')', open);
    if (open == std::string::npos || close == std::string::npos) return;
    const auto yield = readYield(parts.name.substr(open + 1, close - open - 1));
    if (!yield) return;
    keepBetter(parts.yield, yield);
    parts.name = trimmed(parts.name.substr(0, open) + parts.name.substr(close + 1));
}

void takeCommaYields(TitleParts& parts) {
    for (std::size_t comma = parts.name.rfind(','); comma != std::string::npos && comma > 0;
         comma = parts.name.rfind(',')) {
        const auto yield = readYield(parts.name.substr(comma + 1));
        if (!yield) return;
        keepBetter(parts.yield, yield);
        parts.name = trimmed(parts.name.substr(0, comma));
    }
}

bool isAbbreviation(std::string_view word) {
    static constexpr std::string_view kWords[] = {
        "oz",  "fl", "no", "nr", "tsp", "tbsp", "tbs", "approx", "ca", "lb", "lbs", "min", "sec",
        "vol", "st", "dr", "mr", "mrs", "c",    "e.g", "i.e",    "pt", "qt", "gal", "vs",  "etc"};
    std::string low = base::toLower(word);
    return std::find(std::begin(kWords), std::end(kWords), low) != std::end(kWords);
}

// The end of the list item that starts at `begin`: a comma before a figure or a spelled number starts the
// next.
std::vector<std::string> splitList(const std::string& sentence) {
    const TokenLine line(cleanLine(sentence).text);
    std::vector<std::string> items;
    std::size_t begin = 0;
    for (std::size_t i = 1; i < line.size(); ++i) {
        const bool comma = line.at(i - 1).isMark(",") || line.at(i - 1).isMark(";") ||
                           (line.at(i - 1).isWord("and") && i >= 2);
        const bool inNumber = i >= 2 && line.at(i - 2).kind == TokenKind::Digits && line.at(i).isTight();
        if (!comma || inNumber) continue;
        const auto number = readNumber(line, i);
        if (!number || number->refusal || figureDescribes(line, number->next)) continue;
        items.push_back(line.slice(begin, i - 1));
        begin = i;
    }
    items.push_back(line.slice(begin, line.size()));
    return items;
}

} // namespace

TitleParts splitTitle(std::string_view title) {
    TitleParts parts;
    parts.name = trimmed(title);
    for (const std::string_view dash : {" -- ", " — ", " – ", " - ", "--"}) {
        const std::size_t at = parts.name.find(dash);
        if (at == std::string::npos || at == 0) continue;
        const std::string rest = trimmed(parts.name.substr(at + dash.size()));
        if (rest.empty()) continue;
        const auto yield = readYield(rest);
        if (!yield && !(startsWithVerb(rest) && rest.find(' ') != std::string::npos)) continue;
        keepBetter(parts.yield, yield);
        if (!yield) parts.rest = rest;
        parts.name = trimmed(parts.name.substr(0, at));
        while (parts.name.size() > 1 && parts.name.back() == '.')
            parts.name.pop_back();
        break;
    }
    takeBracketYield(parts);
    takeCommaYields(parts);
    return parts;
}

std::vector<std::string> splitSentences(std::string_view text) {
    std::vector<std::string> out;
    std::size_t begin = 0;
    for (std::size_t i = 0; i + 1 < text.size(); ++i) {
        if (text[i] != '.' || text[i + 1] != ' ') continue;
        const std::size_t space = text.rfind(' ', i);
        const std::size_t word = space == std::string_view::npos ? 0 : space + 1;
        if (isAbbreviation(text.substr(word, i - word))) continue;
        out.push_back(trimmed(text.substr(begin, i + 1 - begin)));
        begin = i + 2;
    }
    if (std::string rest = trimmed(text.substr(std::min(begin, text.size()))); !rest.empty())
        out.push_back(std::move(rest));
    return out;
}

std::optional<InlinePart> readInlinePart(std::string_view text, const ReadOptions& options) {
    const TokenLine line(cleanLine(text).text);
    std::size_t first = 0;
    while (line.at(first).isMark("*") || line.at(first).isMark("†") || line.at(first).isMark("-") ||
           line.at(first).isMark("•"))
        ++first;
    std::size_t colon = first;
    while (colon < line.size() && colon < first + 9 && !line.at(colon).isMark(":"))
        ++colon;
    if (!line.at(colon).isMark(":") || colon == first || colon + 2 >= line.size()) return std::nullopt;
    if (headingAt(line, first, line.size()).section != Section::None) return std::nullopt;
    if (line.at(colon - 1).kind == TokenKind::Digits) return std::nullopt; // "2:1"
    const auto number = readNumber(line, colon + 1);
    if (!number || number->refusal || number->article || figureDescribes(line, number->next))
        return std::nullopt;
    const std::vector<std::string> sentences = splitSentences(line.slice(colon + 1, line.size()));
    InlinePart part;
    part.name = line.slice(first, colon);
    const std::vector<std::string> items = splitList(sentences.front());
    if (items.size() < 2 && sentences.size() < 2) return std::nullopt; // "Gin: 60 ml" is a line
    for (const std::string& item : items) {
        part.lines.push_back(readLineInText(item, options));
        if (part.lines.back().kind != ReadKind::Ingredient) return std::nullopt;
    }
    for (std::size_t i = 1; i < sentences.size(); ++i) {
        if (const auto yield = readYield(sentences[i]))
            part.yield = yield;
        else
            part.method.push_back(sentences[i]);
    }
    return part;
}

std::vector<std::string> splitGarnish(std::string_view text) {
    std::vector<std::string> out;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find(';', begin), text.size());
        if (std::string one = trimmed(text.substr(begin, end - begin)); !one.empty())
            out.push_back(std::move(one));
        begin = end + 1;
    }
    return out;
}

std::string withoutStepNumber(std::string_view text) {
    const std::string_view line = base::trimmed(text);
    std::size_t i = 0;
    while (i < line.size() && line[i] >= '0' && line[i] <= '9')
        ++i;
    const bool numbered =
        i > 0 && i < 3 && i + 1 < line.size() && (line[i] == '.' || line[i] == ')') && line[i + 1] == ' ';
    if (numbered) return trimmed(line.substr(i + 2));
    for (const std::string_view bullet : {"- ", "* ", "• ", "– "})
        if (line.substr(0, bullet.size()) == bullet) return trimmed(line.substr(bullet.size()));
    return std::string(line);
}

std::string afterGarnishWord(std::string_view text) {
    const TokenLine line(cleanLine(text).text);
    std::size_t first = 0;
    while (first < line.size() && line.at(first).kind == TokenKind::Mark)
        ++first;
    std::size_t at = phraseAt(Phrase::GarnishBefore, line, first);
    if (at == 0) return {};
    while (line.at(at).isMark(":") || line.at(at).isMark("-") || line.at(at).isMark("–") ||
           line.at(at).isMark("'") || line.at(at).isWord("with"))
        ++at;
    std::string words = line.slice(at, line.size());
    while (!words.empty() && words.back() == '.')
        words.pop_back();
    return words;
}

bool isSpiritName(std::string_view name) {
    return senseOf(name).strong;
}

} // namespace stillroom::exchange
