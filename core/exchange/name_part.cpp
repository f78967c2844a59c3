#include "core/exchange/line_draft.h"

#include "core/exchange/line_phrases.h"
#include "core/exchange/name_words.h"
#include "core/exchange/number_words.h"

#include <algorithm>

namespace stillroom::exchange {

namespace {

bool isOpening(const Token& t) {
    return t.isMark("(") || t.isMark("[") || t.isMark("{");
}
bool isClosing(const Token& t) {
    return t.isMark(")") || t.isMark("]") || t.isMark("}");
}
bool isOr(const Token& t) {
    return t.isWord("or") || t.isWord("oder") || t.isWord("ou") || t.isWord("o") || t.isWord("of");
}

// Marks that close a name and say nothing.
bool isTrailingMark(const Token& t) {
    return t.isMark(".") || t.isMark(",") || t.isMark(";") || t.isMark("*") || t.isMark(":") ||
           t.isMark("†") || t.isMark("‡") || t.isMark("!") || t.isMark("-") || t.isMark("–") || t.isMark("|");
}

// A mark between the measure and the name: "2 oz: gin", "2 oz – gin".
bool leadsNothing(const Token& mark, const Token& next) {
    if (mark.isMark(",") || mark.isMark(":") || mark.isMark(";")) return true;
    const bool dash = mark.isMark("-") || mark.isMark("–");
    return (dash && mark.isTight()) || ((dash || mark.isMark("=")) && !next.isTight());
}

class NamePart {
  public:
    NamePart(const TokenLine& line, std::size_t first, std::size_t last, LineDraft& draft,
             const ReadOptions& options)
        : m_line(line),
          m_first(first),
          m_last(last),
          m_draft(draft),
          m_options(options) {}

    void read() {
        takeBrackets();
        trimMarks();
        if (!m_draft.equalParts) cutTail(); // there the commas list the parts
        cutNoteStarters();
        cutAlternatives();
        cutSuffixes(true);
        trimMarks();
        takeTrailingUnit();
        takeFruitJuice();
        finish();
    }

  private:
    const Token& kept(std::size_t i) const { return m_line.at(m_kept[i]); }

    // Brackets at any depth leave the name; what they say is read apart.
    void takeBrackets() {
        for (std::size_t i = m_first; i < m_last; ++i) {
            if (!isOpening(m_line.at(i))) {
                if (!isClosing(m_line.at(i))) m_kept.push_back(i);
                continue;
            }
            std::size_t depth = 1;
            std::size_t end = i + 1;
            for (; end < m_last; ++end) {
                if (isOpening(m_line.at(end))) ++depth;
                if (isClosing(m_line.at(end)) && --depth == 0) break;
            }
            aside(i + 1, end);
            i = end;
        }
    }

    void trimMarks() {
        while (!m_kept.empty() && isTrailingMark(kept(m_kept.size() - 1)))
            m_kept.pop_back();
        while (m_kept.size() > 1 && leadsNothing(kept(0), kept(1)))
            m_kept.erase(m_kept.begin());
    }

    // A remark beside the name: in brackets, or after a comma. `i` and `end` are tokens of the line.
    void aside(std::size_t i, std::size_t end) {
        while (end > i && isTrailingMark(m_line.at(end - 1)))
            --end;
        if (i >= end) return;
        std::string text = m_line.slice(i, end);
        if (phraseAt(Phrase::Optional, m_line, i) == end) m_draft.optional = true;
        if (phraseAt(Phrase::ToTaste, m_line, i) == end) m_draft.toTaste = true;
        if (asideRole(i, end)) return;
        if (phraseAt(Phrase::JuiceOf, m_line, i) == end) m_draft.juiceOf = true; // "1 lime, juice of"
        if (oneWord(i, end, {"juiced", "juice", "juice only", "ausgepresst", "pressed"}))
            m_draft.juiceOf = true;
        if (const auto amount = readAmountAt(m_line, i, end)) {
            const Equivalent stated{amount->number.amount, amount->unit};
            if (amount->next == end) m_draft.equivalents.push_back(stated);
            if (amount->next + 1 == end && m_line.at(amount->next).isWord("each") && !m_draft.eachHolds)
                m_draft.eachHolds = stated;
        }
        m_draft.note(std::move(text));
    }

    bool oneWord(std::size_t i, std::size_t end, std::initializer_list<std::string_view> words) const {
        if (end != i + 1) return false;
        return std::any_of(words.begin(), words.end(),
                           [&](std::string_view w) { return m_line.at(i).isWord(w); });
    }

