#include "core/exchange/line_draft.h"

#include "core/exchange/name_words.h"
#include "core/exchange/number_words.h"

namespace stillroom::exchange {

namespace {

using Border = std::pair<std::size_t, std::size_t>;

bool isSeparator(const Token& t) {
    return t.isMark(",") || t.isMark(";") || t.isMark("|") || t.isMark("+") || t.isMark("&") ||
           t.isMark("•") || t.isMark("·") || t.isMark("–") || t.isMark("/") ||
           (t.kind == TokenKind::Word && numberWord(t.folded).kind == NumberWordKind::And);
}

bool isCommaLike(const Token& t) {
    return t.isMark(",") || t.isMark(";") || t.isMark("|") || t.isMark("•") || t.isMark("·");
}

// Words after which a figure belongs to what stands before it.
bool bindsFigure(const Token& t) {
    static constexpr std::string_view kWords[] = {
        "or",    "oder", "ou",   "o",   "of",    "about", "approx", "circa", "ca",   "no",   "number",
        "nr",    "into", "to",   "at",  "in",    "per",   "each",   "x",     "by",   "with", "for",
        "from",  "bis",  "than", "a",   "minus", "less",  "shy",    "the",   "plus", "un",   "une",
        "makes", "size", "type", "vol", "the",   "de",    "over",   "under"};
    if (t.kind != TokenKind::Word) return false;
    for (const std::string_view word : kWords)
        if (t.folded == word) return true;
    return false;
}

bool isLength(const Token& t) {
    return t.isWord("cm") || t.isWord("mm") || t.isWord("inch") || t.isWord("inches") || t.isWord("in") ||
           t.isMark("\"");
}

class Splitter {
  public:
    Splitter(const TokenLine& line, std::size_t first, std::size_t last)
        : m_line(line),
          m_first(first),
          m_last(last) {}

    std::vector<Border> split() {
        std::vector<Border> parts;
        std::size_t begin = m_first;
        int depth = 0;
        for (std::size_t i = m_first; i < m_last; ++i) {
            if (m_line.at(i).isMark("(") || m_line.at(i).isMark("[")) ++depth;
            if (m_line.at(i).isMark(")") || m_line.at(i).isMark("]")) --depth;
            if (depth > 0 || i <= begin) continue;
            const std::size_t end = endBefore(begin, i);
            if (end == i + 1) continue;
            parts.emplace_back(begin, end);
            begin = i;
        }
        if (parts.empty()) return {};
        parts.emplace_back(begin, m_last);
        return parts;
    }

  private:
    // Where the part that began at `begin` ends if a new one starts at `i`; i + 1 when none does.
    std::size_t endBefore(std::size_t begin, std::size_t i) const {
        const std::size_t no = i + 1;
        const Token& before = m_line.at(i - 1);
        const bool separated = isSeparator(before);
        if (!startsNumber(i, separated)) return no;
        if (!separated && bindsFigure(before)) return no;
        const std::size_t end = separated ? i - 1 : i;
        if (!hasAmountAndName(begin, end)) return no;
        const auto number = readNumber(m_line, i);
        if (!number || number->refusal || figureDescribes(m_line, number->next)) return no;
        const auto unit = readUnit(m_line, number->next);
        if (unit && (separated || isStrong(unit->word))) {
            return nameFollows(unit->next) ? end : no;
        }
        if (!isCommaLike(before) || isLength(m_line.at(number->next))) return no;
        return countedFollows(number->next) ? end : no;
    }

    bool startsNumber(std::size_t i, bool separated) const {
        const Token& t = m_line.at(i);
        if (t.kind == TokenKind::Vulgar || t.kind == TokenKind::Digits) {
            // inside a number already begun: 1 1/2, 2.5
            const TokenKind before = m_line.at(i - 1).kind;
            if (before == TokenKind::Digits || before == TokenKind::Vulgar) return false;
            const Token& mark = m_line.at(i - 1);
            const bool joined = mark.kind == TokenKind::Mark && mark.isTight() && t.isTight();
            return !joined || (isCommaLike(mark) && i >= 2 && m_line.at(i - 2).kind == TokenKind::Word);
        }
        if (!separated || t.kind != TokenKind::Word) return false;
        const NumberWordKind kind = numberWord(t.folded).kind;
        if (kind == NumberWordKind::None || kind == NumberWordKind::And) return false;
        return true;
    }

    bool hasAmountAndName(std::size_t begin, std::size_t end) const {
        std::size_t i = begin;
        while (i < end && m_line.at(i).kind == TokenKind::Word && isQualifierWord(m_line.at(i).folded))
            ++i;
        const auto number = readNumber(m_line, i);
        std::size_t next = number ? number->next : i;
        if (number && number->refusal) return false;
        const auto unit = readUnit(m_line, next);
        if (!number && !(unit && unit->standsAlone)) return false;
        if (unit) next = unit->next;
        int depth = 0;
        for (std::size_t k = next; k < end; ++k) {
            if (m_line.at(k).isMark("(")) ++depth;
            if (m_line.at(k).isMark(")")) --depth;
            const Token& t = m_line.at(k);
            if (depth == 0 && (t.kind == TokenKind::Word || t.kind == TokenKind::Symbol) && !bindsFigure(t) &&
                !t.isWord("and"))
                return true;
        }
        return false;
    }

    bool nameFollows(std::size_t i) const {
        while (i < m_last &&
               (m_line.at(i).isWord("of") || m_line.at(i).isWord("de") || m_line.at(i).isWord("di") ||
                m_line.at(i).isMark("'") || m_line.at(i).isWord("d")))
            ++i;
        const Token& t = m_line.at(i);
        return i < m_last && (t.kind == TokenKind::Word || t.kind == TokenKind::Symbol ||
                              t.kind == TokenKind::Digits || t.isMark("("));
    }

    // "1 egg white" after a comma; not "2 pieces" of what was just named
    bool countedFollows(std::size_t i) const {
        if (i >= m_last || m_line.at(i).kind != TokenKind::Word) return false;
        std::size_t end = i;
        while (end < m_last && !isSeparator(m_line.at(end)) && !m_line.at(end).isMark("("))
            ++end;
        const NameSense sense = senseOf(m_line, i, end);
        const bool trailing = end > i + 1 && readTrailingUnit(m_line, end - 1).has_value();
        bool named = false; // "3 thin slices" of what was named before names nothing
        for (std::size_t k = i; k < end - (trailing ? 1 : 0); ++k)
            named |= m_line.at(k).kind == TokenKind::Word && !isQualifierWord(m_line.at(k).folded);
        if (!named) return false;
        return trailing || sense.form == NameForm::Countable;
    }

    const TokenLine& m_line;
    std::size_t m_first;
    std::size_t m_last;
};

} // namespace

std::vector<Border> fusedParts(const TokenLine& line, std::size_t first, std::size_t last) {
    return Splitter(line, first, last).split();
}

} // namespace stillroom::exchange
