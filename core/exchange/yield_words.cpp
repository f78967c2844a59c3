#include "core/exchange/yield_words.h"

#include "core/exchange/clean_text.h"
#include "core/exchange/measure_words.h"
#include "core/exchange/number_reader.h"

#include <unordered_set>

namespace stillroom::exchange {

namespace {

using WordSet = std::unordered_set<std::string_view>;

bool in(const WordSet& set, const Token& t) {
    return t.kind == TokenKind::Word && set.count(t.folded) != 0;
}

const WordSet& openers() {
    static const WordSet set{"serves", "serve",     "makes",   "make",  "yields",   "yield", "for", "party",
                             "of",     "recovered", "recover", "gives", "enough",   "pour",  "fur", "ergibt",
                             "para",   "per",       "a",       "batch", "produces", "recipe"};
    return set;
}
const WordSet& hedges() {
    static const WordSet set{"about", "approx", "approximately", "around",  "roughly",
                             "circa", "ca",     "etwa",          "environ", "some"};
    return set;
}
const WordSet& people() {
    static const WordSet set{"people",         "persons",   "person",   "guests",    "drinks",   "drink",
                             "cocktails",      "cocktail",  "servings", "serving",   "serves",   "portions",
                             "portion",        "portionen", "personen", "personnes", "personas", "porzioni",
                             "porciones",      "raciones",  "persone",  "glasses",   "glass",    "cups",
                             "cocktailglaser", "drinkers"};
    return set;
}

std::optional<Yield> read(std::string_view text, bool bareNumber) {
    const TokenLine line(cleanLine(text).text);
    std::size_t last = line.size();
    while (last > 0 &&
           (line.at(last - 1).isMark(".") || line.at(last - 1).isMark(":") || line.at(last - 1).isMark(")")))
        --last;
    std::size_t i = 0;
    bool said = bareNumber;
    Yield out;
    while (i < last) {
        const Token& t = line.at(i);
        if (in(openers(), t) && !(t.folded == "a" && i + 1 == last)) {
            said = said || (t.folded != "a" && t.folded != "of");
        } else if (in(hedges(), t) || t.isMark("~") || t.isMark("≈")) {
            out.approx = true;
        } else if (!t.isMark(":") && !t.isMark("(") && !t.isMark(".")) {
            break;
        }
        ++i;
    }
    const auto number = readNumber(line, i);
    if (!number || number->refusal || number->vague || !number->amount.isStated()) return std::nullopt;
    if (mixesMarks(*number)) return std::nullopt;
    out.amount = number->amount.low;
    out.approx = out.approx || number->amount.kind == quantity::Amount::Kind::Range;
    if (number->groupMark == GroupMark::Comma) out.amount = number->grouped;
    i = number->next;
    if (!(quantity::Rational(0) < out.amount)) return std::nullopt;
    if (i < last && in(people(), line.at(i)) && i + 1 == last) {
        out.unit = "drink";
        return out;
    }
    if (i == last && said) {
        out.unit = "drink";
        return out;
    }
    const auto unit = readUnit(line, i);
    if (!unit || unit->next < last) return std::nullopt;
    const auto measure = measureOf(*unit, false, {});
    if (!measure) return std::nullopt;
    out.unit = unitId(*measure);
    return out;
}

} // namespace

std::optional<Yield> readYield(std::string_view text) {
    return read(text, false);
}
std::optional<Yield> readYieldOfLabel(std::string_view text) {
    return read(text, true);
}

} // namespace stillroom::exchange