    // "(rinse)", ", floated on top", ", to top up": where it enters. True when the words are used up.
    bool asideRole(std::size_t i, std::size_t end) {
        const auto role = [&](Phrase before, Phrase after, spec::Role value, std::string_view word) {
            const bool matches = phraseAt(after, m_line, i) == end ||
                                 (phraseAt(before, m_line, i) == end && value != spec::Role::Garnish);
            if (!matches) return false;
            if (value == spec::Role::Garnish)
                m_draft.garnish = true;
            else if (m_draft.roleWord.empty()) {
                m_draft.roleWord = word;
                m_draft.role = value;
            }
            if (m_draft.number || m_draft.unit || value == spec::Role::Garnish)
                m_draft.note(m_line.slice(i, end));
            return true;
        };
        return role(Phrase::RinseBefore, Phrase::RinseAfter, spec::Role::Rinse, "rinse") ||
               role(Phrase::FloatBefore, Phrase::FloatAfter, spec::Role::Floated, "float") ||
               role(Phrase::TopBefore, Phrase::TopAfter, spec::Role::Topped, "top") ||
               role(Phrase::GarnishBefore, Phrase::GarnishAfter, spec::Role::Garnish, "garnish");
    }

    bool onlyDescribers(std::size_t count) const {
        for (std::size_t k = 0; k < count; ++k)
            if (kept(k).kind == TokenKind::Word && !isDescriber(kept(k).folded)) return false;
        return true;
    }

    // Whether kept token k separates the name from what describes it.
    bool separates(std::size_t k) const {
        const Token& t = kept(k);
        const bool last = k + 1 >= m_kept.size();
        if (t.isMark(";") || t.isMark("|")) return true;
        if (t.isMark(",")) {
            const bool inNumber = !last && kept(k + 1).isTight() && kept(k + 1).kind == TokenKind::Digits &&
                                  k > 0 && kept(k - 1).kind == TokenKind::Digits;
            return !inNumber;
        }
        if (t.isMark("–") || t.isMark("-") || t.isMark("~"))
            return !t.isTight() && !last && !kept(k + 1).isTight();
        return false;
    }

    // "lime juice, freshly squeezed": everything after the comma is beside the name, piece by piece.
    void cutTail() {
        std::size_t cut = m_kept.size();
        for (std::size_t k = 1; k < m_kept.size(); ++k) {
            if (!separates(k) || onlyDescribers(k)) continue;
            cut = k;
            break;
        }
        if (cut == m_kept.size()) return;
        std::size_t begin = cut + 1;
        for (std::size_t k = cut + 1; k <= m_kept.size(); ++k) {
            if (k < m_kept.size() && !(separates(k) && !kept(k).isMark("-"))) continue;
            if (k > begin) aside(m_kept[begin], m_kept[k - 1] + 1);
            begin = k + 1;
        }
        m_kept.resize(cut);
    }

    void cutNoteStarters() {
        for (std::size_t k = 1; k < m_kept.size(); ++k) {
            if (phraseAt(Phrase::NoteStart, m_line, m_kept[k]) == 0) continue;
            if (const std::size_t end = m_kept.back() + 1;
                phraseAt(Phrase::GarnishAfter, m_line, m_kept[k]) != end &&
                phraseAt(Phrase::RinseAfter, m_line, m_kept[k]) != end &&
                phraseAt(Phrase::FloatAfter, m_line, m_kept[k]) != end &&
                phraseAt(Phrase::TopAfter, m_line, m_kept[k]) != end) {
                aside(m_kept[k], end);
                m_kept.resize(k);
            }
            return;
        }
    }

    // "egg white or 20 ml aquafaba": the first is the line, the others stand beside it.
    void cutAlternatives() {
        for (std::size_t k = 1; k + 1 < m_kept.size(); ++k) {
            if (!isOr(kept(k))) continue;
            const auto number = readNumber(m_line, m_kept[k + 1]);
            if (!number || number->refusal || number->vague || figureDescribes(m_line, number->next))
                continue;
            const std::size_t end = m_kept.back() + 1;
            m_draft.note(m_line.slice(m_kept[k], end));
            readAlternatives(k + 1);
            m_draft.doubt(DoubtCode::AlternativeNotChosen, DoubtWeight::Warn, m_line.slice(m_kept[k], end));
            m_kept.resize(k);
            return;
        }
    }

