#include "core/exchange/clean_text.h"
#include "core/exchange/headings.h"
#include "core/exchange/line_draft.h"
#include "core/exchange/line_phrases.h"
#include "core/exchange/read_text.h"

#include "core/base/text.h"
#include "core/exchange/name_words.h"

#include <algorithm>

namespace stillroom::exchange {

namespace {

// No writer's line is longer; a longer one is a file that lost its line breaks.
constexpr std::size_t kLongestLine = 4000;
constexpr std::size_t kShownOfLongLine = 400;

bool isBullet(const Token& t) {
    static constexpr std::string_view kBullets[] = {"•", "·", "*", "‣", "◦", "●", "○",  "▪", "■", "□",
                                                    "☐", "–", "-", "»", ">", "→", "✓",  "✔", "♦", "¤",
                                                    "›", "—", "∙", "⁃", "☑", "+", "\"", "“", "„", "«"};
    if (t.kind == TokenKind::Symbol) return true;
    if (t.kind != TokenKind::Mark) return false;
    for (const std::string_view bullet : kBullets)
        if (t.folded == bullet) return true;
    return false;
}

// "1. 50 ml vodka" is numbered; "1. gin" may be one of gin.
bool startsAfresh(const TokenLine& line, std::size_t i) {
    const Token& t = line.at(i);
    return t.kind == TokenKind::Digits || t.kind == TokenKind::Vulgar;
}

// The first token after bullets, check boxes and list numbers.
std::size_t afterDecoration(const TokenLine& line) {
    std::size_t i = 0;
    while (i < line.size()) {
        const Token& t = line.at(i);
        const Token& next = line.at(i + 1);
        if (isBullet(t) && i + 1 < line.size()) {
            const bool spaced = next.gap != Gap::None;
            const bool unmistakable =
                t.kind == TokenKind::Symbol || (t.folded != "-" && t.folded != "+" && t.folded != "–");
            const bool emphasis = t.folded == "*" && next.isMark("*");
            if (!spaced && !unmistakable && !emphasis) break;
            ++i;
            continue;
        }
        if (t.isMark("[") && (next.isMark("]") || line.at(i + 2).isMark("]"))) {
            i += next.isMark("]") ? 2 : 3;
            continue;
        }
        const bool lettered = t.kind == TokenKind::Word && t.end - t.begin == 1 && next.isTight() &&
                              next.isMark(")") && line.at(i + 2).gap != Gap::None;
        if (lettered && i + 2 < line.size()) {
            i += 2;
            continue;
        }
        const bool numbered = t.kind == TokenKind::Digits && next.isTight() &&
                              (next.isMark(")") || (next.isMark(".") && startsAfresh(line, i + 2))) &&
                              line.at(i + 2).gap != Gap::None;
        if (!numbered || i + 2 >= line.size()) break;
        i += 2;
    }
    return i;
}

std::size_t beforeDecoration(const TokenLine& line, std::size_t first) {
    std::size_t last = line.size();
    const bool quoted = first > 0 && (line.at(first - 1).isMark("\"") || line.at(first - 1).isMark("“") ||
                                      line.at(first - 1).isMark("„") || line.at(first - 1).isMark("«"));
    const auto closes = [&](const Token& t) {
        return t.isMark("*") ||
               (quoted && (t.isMark("\"") || t.isMark("”") || t.isMark("“") || t.isMark("»")));
    };
    while (last > first + 1 && closes(line.at(last - 1)))
        --last;
    return last;
}

bool hasWords(const TokenLine& line, std::size_t first, std::size_t last) {
    for (std::size_t i = first; i < last; ++i)
        if (line.at(i).kind != TokenKind::Mark) return true;
    return false;
}

void noteCleaning(const CleanLine& clean, ReadLine& out) {
    if (clean.hadControls) out.doubts.push_back({DoubtCode::ControlCharacters, DoubtWeight::Warn, {}});
    // what was shown may have been in another order than what is read
    if (clean.hadBidiControls) out.doubts.push_back({DoubtCode::BidiControls, DoubtWeight::Ask, {}});
}

ReadLine tooLong(std::string_view text) {
    ReadLine out;
    out.raw = base::elided(text, kShownOfLongLine);
    out.kind = ReadKind::Unread;
    out.unsure = true;
    out.line.written = out.raw;
    out.doubts.push_back({DoubtCode::LineTooLong, DoubtWeight::Refuse, std::to_string(text.size())});
    return out;
}

void readBody(const TokenLine& line, std::size_t first, std::size_t last, const ReadOptions& options,
              ReadLine& out) {
    settle(line, readIngredient(line, first, last, options), options, out);
    judgePlausibility(line, first, last, out);
    judgeRatio(out);
}

bool readFused(const TokenLine& line, std::size_t first, std::size_t last, const ReadOptions& options,
               ReadLine& out) {
    const auto borders = fusedParts(line, first, last);
    if (borders.size() < 2) return false;
    std::vector<ReadLine> parts;
    for (const auto& [begin, end] : borders) {
        ReadLine part;
        part.raw = line.slice(begin, end);
        part.line.written = part.raw;
        readBody(line, begin, end, options, part);
        if (part.kind != ReadKind::Ingredient) return false;
        parts.push_back(std::move(part));
    }
    out.kind = ReadKind::Fused;
    out.parts = std::move(parts);
    out.unsure = true;
    out.doubts.push_back({DoubtCode::Fused, DoubtWeight::Ask, line.slice(first, last)});
    return true;
}

bool readGarnish(const TokenLine& line, std::size_t first, std::size_t last, const ReadOptions& options,
                 ReadLine& out) {
    std::size_t at = phraseAt(Phrase::GarnishBefore, line, first);
    if (at == 0 || at >= last) return false;
    while (at < last && (line.at(at).isMark(":") || line.at(at).isMark("-") || line.at(at).isMark("–") ||
                         line.at(at).isMark("'")))
        ++at;
    if (line.at(at).isWord("with") || line.at(at).isWord("mit")) ++at;
    if (at >= last) return false;
    readBody(line, at, last, options, out);
    if (out.kind == ReadKind::Unread) out.line.name = line.slice(at, last);
    if (out.kind == ReadKind::Ingredient || out.kind == ReadKind::Unread) out.kind = ReadKind::Garnish;
    out.line.role = spec::Role::Garnish;
    return true;
}

} // namespace

ReadLine readLineInText(std::string_view text, const ReadOptions& options) {
    if (text.size() > kLongestLine) return tooLong(text);
    ReadLine out;
    out.raw = std::string(text);
    out.line.written = std::string(base::trimmed(text));
    const CleanLine clean = cleanLine(text);
    noteCleaning(clean, out);
    const TokenLine line(clean.text);
    std::size_t first = afterDecoration(line);
    const std::size_t last = beforeDecoration(line, first);
    if (!hasWords(line, first, last)) {
        out.kind = ReadKind::Note;
        return out;
    }
    const bool hash = line.at(first).isMark("#");
    while (line.at(first).isMark("#"))
        ++first;
    if (const Heading heading = headingAt(line, first, last); heading.section != Section::None || hash) {
        if (heading.next >= last || hash) {
            out.kind = ReadKind::Heading;
            return out;
        }
        if (heading.section != Section::Garnish && heading.section != Section::Ingredients) {
            out.kind = ReadKind::Note;
            out.line.note = line.slice(heading.next, last);
            return out;
        }
    }
    if (readGarnish(line, first, last, options, out)) return out;
    if (readFused(line, first, last, options, out)) return out;
    readBody(line, first, last, options, out);
    if (clean.hadBidiControls) out.unsure = true;
    return out;
}

namespace {

// Words without an amount, a measure, a role or anything the larder knows: "hello world how are you".
bool isProse(const ReadLine& read, const ReadOptions& options) {
    const spec::Line& line = read.line;
    const bool bare = read.kind == ReadKind::Ingredient && !line.poured.amount.isStated() &&
                      !line.poured.measure && read.unit.empty() && line.note.empty() && !line.toTaste &&
                      !line.optional && !line.juiceOf && read.doubts.empty();
    constexpr std::size_t kMostOfAName = 3;
    if (!bare) return false;
    const std::vector<std::string> words = base::foldedWords(line.name);
    if (words.size() <= kMostOfAName || senseOf(line.name).form != NameForm::Unknown) return false;
    static const larder::Larder handbook;
    const larder::Larder& larder = options.larder != nullptr ? *options.larder : handbook;
    if (larder.match(line.name).quality != larder::MatchQuality::None) return false;
    return std::none_of(words.begin(), words.end(), [&](const std::string& word) {
        const auto quality = larder.match(word).quality;
        return quality == larder::MatchQuality::Exact || quality == larder::MatchQuality::Ambiguous ||
               senseOf(word).form != NameForm::Unknown;
    });
}

} // namespace

ReadLine readLine(std::string_view text, const ReadOptions& options) {
    ReadLine out = readLineInText(text, options);
    if (!isProse(out, options)) return out;
    out.kind = ReadKind::Unread;
    out.doubts.push_back({DoubtCode::NumberUnclear, DoubtWeight::Ask, out.line.written});
    out.unsure = true;
    return out;
}

} // namespace stillroom::exchange
