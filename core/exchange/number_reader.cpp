#include "core/exchange/number_reader.h"

#include "core/exchange/number_words.h"
#include "core/exchange/single_number.h"

#include <algorithm>

namespace stillroom::exchange {

namespace {

using quantity::Amount;
using quantity::Rational;

class Reader {
  public:
    explicit Reader(const TokenLine& line) : m_line(line) {}

    std::optional<NumberRead> read(std::size_t at) {
        if (const auto odd = notANumber(at)) return odd;
        if (const auto negative = negativeNumber(at)) return negative;
        if (const auto between = betweenNumbers(at)) return between;
        const auto first = single(at);
        if (m_problem) return refused(at, *m_problem);
        if (!first) return std::nullopt;
        NumberRead out = fromSingle(*first, at);
        if (!first->vague && !first->article) extendToRange(out, *first, at);
        // "2 or so dashes"
        if (tok(out.next).isWord("or") && tok(out.next + 1).isWord("so")) out.next += 2;
        return out;
    }

  private:
    const Token& tok(std::size_t i) const { return m_line.at(i); }

    bool startsFigure(std::size_t at) const { return exchange::startsFigure(m_line, at); }
    NumberWord wordAt(std::size_t i) const { return numberWordAt(m_line, i); }
    std::optional<SingleNumber> single(std::size_t at) {
        SingleRead read = readSingle(m_line, at);
        if (read.problem) m_problem = read.problem;
        return std::move(read.number);
    }

    NumberRead refused(std::size_t at, DoubtCode code) const {
        NumberRead out;
        std::size_t last = at;
        while (last < m_line.size() && last < at + 6 && (last == at || tok(last).isTight()))
            ++last;
        out.next = last;
        out.refusal = Doubt{code, DoubtWeight::Refuse, m_line.slice(at, last)};
        return out;
    }

    std::optional<NumberRead> notANumber(std::size_t at) const {
        const Token& t = tok(at);
        const bool symbol = t.isMark("∞") || (t.kind == TokenKind::Symbol && m_line.raw(at) == "∞");
        if (symbol || isOneOf(t, {"nan", "inf", "infinity"})) return refused(at, DoubtCode::NotANumber);
        return std::nullopt;
    }

    std::optional<NumberRead> negativeNumber(std::size_t at) const {
        if (!tok(at).isMark("-") && !tok(at).isMark("−")) return std::nullopt;
        if (!startsFigure(at + 1) || !tok(at + 1).isTight()) return std::nullopt;
        return refused(at, DoubtCode::NegativeAmount);
    }

    std::optional<NumberRead> betweenNumbers(std::size_t at) {
        if (!isOneOf(tok(at), {"between", "zwischen", "entre", "tra"})) return std::nullopt;
        const auto low = single(at + 1);
        if (!low || numberWord(tok(low->next).folded).kind != NumberWordKind::And) return std::nullopt;
        const auto high = single(low->next + 1);
        if (!high) return std::nullopt;
        NumberRead out;
        out.next = high->next;
        out.amount = rangeOf(out, low->value, high->value, at);
        askOf(out, *low, at + 1);
        askOf(out, *high, low->next + 1);
        return out;
    }

    void askOf(NumberRead& out, const SingleNumber& s, std::size_t at) const {
        if (s.doubtful)
            out.doubts.push_back({DoubtCode::CommaAmbiguous, DoubtWeight::Ask, m_line.slice(at, s.next)});
    }

    NumberRead fromSingle(const SingleNumber& s, std::size_t at) const {
        NumberRead out;
        out.next = s.next;
        out.article = s.article;
        out.vague = s.vague;
        if (s.vague) {
            out.vagueWord = m_line.slice(s.next - 1, s.next);
            if (isOneOf(tok(out.next), {"of", "de", "di"})) ++out.next;
            return out;
        }
        out.amount = Amount::exact(s.value);
        out.groupMark = s.groupMark;
        out.grouped = s.grouped;
        out.decimal = s.decimal;
        out.slash = s.slash;
        askOf(out, s, at);
        // "a couple of dashes"
        if (wordAt(s.next - 1).kind == NumberWordKind::Couple && isOneOf(tok(s.next), {"of", "de", "di"}))
            ++out.next;
        if (wordAt(s.next - 1).kind == NumberWordKind::Dozen && isOneOf(tok(s.next), {"of", "de", "di"}))
            ++out.next;
        return out;
    }