    void readAlternatives(std::size_t k) {
        std::size_t begin = k;
        for (std::size_t i = k; i <= m_kept.size(); ++i) {
            if (i < m_kept.size() && !isOr(kept(i))) continue;
            if (i > begin) {
                LineDraft other;
                const std::size_t first = m_kept[begin];
                const std::size_t last = m_kept[i - 1] + 1;
                if (const auto amount = readAmountAt(m_line, first, last)) {
                    const NameSense sense = senseOf(m_line, amount->next, last);
                    spec::Alternative alternative;
                    alternative.measured.amount = amount->number.amount;
                    alternative.measured.measure =
                        measureOf(amount->unit, sense.form == NameForm::Solid, m_options);
                    alternative.name = m_line.slice(amount->next, last);
                    m_draft.alternatives.push_back(std::move(alternative));
                } else if (const auto number = readNumber(m_line, first); number && number->next < last) {
                    spec::Alternative alternative;
                    alternative.measured = {number->amount, quantity::Measure::Piece, 1};
                    alternative.name = m_line.slice(number->next, last);
                    m_draft.alternatives.push_back(std::move(alternative));
                }
            }
            begin = i + 1;
        }
    }

    bool cutSuffix(Phrase phrase, const char* roleWord, spec::Role role) {
        if (m_kept.size() < 2) return false;
        const std::size_t end = m_kept.back() + 1;
        const std::size_t at = phraseBefore(phrase, m_line, m_kept.front() + 1, end);
        if (at == end) return false;
        std::string words = m_line.slice(at, end);
        while (!m_kept.empty() && m_kept.back() >= at)
            m_kept.pop_back();
        if (roleWord != nullptr && m_draft.roleWord.empty()) {
            m_draft.roleWord = roleWord;
            m_draft.role = role;
            if (kept(0).isWord("mit") && m_kept.size() > 1)
                m_kept.erase(m_kept.begin()); // "mit Soda auffüllen"
        }
        if (roleWord == nullptr || m_draft.number || m_draft.unit) m_draft.note(std::move(words));
        return true;
    }

    // "salt to taste", "Absinthe rinse", "red wine float"
    void cutSuffixes(bool again) {
        bool cut = false;
        if (cutSuffix(Phrase::ToTaste, nullptr, {})) cut = m_draft.toTaste = true;
        if (cutSuffix(Phrase::AsNeeded, nullptr, {})) cut = true;
        if (cutSuffix(Phrase::Optional, nullptr, {})) cut = m_draft.optional = true;
        if (cutSuffix(Phrase::GarnishAfter, nullptr, {})) cut = m_draft.garnish = true;
        cut |= cutSuffix(Phrase::RinseAfter, "rinse", spec::Role::Rinse);
        cut |= cutSuffix(Phrase::FloatAfter, "float", spec::Role::Floated);
        cut |= cutSuffix(Phrase::TopAfter, "top", spec::Role::Topped);
        if (!cut) return;
        trimMarks();
        if (again) cutSuffixes(false);
    }

    // "6 mint leaves" counts leaves
    void takeTrailingUnit() {
        if (!m_draft.number || m_draft.unit || m_draft.juiceOf || m_draft.partOf || m_kept.size() < 2) return;
        const auto unit = readTrailingUnit(m_line, m_kept.back());
        if (!unit) return;
        if (m_line.at(m_kept[m_kept.size() - 2]).isMark("-") || isOr(kept(m_kept.size() - 2))) return;
        m_draft.unit = *unit;
        m_kept.pop_back();
    }

    // "1/2 lime juice": half a lime's juice, or half of something of lime juice? A person must say.
    void takeFruitJuice() {
        if (!m_draft.number || m_draft.unit || m_kept.size() < 2 || m_draft.number->vague) return;
        if (!kept(m_kept.size() - 1).isWord("juice") || !isFruit(kept(m_kept.size() - 2).folded)) return;
        m_draft.note(m_line.slice(m_kept.back(), m_kept.back() + 1));
        m_draft.doubt(DoubtCode::MeasureGuessed, DoubtWeight::Ask,
                      m_line.slice(m_kept.front(), m_kept.back() + 1));
        m_draft.juiceOf = true;
        m_draft.unit = UnitRead{UnitWord::Piece, UnitSystem::Unsaid, 0, false, false, false};
        m_kept.pop_back();
    }

