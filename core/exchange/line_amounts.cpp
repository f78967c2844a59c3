#include "core/exchange/line_grammar.h"

#include "core/exchange/line_phrases.h"
#include "core/exchange/name_words.h"
#include "core/exchange/number_words.h"

#include <algorithm>

namespace stillroom::exchange {

using quantity::Amount;
using quantity::Rational;

namespace {

bool isTimes(const Token& t) {
    return t.isWord("x") || t.isMark("×") || t.isMark("*");
}

} // namespace

void Grammar::takeAmount() {
    if (m_draft.equalParts) return;
    if (const auto container = containerAt(m_at)) {
        applyContainer(*container);
        return;
    }
    m_numberAt = m_at;
    auto number = readNumber(m_line, m_at);
    const bool inside = number && number->next <= m_last;
    if (inside && number->refusal) {
        m_draft.number = std::move(number);
        return;
    }
    if (inside && !figureDescribes(m_line, number->next) && !isNameFigure(*number)) {
        takeNumbered(std::move(*number));
        return;
    }
    takeBareUnit();
}

// "7up", "4th", "B52": letters stuck to the figure that are no measure
bool Grammar::isNameFigure(const NumberRead& number) const {
    const Token& next = tok(number.next);
    if (next.kind != TokenKind::Word || !next.isTight()) return false;
    if (m_line.at(number.next - 1).kind == TokenKind::Word) return false;
    return !readUnit(m_line, number.next) && !isTimes(next);
}

void Grammar::takeNumbered(NumberRead number) {
    std::size_t i = number.next;
    // "a little salt"
    if (number.article &&
        (tok(i).isWord("little") || tok(i).isWord("bit") || tok(i).isWord("tad") ||
         tok(i).isWord("bisschen") || tok(i).isWord("peu") || tok(i).isWord("poco") || tok(i).isWord("po"))) {
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
bool Grammar::takeLength() {
    std::size_t i = m_at;
    if (tok(i).isMark("-") && tok(i).isTight()) ++i;
    const Token& t = tok(i);
    if (!t.isWord("inch") && !t.isWord("inches") && !t.isWord("cm") && !t.isWord("mm") && !t.isMark("\"") &&
        !t.isMark("”"))
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
bool Grammar::takeMultiplied() {
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
void Grammar::takeBracketBeforeUnit() {
    if (!tok(m_at).isMark("(")) return;
    std::size_t end = m_at + 1;
    while (end < m_last && !m_line.at(end).isMark(")"))
        ++end;
    if (end >= m_last) return;
    std::size_t after = end + 1;
    if (!readUnit(m_line, after)) return;
    m_draft.note(m_line.slice(m_at + 1, end));
    if (const auto size = readAmountAt(m_line, m_at + 1, end); size && size->next == end)
        m_draft.eachHolds = Equivalent{size->number.amount, size->unit};
    m_at = after;
}

void Grammar::takeUnit() {
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
bool Grammar::refusesUnit(const UnitRead& unit) const {
    if (unit.next < m_last) return false;
    // nothing follows: a bare count of the thing named
    return isCounted(unit.word) && unit.word != UnitWord::Dash && unit.word != UnitWord::Drop;
}

// "a dash or two of bitters": one to two
void Grammar::takeOrTwo() {
    const Token& t = tok(m_at);
    if (!t.isWord("or") && !t.isWord("to") && !t.isWord("oder") && !t.isWord("ou") && !t.isWord("o")) return;
    const auto second = readNumber(m_line, m_at + 1);
    if (!second || second->refusal || second->article || second->amount.kind != Amount::Kind::Exact) return;
    if (figureDescribes(m_line, second->next) || readUnit(m_line, second->next)) return;
    Amount& first = m_draft.number->amount;
    if (first.kind != Amount::Kind::Exact || !(first.low < second->amount.low)) return;
    first = Amount::range(first.low, second->amount.low);
    m_at = second->next;
}

// "1 oz each gin and vermouth" is two ingredients, as a person must confirm
void Grammar::takeEach() {
    if (!tok(m_at).isWord("each") || m_at + 1 >= m_last) return;
    m_draft.doubt(DoubtCode::Fused, DoubtWeight::Ask, m_line.slice(m_at, m_last));
    m_draft.note(m_line.slice(m_at, m_at + 1));
    ++m_at;
}

// "an ounce and a half", "1 tbsp, heaped"
void Grammar::takeAfterUnit() {
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
bool Grammar::isFillWord(std::string_view w) {
    static constexpr std::string_view kWords[] = {"heaped", "heaping", "level",    "rounded", "scant",
                                                  "rase",   "rases",   "bombee",   "bombees", "rasa",
                                                  "rasas",  "colmada", "colmadas", "gehauft", "gestrichen",
                                                  "raso",   "rasi",    "colmo",    "colmi"};
    return std::find(std::begin(kWords), std::end(kWords), w) != std::end(kWords);
}

// "dash of bitters", "dashes of bitters"
void Grammar::takeBareUnit() {
    const auto unit = readUnit(m_line, m_at);
    if (!unit || unit->next >= m_last) return;
    if (m_line.at(m_at).kind == TokenKind::Word && unit->word == UnitWord::Unsized && !isLinkAt(unit->next))
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

bool Grammar::isLinkAt(std::size_t i) const {
    return tok(i).isWord("of") || tok(i).isWord("de") || tok(i).isWord("di") || tok(i).isWord("d") ||
           tok(i).isWord("von");
}

// "2 750-ml bottles", "One 12-oz can", "2 x 330 ml cans"
std::optional<Grammar::Container> Grammar::containerAt(std::size_t at) const {
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

void Grammar::applyContainer(const Container& c) {
    m_draft.number = c.count;
    m_draft.unit = c.unit;
    m_draft.note(m_line.slice(c.sizeFirst, c.sizeLast));
    m_draft.eachHolds = Equivalent{c.size.amount, c.sizeUnit};
    // "3 1/2-oz cans": three of half an ounce, or some of three and a half?
    if (c.size.amount.low < Rational(1))
        m_draft.doubt(DoubtCode::NumberUnclear, DoubtWeight::Ask, m_line.slice(m_at, c.sizeLast));
    m_at = c.unit.next;
}

// What may stand between the measure and the name: "(45 ml)", "/ 60 ml", "plus 1 tsp", "to 2 oz".
void Grammar::takeSecondMeasures() {
    for (int guard = 0; guard < 4; ++guard) {
        if (!takeSlashEquivalent() && !takeSum() && !takeUnitRange()) return;
    }
}

// "330 ml can of cola": the measure is said; how many cans is not
void Grammar::takeVesselWord() {
    if (!isVolume(m_draft.unit->word) || !m_draft.number) return;
    const auto vessel = readUnit(m_line, m_at);
    if (!vessel || !isContainer(vessel->word) || vessel->next >= m_last) return;
    m_draft.doubt(DoubtCode::MeasureGuessed, DoubtWeight::Ask, m_line.slice(m_at, vessel->next));
    m_draft.note(m_line.slice(m_at, vessel->next));
    m_at = vessel->next;
}

bool Grammar::takeSlashEquivalent() {
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
bool Grammar::takeUnitRange() {
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
    if (exact && second->unit.word == m_draft.unit->word && first.amount.low < second->number.amount.low) {
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

bool Grammar::takeSum() {
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
bool Grammar::addWithin(const AmountRead& second) {
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
void Grammar::skipLinks() {
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
bool Grammar::takeTrailingAmount() {
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
void Grammar::adoptBracket() {
    if (m_draft.equivalents.size() != 1 || !m_draft.roleWord.empty() || m_draft.numberMissing) return;
    const Equivalent& only = m_draft.equivalents.front();
    NumberRead number;
    number.amount = only.amount;
    m_draft.number = number;
    m_draft.unit = only.unit;
    m_draft.equivalents.clear();
}

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
    // "hot water, 90 C" is a temperature, not cups
    constexpr int kMostCups = 20;
    if (line.raw(unitAt) == "C" && Rational(kMostCups) < number->amount.high) return std::nullopt;
    return AmountRead{*number, *unit, unit->next};
}

} // namespace stillroom::exchange