    Amount rangeOf(NumberRead& out, const Rational& a, const Rational& b, std::size_t at) const {
        if (a == b) return Amount::exact(a);
        if (a < b) return Amount::range(a, b);
        out.doubts.push_back({DoubtCode::RangeOrFraction, DoubtWeight::Ask, m_line.slice(at, out.next)});
        return Amount::range(b, a);
    }

    // The token after a range connector that stands at `i`; 0 when none does.
    std::size_t afterConnector(std::size_t i, bool& isMark) const {
        isMark = tok(i).isMark("-") || tok(i).isMark("–") || tok(i).isMark("~") || tok(i).isMark("−");
        if (isMark) return i + 1;
        if (tok(i).isMark(".") && tok(i + 1).isMark(".") && tok(i + 1).isTight())
            return tok(i + 2).isMark(".") ? i + 3 : i + 2;
        if (isOneOf(tok(i), {"to", "or", "bis", "oder", "ou", "o", "a", "al", "hasta", "till", "tot", "of"}))
            return i + 1;
        return 0;
    }

    bool startsSecondNumber(std::size_t i) const {
        const NumberWordKind kind = wordAt(i).kind;
        return startsFigure(i) || kind == NumberWordKind::Cardinal;
    }

    void extendToRange(NumberRead& out, const SingleNumber& first, std::size_t at) {
        bool isMark = false;
        const std::size_t second = afterConnector(first.next, isMark);
        if (second == 0) return;
        bool again = false;
        if (isMark && afterConnector(second, again) != 0 && again && startsFigure(second + 1)) {
            out = refused(at, DoubtCode::NumberUnclear);
            return;
        }
        if (!startsSecondNumber(second)) return;
        // "1 of 2"? Dutch "of" means or; English "of" before a figure links nothing
        if (tok(first.next).isWord("of")) return;
        const auto high = single(second);
        if (m_problem) {
            out = refused(at, *m_problem);
            return;
        }
        if (!high || high->vague) return;
        out.next = high->next;
        bool thirdMark = false;
        if (const std::size_t third = afterConnector(high->next, thirdMark);
            third != 0 && thirdMark && startsFigure(third)) {
            out = refused(at, DoubtCode::NumberUnclear);
            return;
        }
        out.amount = rangeOf(out, first.value, high->value, at);
        askOf(out, *high, second);
        out.slash.reset();
        if (first.groupMark != GroupMark::None || high->groupMark != GroupMark::None) {
            out.groupMark = GroupMark::None;
            out.doubts.push_back({DoubtCode::CommaAmbiguous, DoubtWeight::Ask, m_line.slice(at, out.next)});
        }
    }

    const TokenLine& m_line;
    std::optional<DoubtCode> m_problem;
};

} // namespace

std::optional<NumberRead> readNumber(const TokenLine& line, std::size_t at) {
    return Reader(line).read(at);
}

bool mixesMarks(const NumberRead& number) {
    const auto mixed = [](const Doubt& doubt) {
        return doubt.code == DoubtCode::CommaAmbiguous && doubt.detail.find(',') != std::string::npos &&
               doubt.detail.find('.') != std::string::npos;
    };
    return std::any_of(number.doubts.begin(), number.doubts.end(), mixed);
}

bool figureDescribes(const TokenLine& line, std::size_t i) {
    const Token& t = line.at(i);
    if (t.isMark("%") || t.isMark("°") || t.isMark("º") || t.isMark("‰")) return true;
    if (t.isMark(":") && line.at(i + 1).kind == TokenKind::Digits) return true;
    const std::size_t word = t.isMark("-") ? i + 1 : i;
    const Token& w = line.at(word);
    if (isOneOf(w, {"proof",    "year",    "years",   "yr",      "yrs",        "yo",       "month",
                    "months",   "percent", "prozent", "pct",     "abv",        "vol",      "jahre",
                    "degrees",  "degree",  "deg",     "celsius", "fahrenheit", "jahriger", "jahrige",
                    "jahriges", "jahren",  "ans",     "anos",    "anni"}))
        return true;
    return t.isTight() && isOneOf(t, {"st", "nd", "rd", "th", "y", "er", "e"});
}

} // namespace stillroom::exchange