    void finish() {
        if (m_kept.empty()) return;
        m_draft.nameFirst = m_kept.front();
        m_draft.nameLast = m_kept.back() + 1;
        // runs of tokens as written, joined where a bracket stood
        std::size_t begin = 0;
        for (std::size_t k = 1; k <= m_kept.size(); ++k) {
            if (k < m_kept.size() && m_kept[k] == m_kept[k - 1] + 1) continue;
            const std::string run = m_line.slice(m_kept[begin], m_kept[k - 1] + 1);
            if (!m_draft.name.empty() && !run.empty() && m_line.at(m_kept[begin]).kind != TokenKind::Mark)
                m_draft.name.push_back(' ');
            m_draft.name += run;
            begin = k;
        }
        checkFigures();
    }

    // A figure left in the name must be one that describes: "100 %", "151 proof", "No. 4".
    void checkFigures() {
        for (std::size_t k = 0; k < m_kept.size(); ++k) {
            if (kept(k).kind != TokenKind::Digits && kept(k).kind != TokenKind::Vulgar) continue;
            if (isExplained(k)) continue;
            m_draft.doubt(DoubtCode::NumberUnclear, DoubtWeight::Ask, std::string(m_line.raw(m_kept[k])));
            return;
        }
    }

    bool isExplained(std::size_t k) const {
        if (isRatio(m_kept[k])) return true;
        std::size_t next = m_kept[k] + 1;
        // "2:1", "12-15", "47,5 %"
        while ((m_line.at(next).isMark(":") || m_line.at(next).isMark(".") || m_line.at(next).isMark(",") ||
                m_line.at(next).isMark("-")) &&
               m_line.at(next + 1).kind == TokenKind::Digits)
            next += 2;
        if (figureDescribes(m_line, m_kept[k] + 1) || figureDescribes(m_line, next)) return true;
        if (isBareProof(k) || m_line.raw(m_kept[k] + 1) == "C" || m_line.raw(m_kept[k] + 1) == "F")
            return true;
        for (std::size_t back = 1; back <= 3 && back <= m_kept[k]; ++back) {
            const Token& t = m_line.at(m_kept[k] - back);
            if (t.isMark(":") && m_line.at(m_kept[k] - back - 1).kind == TokenKind::Digits && back == 1)
                return true;
            if (t.isMark(".") || t.isMark("°") || t.isMark("-") || t.isMark("º")) continue;
            return t.isWord("no") || t.isWord("nr") || t.isWord("n") || t.isWord("number") || t.isMark("#") ||
                   t.isMark("№") || t.isWord("type") || t.isWord("numero");
        }
        return false;
    }

    // "1.5:1", "1:1,5": every figure about its colon. "2 to 1".
    bool isRatio(std::size_t at) const {
        const auto digits = [this](std::size_t i) { return m_line.at(i).kind == TokenKind::Digits; };
        if (m_line.at(at + 1).isWord("to") && digits(at + 2)) return true;
        if (at >= 2 && m_line.at(at - 1).isWord("to") && digits(at - 2)) return true;
        const auto part = [this](std::size_t i) {
            const Token& t = m_line.at(i);
            return t.kind == TokenKind::Digits || t.kind == TokenKind::Vulgar || t.isMark(".") ||
                   t.isMark(",") || t.isMark(":");
        };
        std::size_t first = at;
        while (first > 0 && m_line.at(first).isTight() && part(first - 1))
            --first;
        for (std::size_t i = first; i < m_line.size() && part(i) && (i == first || m_line.at(i).isTight());
             ++i)
            if (m_line.at(i).isMark(":") && i > first) return true;
        return false;
    }

    // "151 rum": proof without the word
    bool isBareProof(std::size_t k) const {
        const auto value = quantity::Rational::fromText(m_line.raw(m_kept[k]));
        if (!value || *value < quantity::Rational(80) || quantity::Rational(200) < *value) return false;
        return senseOf(m_line, m_kept[k] + 1, m_kept.back() + 1).strong;
    }

    const TokenLine& m_line;
    std::size_t m_first;
    std::size_t m_last;
    LineDraft& m_draft;
    const ReadOptions& m_options;
    std::vector<std::size_t> m_kept; // tokens of the name, in order
};

} // namespace

void readNamePart(const TokenLine& line, std::size_t first, std::size_t last, LineDraft& draft,
                  const ReadOptions& options) {
    NamePart(line, first, last, draft, options).read();
}

} // namespace stillroom::exchange
