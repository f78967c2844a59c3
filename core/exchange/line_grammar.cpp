#include "core/exchange/line_draft.h"

#include "core/exchange/line_phrases.h"
#include "core/exchange/name_words.h"
#include "core/exchange/number_words.h"

#include <algorithm>

namespace stillroom::exchange {

namespace {

using quantity::Amount;
using quantity::Rational;

bool isTimes(const Token& t) {
    return t.isWord("x") || t.isMark("×") || t.isMark("*");
}

class Grammar {
  public:
    Grammar(const TokenLine& line, std::size_t first, std::size_t last, const ReadOptions& options)
        : m_line(line),
          m_at(first),
          m_last(last),
          m_options(options) {}

    LineDraft read() {
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

  private:
    const Token& tok(std::size_t i) const { return i < m_last ? m_line.at(i) : m_end; }

    // "(optional) 1 egg white", "Optional: 1 egg white"
    void takeLeadingAsides() {
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

    void takeRolePrefix() {
        const auto take = [&](Phrase phrase, const char* word, spec::Role role) {
            std::size_t next = phraseAt(phrase, m_line, m_at);
            if (next == 0 || next >= m_last) return false;
            const bool colon = tok(next).isMark(":");
            // "top" alone is a common word
            if (next == m_at + 1 && role == spec::Role::Topped && !colon &&
                tok(next).kind != TokenKind::Digits && tok(next).kind != TokenKind::Vulgar)
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

    bool startsCount(std::size_t i) const {
        const Token& t = tok(i);
        if (t.kind == TokenKind::Digits || t.kind == TokenKind::Vulgar) return true;
        if (t.isMark(".") && tok(i + 1).kind == TokenKind::Digits) return true;
        if (t.kind != TokenKind::Word) return false;
        const NumberWordKind kind = numberWord(t.folded).kind;
        return kind != NumberWordKind::None && kind != NumberWordKind::And;
    }

    // "juice of half a lime", "zest of 1 orange": the count is of the fruit
    bool takeJuiceOf() {
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
    bool takeEggPart() {
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

    void takeEqualParts() {
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

    void takeLeadIn() {
        if (m_draft.equalParts) return;
        std::size_t next = phraseAt(Phrase::LeadIn, m_line, m_at);
        if (tok(m_at).isMark("+") && tok(m_at + 1).kind != TokenKind::Mark) next = m_at + 1;
        if (next != 0 && (startsCount(next) || tok(m_at).isMark("+")) && !tok(next).isWord("a")) m_at = next;
        if (next != 0 && next < m_last && tok(next).isWord("a")) m_at = next;
    }

    // about, ~, up to, scant. `needUnit`: only when a measure follows them ("2 level teaspoons").
    void takeQualifiers(bool needUnit) {
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

    bool startsNumber(std::size_t i) const { return startsCount(i); }

    std::size_t wordQualifier(std::size_t i, spec::Qualifier& found, std::vector<std::string>& notes,
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

    void takeAmount() {
        if (m_draft.equalParts) return;
        if (const auto container = containerAt(m_at)) {
            applyContainer(*container);
            return;
        }
        m_numberAt = m_at;
        auto number = readNumber(m_line, m_at);
        if (number && number->next > m_last) number.reset();
        if (number && number->refusal) {
            m_draft.number = std::move(number);
            return;
        }
        if (number && !figureDescribes(m_line, number->next) && !isNameFigure(*number)) {
            takeNumbered(std::move(*number));
            return;
        }
        takeBareUnit();
    }

    // "7up", "4th", "B52": letters stuck to the figure that are no measure
    bool isNameFigure(const NumberRead& number) const {
        const Token& next = tok(number.next);
        if (next.kind != TokenKind::Word || !next.isTight()) return false;
        if (m_line.at(number.next - 1).kind == TokenKind::Word) return false;
        return !readUnit(m_line, number.next) && !isTimes(next);
    }

    void takeNumbered(NumberRead number) {
        std::size_t i = number.next;
        // "a little salt"
        if (number.article && (tok(i).isWord("little") || tok(i).isWord("bit") || tok(i).isWord("tad") ||
                               tok(i).isWord("bisschen") || tok(i).isWord("peu") || tok(i).isWord("poco") ||
                               tok(i).isWord("po"))) {
            if (!readUnit(m_line, i + 1)) {
                m_draft.note(m_line.slice(m_at, i + 1));
                m_draft.numberMissing = true;
                m_at = i + 1;
                if (tok(m_at).isMark("'")) ++m_at;
                skipLinks();
                return;
            }
        }
        m_draft.number = std::move(number);
        if (m_draft.number->vague) m_draft.note(m_draft.number->vagueWord);
        m_at = i;
        if (takeLength()) return;
        if (isTimes(tok(m_at)) && takeMultiplied()) return;
        if (m_draft.number->vague && tok(m_at).isWord("of")) ++m_at;
        takeBracketBeforeUnit();
        takeQualifiers(true);
        takeUnit();
    }

    // "2-inch piece of ginger": the figure is a length; how many pieces is not said
    bool takeLength() {
        std::size_t i = m_at;
        if (tok(i).isMark("-") && tok(i).isTight()) ++i;
        const Token& t = tok(i);
        if (!t.isWord("inch") && !t.isWord("inches") && !t.isWord("cm") && !t.isWord("mm") &&
            !t.isMark("\"") && !t.isMark("”"))
            return false;
        m_draft.note(m_line.slice(m_numberAt, i + 1));
        m_draft.doubt(DoubtCode::MeasureGuessed, DoubtWeight::Ask, m_draft.notes.back());
        m_draft.number.reset();
        m_draft.numberMissing = true;
        m_at = i + 1;
        if (tok(m_at).isMark("-")) ++m_at;
        if (tok(m_at).isWord("piece") || tok(m_at).isWord("knob") || tok(m_at).isWord("length")) ++m_at;
        if (tok(m_at).isWord("of") && m_at + 1 < m_last) ++m_at;
        return true;
    }

    // "2 x 25 ml gin": 25 ml, twice
    bool takeMultiplied() {
        const std::size_t after = m_at + 1;
        const auto size = readAmountAt(m_line, after, m_last);
        if (!size) {
            // "2x limes"
            m_at = after;
            takeQualifiers(true);
            takeUnit();
            return true;
        }
        if (m_draft.number->amount.kind != Amount::Kind::Exact) return false;
        m_draft.multiplier = m_draft.number->amount.low;
        m_draft.number = size->number;
        m_draft.unit = size->unit;
        m_at = size->next;
        return true;
    }

    // "1 (750-ml) bottle": the size of the bottle stands before the word
    void takeBracketBeforeUnit() {
        if (!tok(m_at).isMark("(")) return;
        std::size_t end = m_at + 1;
        while (end < m_last && !m_line.at(end).isMark(")"))
            ++end;
        if (end >= m_last) return;
        std::size_t after = end + 1;
        if (!readUnit(m_line, after)) return;
        m_draft.note(m_line.slice(m_at + 1, end));
        m_at = after;
    }

    void takeUnit() {
        std::size_t i = m_at;
        if (tok(i).isMark("-") && tok(i).isTight() && readUnit(m_line, i + 1)) ++i;
        if (tok(i).isMark(".") && tok(i).isTight() && readUnit(m_line, i + 1)) ++i;
        auto unit = readUnit(m_line, i);
        if (!unit || unit->next > m_last) return;
        if (refusesUnit(*unit)) return;
        m_draft.unit = *unit;
        m_at = unit->next;
        takeAfterUnit();
    }

    // A measure word that is the name itself: "2 slices", "1 can", or "1 bitter lemon"
    bool refusesUnit(const UnitRead& unit) const {
        if (unit.next < m_last) return false;
        // nothing follows: a bare count of the thing named
        return isCounted(unit.word) && unit.word != UnitWord::Dash && unit.word != UnitWord::Drop;
    }

    // "a dash or two of bitters": one to two
    void takeOrTwo() {
        const Token& t = tok(m_at);
        if (!t.isWord("or") && !t.isWord("to") && !t.isWord("oder") && !t.isWord("ou") && !t.isWord("o"))
            return;
        const auto second = readNumber(m_line, m_at + 1);
        if (!second || second->refusal || second->article || second->amount.kind != Amount::Kind::Exact)
            return;
        if (figureDescribes(m_line, second->next) || readUnit(m_line, second->next)) return;
        Amount& first = m_draft.number->amount;
        if (first.kind != Amount::Kind::Exact || !(first.low < second->amount.low)) return;
        first = Amount::range(first.low, second->amount.low);
        m_at = second->next;
    }

    // "1 oz each gin and vermouth" is two ingredients, as a person must confirm
    void takeEach() {
        if (!tok(m_at).isWord("each") || m_at + 1 >= m_last) return;
        m_draft.doubt(DoubtCode::Fused, DoubtWeight::Ask, m_line.slice(m_at, m_last));
        m_draft.note(m_line.slice(m_at, m_at + 1));
        ++m_at;
    }

    // "an ounce and a half", "1 tbsp, heaped"
    void takeAfterUnit() {
        if (!m_draft.number || m_draft.number->vague) return;
        takeOrTwo();
        takeEach();
        if (tok(m_at).kind == TokenKind::Word && numberWord(tok(m_at).folded).kind == NumberWordKind::And) {
            if (const auto part = readNumber(m_line, m_at + 1);
                part && part->amount.kind == Amount::Kind::Exact && part->amount.low < Rational(1) &&
                m_draft.number->amount.kind == Amount::Kind::Exact && !readUnit(m_line, part->next)) {
                if (const auto sum = m_draft.number->amount.low.plus(part->amount.low)) {
                    m_draft.number->amount = Amount::exact(*sum);
                    m_at = part->next;
                }
            }
        }
        if (tok(m_at).kind == TokenKind::Word && m_at + 1 < m_last && isFillWord(tok(m_at).folded)) {
            m_draft.qualifier = qualifierOf(tok(m_at).folded);
            m_draft.note(m_line.slice(m_at, m_at + 1));
            ++m_at;
        }
    }

    // Describes how full a spoon is; never the start of a name.
    static bool isFillWord(std::string_view w) {
        static constexpr std::string_view kWords[] = {
            "heaped",     "heaping", "level", "rounded", "scant",   "rase",     "rases",
            "bombee",     "bombees", "rasa",  "rasas",   "colmada", "colmadas", "gehauft",
            "gestrichen", "raso",    "rasi",  "colmo",   "colmi"};
        return std::find(std::begin(kWords), std::end(kWords), w) != std::end(kWords);
    }

    // "dash of bitters", "dashes of bitters"
    void takeBareUnit() {
        const auto unit = readUnit(m_line, m_at);
        if (!unit || unit->next >= m_last) return;
        if (m_line.at(m_at).kind == TokenKind::Word && unit->word == UnitWord::Unsized &&
            !isLinkAt(unit->next))
            return;
        const bool qualified = m_draft.qualifier != spec::Qualifier::None;
        const bool linked = isLinkAt(unit->next);
        if (!unit->standsAlone && !linked && !qualified) {
            // "oz gin": a measure whose number is missing
            if (isVolume(unit->word) && !m_prefixRole)
                m_draft.doubt(DoubtCode::NumberUnclear, DoubtWeight::Ask, m_line.slice(m_at, unit->next));
            return;
        }
        // single letters and short forms need a number
        if (m_line.raw(m_at).size() < 3 && !linked) return;
        m_draft.unit = *unit;
        if (unit->plural) {
            m_draft.numberMissing = true;
            m_draft.note(m_line.slice(m_at, unit->next));
        } else {
            NumberRead one;
            one.amount = Amount::exact(1);
            one.next = unit->next;
            one.article = true;
            m_draft.number = one;
        }
        m_at = unit->next;
        if (m_draft.number) takeOrTwo();
    }

    bool isLinkAt(std::size_t i) const {
        return tok(i).isWord("of") || tok(i).isWord("de") || tok(i).isWord("di") || tok(i).isWord("d") ||
               tok(i).isWord("von");
    }

    struct Container {
        NumberRead count;
        NumberRead size;
        UnitRead sizeUnit;
        UnitRead unit;
        std::size_t sizeFirst = 0;
        std::size_t sizeLast = 0;
    };

    // "2 750-ml bottles", "One 12-oz can", "2 x 330 ml cans"
    std::optional<Container> containerAt(std::size_t at) const {
        for (std::size_t skip : {std::size_t(1), std::size_t(0)}) {
            Container c;
            std::size_t i = at;
            if (skip == 1 && tok(at).kind == TokenKind::Digits &&
                !(tok(at + 1).isTight() && !isTimes(tok(at + 1)))) {
                const auto value = Rational::fromText(m_line.raw(at));
                if (!value) return std::nullopt;
                c.count.amount = Amount::exact(*value);
                c.count.next = at + 1;
            } else if (skip == 0 && tok(at).kind == TokenKind::Word) {
                const auto count = readNumber(m_line, at);
                if (!count || count->refusal || count->vague) continue;
                c.count = *count;
            } else {
                continue;
            }
            i = c.count.next;
            if (isTimes(tok(i))) ++i;
            if (tok(i).kind != TokenKind::Digits && tok(i).kind != TokenKind::Vulgar) continue;
            const auto size = readAmountAt(m_line, i, m_last);
            if (!size || (!isVolume(size->unit.word) && size->unit.word != UnitWord::G)) continue;
            std::size_t next = size->next;
            if (tok(next).isMark("-")) ++next;
            while (tok(next).isWord("glass") || tok(next).isWord("small") || tok(next).isWord("large") ||
                   tok(next).isWord("chilled"))
                ++next;
            const auto unit = readUnit(m_line, next);
            if (!unit || !(isContainer(unit->word) || unit->word == UnitWord::Shot)) continue;
            c.size = size->number;
            c.sizeUnit = size->unit;
            c.unit = *unit;
            c.sizeFirst = i;
            c.sizeLast = size->next;
            return c;
        }
        return std::nullopt;
    }

    void applyContainer(const Container& c) {
        m_draft.number = c.count;
        m_draft.unit = c.unit;
        m_draft.note(m_line.slice(c.sizeFirst, c.sizeLast));
        // "3 1/2-oz cans": three of half an ounce, or some of three and a half?
        if (c.size.amount.low < Rational(1))
            m_draft.doubt(DoubtCode::NumberUnclear, DoubtWeight::Ask, m_line.slice(m_at, c.sizeLast));
        m_at = c.unit.next;
    }

    // What may stand between the measure and the name: "(45 ml)", "/ 60 ml", "plus 1 tsp", "to 2 oz".
    void takeSecondMeasures() {
        for (int guard = 0; guard < 4; ++guard) {
            if (!takeSlashEquivalent() && !takeSum() && !takeUnitRange()) return;
        }
    }

    // "330 ml can of cola": the measure is said; how many cans is not
    void takeVesselWord() {
        if (!isVolume(m_draft.unit->word) || !m_draft.number) return;
        const auto vessel = readUnit(m_line, m_at);
        if (!vessel || !isContainer(vessel->word) || vessel->next >= m_last) return;
        m_draft.doubt(DoubtCode::MeasureGuessed, DoubtWeight::Ask, m_line.slice(m_at, vessel->next));
        m_draft.note(m_line.slice(m_at, vessel->next));
        m_at = vessel->next;
    }

    bool takeSlashEquivalent() {
        const Token& t = tok(m_at);
        const bool slash = t.isMark("/") || t.isMark("|") || t.isMark("=") || t.isMark("≈");
        const bool orWord = t.isWord("or") || t.isWord("oder") || t.isWord("ou") || t.isWord("o");
        if (!slash && !orWord) return false;
        auto second = readAmountAt(m_line, m_at + 1, m_last);
        if (!second || second->number.vague) return false;
        if (orWord && second->next >= m_last) return false;
        if (orWord && second->unit.word == m_draft.unit->word) return takeUnitRange();
        m_draft.note(m_line.slice(orWord ? m_at : m_at + 1, second->next));
        m_draft.equivalents.push_back({second->number.amount, second->unit});
        m_at = second->next;
        return true;
    }

    // "1 oz to 2 oz", "30 ml – 45 ml", "2 oz - 60 ml"
    bool takeUnitRange() {
        const Token& t = tok(m_at);
        const bool mark = t.isMark("-") || t.isMark("–");
        if (!mark && !t.isWord("to") && !t.isWord("bis") && !t.isWord("or") && !t.isWord("a") &&
            !t.isWord("oder") && !t.isWord("ou") && !t.isWord("o"))
            return false;
        const auto second = readAmountAt(m_line, m_at + 1, m_last);
        if (!second || second->number.vague || second->number.article) return false;
        NumberRead& first = *m_draft.number;
        const bool exact =
            first.amount.kind == Amount::Kind::Exact && second->number.amount.kind == Amount::Kind::Exact;
        if (exact && second->unit.word == m_draft.unit->word &&
            first.amount.low < second->number.amount.low) {
            first.amount = Amount::range(first.amount.low, second->number.amount.low);
        } else if (mark) {
            m_draft.equivalents.push_back({second->number.amount, second->unit});
            m_draft.note(m_line.slice(m_at + 1, second->next));
        } else {
            m_draft.doubt(DoubtCode::RangeOrFraction, DoubtWeight::Ask, m_line.slice(m_at, second->next));
            m_draft.note(m_line.slice(m_at, second->next));
        }
        m_at = second->next;
        return true;
    }

    bool takeSum() {
        const Token& t = tok(m_at);
        const bool joins = t.isWord("plus") || t.isMark("+") || t.isMark("&") ||
                           (t.kind == TokenKind::Word && numberWord(t.folded).kind == NumberWordKind::And);
        const bool less = t.isWord("minus") || t.isWord("less") || t.isMark("−");
        if (!joins && !less) return false;
        auto second = readAmountAt(m_line, m_at + 1, m_last);
        if (!second || second->next >= m_last) return false;
        const std::string words = m_line.slice(m_at, second->next);
        if (joins && addWithin(*second)) {
            m_at = second->next;
            return true;
        }
        m_draft.note(words);
        m_draft.doubt(DoubtCode::NumberUnclear, DoubtWeight::Ask, words);
        m_at = second->next;
        return true;
    }

    // "1 oz plus 1 tsp" is 1 1/6 oz exactly: both by law in the same country
    bool addWithin(const AmountRead& second) {
        NumberRead& first = *m_draft.number;
        if (first.amount.kind != Amount::Kind::Exact || second.number.amount.kind != Amount::Kind::Exact)
            return false;
        const auto a = measureOf(*m_draft.unit, false, m_options);
        const auto b = measureOf(second.unit, false, m_options);
        if (!a || !b) return false;
        const auto& one = quantity::measureInfo(*a);
        const auto& other = quantity::measureInfo(*b);
        std::optional<Rational> ratio;
        if (one.exactMicrolitres && other.exactMicrolitres)
            ratio = other.exactMicrolitres->over(*one.exactMicrolitres);
        else if (one.exactMicrograms && other.exactMicrograms)
            ratio = other.exactMicrograms->over(*one.exactMicrograms);
        else if (*a == *b)
            ratio = Rational(1);
        if (!ratio) return false;
        const auto added = second.number.amount.low.times(*ratio);
        const auto sum = added ? first.amount.low.plus(*added) : std::nullopt;
        if (!sum) return false;
        first.amount = Amount::exact(*sum);
        return true;
    }

    // de, di, d', of after a measure belong to neither
    void skipLinks() {
        const auto isArticle = [&](std::size_t i) {
            return tok(i).isWord("the") || tok(i).isWord("la") || tok(i).isWord("le") || tok(i).isWord("l") ||
                   tok(i).isWord("les");
        };
        const bool afterNumberOnly = !m_draft.unit;
        if (afterNumberOnly && !tok(m_at).isWord("of")) return;
        if (tok(m_at).isWord("of") || tok(m_at).isWord("de") || tok(m_at).isWord("di") ||
            tok(m_at).isWord("von") || tok(m_at).isWord("van")) {
            if (m_at + 1 >= m_last) return;
            ++m_at;
            if (isArticle(m_at) && m_at + 1 < m_last) ++m_at;
            if (tok(m_at).isMark("'")) ++m_at;
            return;
        }
        if ((tok(m_at).isWord("d") || tok(m_at).isWord("dell")) && tok(m_at + 1).isMark("'")) {
            m_at += 2;
            return;
        }
        if (tok(m_at).isWord("du") || tok(m_at).isWord("des") || tok(m_at).isWord("del") ||
            tok(m_at).isWord("della") || tok(m_at).isWord("dello") || tok(m_at).isWord("do") ||
            tok(m_at).isWord("da"))
            ++m_at;
    }

    // "gin, 60 ml", "Gin 2 oz", "gin ..... 2 oz"
    bool takeTrailingAmount() {
        if (!m_draft.roleWord.empty() && m_prefixRole) return false;
        const std::size_t nameFirst = m_at;
        std::size_t last = m_last;
        while (last > nameFirst && (m_line.at(last - 1).isMark(".") || m_line.at(last - 1).isMark(",") ||
                                    m_line.at(last - 1).isMark(";")))
            --last;
        std::size_t measured = 0; // figures with a strong measure anywhere in the line
        int depth = 0;
        for (std::size_t i = nameFirst + 1; i < last; ++i) {
            if (m_line.at(i).isMark("(")) ++depth;
            if (m_line.at(i).isMark(")")) --depth;
            if (depth > 0) continue;
            const Token& t = m_line.at(i);
            const Token& before = m_line.at(i - 1);
            const bool figure = t.kind == TokenKind::Digits || t.kind == TokenKind::Vulgar;
            const bool inside = before.kind == TokenKind::Digits || before.kind == TokenKind::Vulgar ||
                                (before.kind == TokenKind::Mark && before.isTight() && t.isTight() &&
                                 !before.isMark(":") && !before.isMark(","));
            if (!figure || inside) continue;
            const auto amount = readAmountAt(m_line, i, last);
            if (!amount) continue;
            if (amount->next != last || !isStrong(amount->unit.word)) {
                measured += isStrong(amount->unit.word) ? 1 : 0;
                continue;
            }
            if (measured > 0) break;
            std::size_t end = i;
            while (end > nameFirst && m_line.at(end - 1).kind == TokenKind::Mark &&
                   !m_line.at(end - 1).isMark(")"))
                --end;
            if (end == nameFirst) break;
            m_draft.number = amount->number;
            m_draft.unit = amount->unit;
            readNamePart(m_line, nameFirst, end, m_draft, m_options);
            return true;
        }
        if (measured > 0) m_draft.unreadable = true;
        return false;
    }

    // "lime juice (30 ml)": the only amount there is
    void adoptBracket() {
        if (m_draft.equivalents.size() != 1 || !m_draft.roleWord.empty() || m_draft.numberMissing) return;
        const Equivalent& only = m_draft.equivalents.front();
        NumberRead number;
        number.amount = only.amount;
        m_draft.number = number;
        m_draft.unit = only.unit;
        m_draft.equivalents.clear();
    }

    const TokenLine& m_line;
    std::size_t m_at;
    std::size_t m_numberAt = 0;
    std::size_t m_last;
    const ReadOptions& m_options;
    LineDraft m_draft;
    bool m_prefixRole = false;
    Token m_end;
};

} // namespace

std::optional<AmountRead> readAmountAt(const TokenLine& line, std::size_t first, std::size_t last) {
    std::size_t i = first;
    while (i < last && (line.at(i).isMark("~") || line.at(i).isMark("≈") ||
                        (line.at(i).kind == TokenKind::Word && phraseAt(Phrase::About, line, i) != 0))) {
        const std::size_t next = phraseAt(Phrase::About, line, i);
        i = next != 0 ? next : i + 1;
        if (line.at(i).isMark(".") && line.at(i).isTight() && line.at(i + 1).gap != Gap::None) ++i;
    }
    auto number = readNumber(line, i);
    if (!number || number->refusal || number->next >= last || figureDescribes(line, number->next))
        return std::nullopt;
    std::size_t unitAt = number->next;
    if (line.at(unitAt).isMark("-") && line.at(unitAt).isTight()) ++unitAt;
    while (unitAt < last && line.at(unitAt).kind == TokenKind::Word &&
           isQualifierWord(line.at(unitAt).folded) && readUnit(line, unitAt + 1) && !readUnit(line, unitAt))
        ++unitAt;
    const auto unit = readUnit(line, unitAt);
    if (!unit || unit->next > last) return std::nullopt;
    return AmountRead{*number, *unit, unit->next};
}

LineDraft readIngredient(const TokenLine& line, std::size_t first, std::size_t last,
                         const ReadOptions& options) {
    return Grammar(line, first, last, options).read();
}

} // namespace stillroom::exchange
