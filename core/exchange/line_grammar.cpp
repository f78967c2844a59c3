#include "core/exchange/line_grammar.h"

#include "core/exchange/line_phrases.h"
#include "core/exchange/name_words.h"
#include "core/exchange/number_words.h"

#include <algorithm>

namespace stillroom::exchange {

using quantity::Amount;

LineDraft Grammar::read() {
    takeLeadingAsides();
    takeRolePrefix();
    if (takeJuiceOf()) return m_draft;
    takeEqualParts();
    takeLeadIn();
    takeQualifiers(false);
    takeAmount();
    if (m_draft.number && m_draft.number->refusal) {
        m_draft.name = m_line.slice(std::min(m_draft.number->next, m_last), m_last);
        return m_draft;
    }
    if (!m_draft.number && !m_draft.unit && takeTrailingAmount()) return m_draft;
    if (m_draft.unit) takeSecondMeasures();
    if (m_draft.unit) takeVesselWord();
    if (m_draft.number || m_draft.unit) skipLinks();
    readNamePart(m_line, m_at, m_last, m_draft, m_options);
    if (!m_draft.number && !m_draft.unit) adoptBracket();
    return m_draft;
}

// "(optional) 1 egg white", "Optional: 1 egg white"
void Grammar::takeLeadingAsides() {
    while (tok(m_at).isMark("(") || tok(m_at).isMark("[")) {
        std::size_t end = m_at + 1;
        while (end < m_last && !m_line.at(end).isMark(")") && !m_line.at(end).isMark("]"))
            ++end;
        if (end + 1 >= m_last) return;
        if (phraseAt(Phrase::Optional, m_line, m_at + 1) == end) m_draft.optional = true;
        m_draft.note(m_line.slice(m_at + 1, end));
        m_at = end + 1;
    }
    if (const std::size_t next = phraseAt(Phrase::Optional, m_line, m_at); next != 0 && next < m_last) {
        m_draft.optional = true;
        m_draft.note(m_line.slice(m_at, next));
        m_at = tok(next).isMark(":") || tok(next).isMark(",") ? next + 1 : next;
    }
    // "q.b. soda"
    if (const std::size_t next = phraseAt(Phrase::AsNeeded, m_line, m_at); next != 0 && next < m_last) {
        m_draft.note(m_line.slice(m_at, next));
        m_at = tok(next).isMark(".") && next + 1 < m_last ? next + 1 : next;
        if (tok(m_at).isWord("di") || tok(m_at).isWord("de")) ++m_at;
    }
}

void Grammar::takeRolePrefix() {
    const auto take = [&](Phrase phrase, const char* word, spec::Role role) {
        std::size_t next = phraseAt(phrase, m_line, m_at);
        if (next == 0 || next >= m_last) return false;
        const bool colon = tok(next).isMark(":");
        // "top" alone is a common word
        if (next == m_at + 1 && role == spec::Role::Topped && !colon && tok(next).kind != TokenKind::Digits &&
            tok(next).kind != TokenKind::Vulgar)
            return false;
        if (colon) ++next;
        if (next >= m_last) return false;
        m_draft.roleWord = word;
        m_draft.role = role;
        m_at = next;
        return true;
    };
    const bool taken = take(Phrase::RinseBefore, "rinse", spec::Role::Rinse) ||
                       take(Phrase::FloatBefore, "float", spec::Role::Floated) ||
                       take(Phrase::TopBefore, "top", spec::Role::Topped);
    m_prefixRole = taken;
    if (!taken) return;
    if (tok(m_at).isWord("the") || tok(m_at).isWord("of") || tok(m_at).isWord("some")) ++m_at;
    // "de l'eau", "l'eau", "du soda"
    const std::size_t article = tok(m_at).isWord("de") && tok(m_at + 1).isWord("l") ? m_at + 1 : m_at;
    if (tok(article).isWord("l") && tok(article + 1).isMark("'"))
        m_at = article + 2;
    else if (tok(m_at).isWord("du") || tok(m_at).isWord("de"))
        ++m_at;
}

bool Grammar::startsCount(std::size_t i) const {
    const Token& t = tok(i);
    if (t.kind == TokenKind::Digits || t.kind == TokenKind::Vulgar) return true;
    if (t.isMark(".") && tok(i + 1).kind == TokenKind::Digits) return true;
    if (t.kind != TokenKind::Word) return false;
    const NumberWordKind kind = numberWord(t.folded).kind;
    return kind != NumberWordKind::None && kind != NumberWordKind::And;
}

// "juice of half a lime", "zest of 1 orange": the count is of the fruit
bool Grammar::takeJuiceOf() {
    for (const Phrase phrase : {Phrase::JuiceOf, Phrase::PartOf}) {
        std::size_t i = phraseAt(phrase, m_line, m_at);
        if (i == 0) continue;
        const std::size_t phraseEnd = i;
        if (tok(i).isMark("'")) ++i;
        if (tok(i).isWord("the")) ++i;
        while (phraseAt(Phrase::About, m_line, i) != 0)
            i = phraseAt(Phrase::About, m_line, i);
        if (!startsCount(i)) continue;
        auto number = readNumber(m_line, i);
        if (!number || figureDescribes(m_line, number->next)) continue;
        m_draft.note(m_line.slice(m_at, phraseEnd));
        (phrase == Phrase::JuiceOf ? m_draft.juiceOf : m_draft.partOf) = true;
        m_draft.number = std::move(number);
        m_at = m_draft.number->next;
        if (m_draft.number->refusal) {
            m_draft.name = m_line.slice(std::min(m_at, m_last), m_last);
            return true;
        }
        m_draft.unit = UnitRead{UnitWord::Piece, UnitSystem::Unsaid, m_at, false, false, false};
        if (tok(m_at).isWord("of") || tok(m_at).isWord("a") || tok(m_at).isWord("an")) ++m_at;
        readNamePart(m_line, m_at, m_last, m_draft, m_options);
        return true;
    }
    return takeEggPart();
}

// "white of one egg" is an egg white, not an egg
bool Grammar::takeEggPart() {
    const bool white = tok(m_at).isWord("white") || tok(m_at).isWord("whites");
    const bool yolk = tok(m_at).isWord("yolk") || tok(m_at).isWord("yolks");
    if ((!white && !yolk) || !tok(m_at + 1).isWord("of") || !startsCount(m_at + 2)) return false;
    auto number = readNumber(m_line, m_at + 2);
    if (!number || number->refusal || !number->amount.isStated()) return false;
    const Token& egg = tok(number->next);
    if (!egg.isWord("egg") && !egg.isWord("eggs")) return false;
    m_draft.number = std::move(number);
    m_draft.unit = UnitRead{UnitWord::Piece, UnitSystem::Unsaid, m_at, false, false, false};
    const std::size_t part = m_at;
    readNamePart(m_line, m_draft.number->next, m_last, m_draft, m_options);
    if (!m_draft.name.empty()) m_draft.name = std::string("egg ").append(m_line.slice(part, part + 1));
    return true;
}

void Grammar::takeEqualParts() {
    const std::size_t next = phraseAt(Phrase::EqualParts, m_line, m_at);
    if (next == 0 || next >= m_last) return;
    m_draft.equalParts = true;
    m_draft.note(m_line.slice(m_at, next));
    NumberRead one;
    one.amount = Amount::exact(1);
    one.next = next;
    m_draft.number = one;
    m_draft.unit = UnitRead{UnitWord::Part, UnitSystem::Unsaid, next, false, false, true};
    m_at = tok(next).isMark(":") ? next + 1 : next;
    m_draft.doubt(DoubtCode::RatioBasisUnstated, DoubtWeight::Ask, m_draft.notes.back());
}

void Grammar::takeLeadIn() {
    if (m_draft.equalParts) return;
    std::size_t next = phraseAt(Phrase::LeadIn, m_line, m_at);
    if (tok(m_at).isMark("+") && tok(m_at + 1).kind != TokenKind::Mark) next = m_at + 1;
    if (next != 0 && (startsCount(next) || tok(m_at).isMark("+")) && !tok(next).isWord("a")) m_at = next;
    if (next != 0 && next < m_last && tok(next).isWord("a")) m_at = next;
}

// about, ~, up to, scant. `needUnit`: only when a measure follows them ("2 level teaspoons").
void Grammar::takeQualifiers(bool needUnit) {
    if (m_draft.equalParts) return;
    std::size_t i = m_at;
    std::vector<std::string> notes;
    spec::Qualifier found = spec::Qualifier::None;
    while (i < m_last) {
        if (const std::size_t next = wordQualifier(i, found, notes, needUnit)) {
            i = next;
            continue;
        }
        break;
    }
    if (i == m_at) return;
    const bool unitFollows = readUnit(m_line, i).has_value();
    const bool numberFollows = !needUnit && startsNumber(i);
    if (!(needUnit ? unitFollows : (unitFollows || numberFollows))) return;
    m_at = i;
    if (found != spec::Qualifier::None) m_draft.qualifier = found;
    for (std::string& note : notes)
        m_draft.note(std::move(note));
}

std::size_t Grammar::wordQualifier(std::size_t i, spec::Qualifier& found, std::vector<std::string>& notes,
                                   bool needUnit) const {
    const auto keep = [&](std::size_t next, spec::Qualifier q) {
        if (found == spec::Qualifier::None) found = q;
        notes.push_back(m_line.slice(i, next));
        return tok(next).isMark(".") && tok(next).isTight() && tok(next + 1).gap != Gap::None ? next + 1
                                                                                              : next;
    };
    if (tok(i).isMark("~") || tok(i).isMark("≈") || tok(i).isMark("±")) {
        found = spec::Qualifier::About;
        notes.emplace_back("about");
        return i + 1;
    }
    if (!needUnit) {
        if (const std::size_t next = phraseAt(Phrase::About, m_line, i); next != 0 && next < m_last)
            return keep(next, spec::Qualifier::About);
        if (tok(i).isWord("c") && tok(i + 1).isMark(".") && startsCount(i + 2))
            return keep(i + 1, spec::Qualifier::About);
    }
    if (const std::size_t next = phraseAt(Phrase::AtMost, m_line, i); next != 0 && next < m_last)
        return keep(next, spec::Qualifier::UpTo);
    if (const std::size_t next = phraseAt(Phrase::AtLeast, m_line, i); next != 0 && next < m_last)
        return keep(next, spec::Qualifier::None);
    if (tok(i).kind == TokenKind::Word && isQualifierWord(tok(i).folded)) {
        // "thin slices": the word must not be the measure itself, nor swallow one
        if (const auto unit = readUnit(m_line, i); unit && unit->next > i + 1) return 0;
        return keep(i + 1, qualifierOf(tok(i).folded));
    }
    if (needUnit && tok(i).isMark(",") && tok(i + 1).kind == TokenKind::Word &&
        isQualifierWord(tok(i + 1).folded))
        return i + 1;
    return 0;
}

LineDraft readIngredient(const TokenLine& line, std::size_t first, std::size_t last,
                         const ReadOptions& options) {
    return Grammar(line, first, last, options).read();
}

} // namespace stillroom::exchange
