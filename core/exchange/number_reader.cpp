#include "core/exchange/number_reader.h"

#include "core/exchange/number_words.h"

#include <algorithm>
#include <array>
#include <charconv>

namespace stillroom::exchange {

namespace {

using quantity::Amount;
using quantity::Rational;

bool oneOf(const Token& token, std::initializer_list<std::string_view> words) {
    return token.kind == TokenKind::Word &&
           std::find(words.begin(), words.end(), token.folded) != words.end();
}

// One number, before ranges: a figure, a fraction, a spelled number.
struct Single {
    Single() = default;
    Single(Rational v, std::size_t after) : value(v), next(after) {}
    Rational value;
    std::size_t next = 0;
    bool whole = false; // plain figures: may start a mixed number
    bool article = false;
    bool vague = false;
    bool doubtful = false;
    GroupMark groupMark = GroupMark::None;
    Rational grouped;
    Rational decimal;
    std::optional<std::pair<std::int64_t, std::int64_t>> slash;
};

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
        if (symbol || oneOf(t, {"nan", "inf", "infinity"})) return refused(at, DoubtCode::NotANumber);
        return std::nullopt;
    }

    bool startsFigure(std::size_t at) const {
        const Token& t = tok(at);
        return t.kind == TokenKind::Digits || t.kind == TokenKind::Vulgar ||
               (t.isMark(".") && tok(at + 1).kind == TokenKind::Digits && tok(at + 1).isTight());
    }

    std::optional<NumberRead> negativeNumber(std::size_t at) const {
        if (!tok(at).isMark("-") && !tok(at).isMark("−")) return std::nullopt;
        if (!startsFigure(at + 1) || !tok(at + 1).isTight()) return std::nullopt;
        return refused(at, DoubtCode::NegativeAmount);
    }

    std::optional<NumberRead> betweenNumbers(std::size_t at) {
        if (!oneOf(tok(at), {"between", "zwischen", "entre", "tra"})) return std::nullopt;
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

    std::optional<std::int64_t> whole(std::string_view digits) {
        std::int64_t value = 0;
        const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
        if (error == std::errc{} && end == digits.data() + digits.size()) return value;
        m_problem = DoubtCode::TooLarge;
        return std::nullopt;
    }

    // The groups of figures joined by points, commas, apostrophes or spaces that start at `at`.
    struct Groups {
        std::vector<std::string_view> parts;
        std::vector<char> marks; // between them
        bool plainSpace = false; // a common space between groups: a guess
        std::size_t next = 0;
    };

    Groups groupsAt(std::size_t at) const {
        Groups groups;
        groups.parts.push_back(m_line.raw(at));
        std::size_t i = at + 1;
        while (true) {
            const Token& mark = tok(i);
            const Token& after = tok(i + 1);
            const bool joins = mark.isMark(".") || mark.isMark(",") || mark.isMark("'");
            if (joins && mark.isTight() && after.kind == TokenKind::Digits && after.isTight()) {
                groups.marks.push_back(mark.folded[0]);
                groups.parts.push_back(m_line.raw(i + 1));
                i += 2;
            } else if (spaceGroupAt(i, groups)) {
                groups.plainSpace |= mark.gap == Gap::Space;
                groups.marks.push_back(' ');
                groups.parts.push_back(m_line.raw(i));
                ++i;
            } else {
                break;
            }
        }
        groups.next = i;
        return groups;
    }

    bool spaceGroupAt(std::size_t i, const Groups& so) const {
        const Token& t = tok(i);
        if (t.kind != TokenKind::Digits || t.isTight() || t.end - t.begin != 3) return false;
        if (so.parts.front().size() > 3 || tok(i + 1).isMark("/") || tok(i + 1).isMark("-")) return false;
        if (so.parts.front() == "0" || tok(i + 1).isMark("%") || tok(i + 1).isMark(":")) return false;
        return std::all_of(so.marks.begin(), so.marks.end(), [](char c) { return c == ' '; });
    }

    std::optional<Single> figure(std::size_t at) {
        if (tok(at).isMark(".")) {
            std::string decimals("0.");
            decimals += m_line.raw(at + 1);
            const auto value = Rational::fromText(decimals);
            if (!value) return unclear();
            return Single{*value, at + 2};
        }
        const Groups groups = groupsAt(at);
        if (isExponent(groups.next)) {
            m_problem = DoubtCode::NotANumber;
            return std::nullopt;
        }
        Single out;
        out.next = groups.next;
        if (groups.marks.empty()) {
            const auto value = whole(groups.parts.front());
            if (!value) return std::nullopt;
            out.value = *value;
            out.whole = true;
            return out;
        }
        return grouped(groups, out);
    }

    bool isExponent(std::size_t i) const {
        if (!tok(i).isTight() || !tok(i).isWord("e")) return false;
        const std::size_t figures = tok(i + 1).isMark("-") || tok(i + 1).isMark("+") ? i + 2 : i + 1;
        return tok(figures).kind == TokenKind::Digits && tok(figures).isTight();
    }

    std::optional<Single> unclear() {
        m_problem = DoubtCode::NumberUnclear;
        return std::nullopt;
    }

    static bool allThousands(const Groups& g, std::size_t upTo) {
        if (g.parts.front().empty() || g.parts.front().size() > 3) return false;
        for (std::size_t i = 1; i < upTo; ++i)
            if (g.parts[i].size() != 3) return false;
        return true;
    }

    std::optional<Rational> joined(const Groups& g, std::size_t wholeParts) {
        std::string text;
        for (std::size_t i = 0; i < wholeParts; ++i)
            text += g.parts[i];
        if (text.size() > 18) {
            m_problem = DoubtCode::TooLarge;
            return std::nullopt;
        }
        if (wholeParts < g.parts.size()) {
            text.push_back('.');
            text += g.parts[wholeParts];
        }
        const auto value = Rational::fromText(text);
        if (!value) m_problem = DoubtCode::NumberUnclear;
        return value;
    }

    std::optional<Single> grouped(const Groups& g, Single out) {
        const bool oneKind =
            std::all_of(g.marks.begin(), g.marks.end(), [&](char c) { return c == g.marks[0]; });
        const std::size_t n = g.parts.size();
        std::optional<Rational> value;
        if (!oneKind) {
            // 1.234,5 and 1,234.5: the last mark is the decimal one
            const bool lastDiffers =
                std::count(g.marks.begin(), g.marks.end(), g.marks.back()) == 1 && g.marks.back() != ' ';
            if (!lastDiffers || !allThousands(g, n - 1)) return unclear();
            value = joined(g, n - 1);
            // People write both, so that neither may be guessed.
            const auto has = [&](char mark) {
                return std::find(g.marks.begin(), g.marks.end(), mark) != g.marks.end();
            };
            out.doubtful = has(',') && has('.');
        } else if (g.marks[0] == ' ' || g.marks[0] == '\'') {
            if (!allThousands(g, n)) return unclear();
            value = joined(g, n);
            if (g.plainSpace && g.parts[1] != "000") out.doubtful = true;
        } else if (n > 2) {
            if (!allThousands(g, n)) return unclear();
            value = joined(g, n);
        } else {
            return onePointOrComma(g, out);
        }
        if (!value) return std::nullopt;
        out.value = *value;
        return out;
    }

    std::optional<Single> onePointOrComma(const Groups& g, Single out) {
        const auto decimal = joined(g, 1);
        if (!decimal) return std::nullopt;
        out.value = *decimal;
        const bool couldGroup = allThousands(g, 2) && g.parts[0] != "0" && g.parts[0] != "00";
        if (!couldGroup) {
            out.doubtful = g.marks[0] == ',' && g.parts[1].size() > 3;
            return out;
        }
        const auto thousands = joined(g, 2);
        if (!thousands) return std::nullopt;
        out.groupMark = g.marks[0] == ',' ? GroupMark::Comma : GroupMark::Point;
        out.grouped = *thousands;
        out.decimal = *decimal;
        return out;
    }

    // "1/2", also with spaces on both sides
    std::optional<Single> slashFraction(std::size_t at) {
        const Token& slash = tok(at + 1);
        const Token& under = tok(at + 2);
        if (tok(at).kind != TokenKind::Digits || !slash.isMark("/") || under.kind != TokenKind::Digits)
            return std::nullopt;
        if (slash.isTight() != under.isTight()) return std::nullopt;
        if ((tok(at + 3).isMark(".") || tok(at + 3).isMark(",")) && tok(at + 3).isTight() &&
            tok(at + 4).kind == TokenKind::Digits && tok(at + 4).isTight())
            return std::nullopt;
        const auto a = whole(m_line.raw(at));
        const auto b = whole(m_line.raw(at + 2));
        if (!a || !b) return std::nullopt;
        if (*b == 0) {
            m_problem = DoubtCode::ZeroDenominator;
            return std::nullopt;
        }
        if (tok(at + 3).isMark("/") && tok(at + 3).isTight() && tok(at + 4).kind == TokenKind::Digits)
            return unclear();
        const auto value = Rational::make(*a, *b);
        if (!value) return unclear();
        Single out{*value, at + 3};
        out.slash = std::pair(*a, *b);
        return out;
    }

    // A fraction below one, in figures.
    std::optional<Single> properFraction(std::size_t at) {
        if (tok(at).kind == TokenKind::Vulgar) return Single{tok(at).vulgar, at + 1};
        auto fraction = slashFraction(at);
        if (fraction && !(fraction->value < Rational(1))) return std::nullopt;
        return fraction;
    }

    std::optional<Single> numeric(std::size_t at) {
        if (tok(at).kind == TokenKind::Vulgar) return afterFraction(Single{tok(at).vulgar, at + 1});
        if (const auto fraction = slashFraction(at); fraction || m_problem)
            return fraction ? std::optional(afterFraction(*fraction)) : std::nullopt;
        auto base = figure(at);
        if (!base) return std::nullopt;
        if (base->whole) {
            if (const auto mixed = mixedFrom(*base); mixed || m_problem) return mixed;
            if (const auto spelled = spelledPartOf(*base)) return spelled;
        }
        return base;
    }

    std::optional<Single> sum(const Rational& a, const Single& b) {
        const auto value = a.plus(b.value);
        if (!value) return unclear();
        Single out{*value, b.next};
        return out;
    }

    // "1 1/2", "1½", "1-1/2", "1 and 1/2", "1 & a half"
    std::optional<Single> mixedFrom(const Single& base) {
        const std::size_t i = base.next;
        if (tok(i).kind == TokenKind::Vulgar) return sum(base.value, *properFraction(i));
        if (tok(i).kind == TokenKind::Digits && !tok(i).isTight()) {
            const auto fraction = properFraction(i);
            return fraction ? sum(base.value, *fraction) : std::nullopt;
        }
        if ((tok(i).isMark("-") || tok(i).isMark("–")) && tok(i).isTight() && tok(i + 1).isTight()) {
            const auto fraction = properFraction(i + 1);
            if (!fraction || base.value.isZero()) return std::nullopt;
            return sum(base.value, *fraction);
        }
        const bool joins =
            tok(i).isMark("&") || tok(i).isMark("+") ||
            (tok(i).kind == TokenKind::Word && numberWord(tok(i).folded).kind == NumberWordKind::And);
        if (!joins) return std::nullopt;
        if (const auto fraction = properFraction(i + 1)) return sum(base.value, *fraction);
        if (tok(i).isMark("+")) return std::nullopt;
        const auto spelled = spelledFraction(i + 1);
        return spelled ? sum(base.value, *spelled) : std::nullopt;
    }

    // "2 dozen", "3 quarters of an ounce"
    std::optional<Single> spelledPartOf(const Single& base) {
        const NumberWord word = wordAt(base.next);
        if (word.kind == NumberWordKind::Dozen) return scaled(base.value, 12, base.next + 1);
        if (word.kind == NumberWordKind::Fraction) {
            const auto value = base.value.over(Rational(word.value));
            if (value && *value < Rational(1)) return afterFraction(Single{*value, base.next + 1});
        }
        return std::nullopt;
    }

    std::optional<Single> scaled(const Rational& value, std::int64_t by, std::size_t next) {
        const auto product = value.times(Rational(by));
        if (!product) return unclear();
        return Single{*product, next};
    }

    NumberWord wordAt(std::size_t i) const {
        if (tok(i).kind != TokenKind::Word) return {};
        // a quart is a quarter only in French: "un quart", "trois quarts"
        if (oneOf(tok(i), {"quart", "quarts"}) &&
            (i == 0 || !oneOf(tok(i - 1), {"un", "trois", "le", "et", "demi"})))
            return {};
        return numberWord(tok(i).folded);
    }

    // "half a", "a quarter of an", "1/2 of a": the words that only link a fraction to its measure
    Single afterFraction(Single fraction) {
        if (wordAt(fraction.next).kind == NumberWordKind::Dozen) {
            if (const auto twelve = scaled(fraction.value, 12, fraction.next + 1)) return *twelve;
        }
        std::size_t i = fraction.next;
        const bool of = oneOf(tok(i), {"of", "de", "di"});
        if (of) ++i;
        if (wordAt(i).kind == NumberWordKind::Article) {
            fraction.next = i + 1;
            if (wordAt(i + 1).kind == NumberWordKind::Dozen) {
                if (const auto twelve = scaled(fraction.value, 12, i + 2)) return *twelve;
            }
        } else if (of && wordAt(i).kind == NumberWordKind::None) {
            fraction.next = i;
        }
        // "demi-citron"
        if (tok(fraction.next).isMark("-") && tok(fraction.next).isTight() &&
            tok(fraction.next - 1).kind == TokenKind::Word && tok(fraction.next + 1).kind == TokenKind::Word)
            ++fraction.next;
        return fraction;
    }

    // half, a half, one half, three quarters, three-quarters
    std::optional<Single> spelledFraction(std::size_t i) {
        std::int64_t over = 1;
        const NumberWord first = wordAt(i);
        if (first.kind == NumberWordKind::Article) {
            ++i;
        } else if (first.kind == NumberWordKind::Cardinal) {
            over = first.value;
            ++i;
            if (tok(i).isMark("-") && tok(i).isTight()) ++i;
        }
        const NumberWord part = wordAt(i);
        if (part.kind != NumberWordKind::Fraction || over >= part.value) return std::nullopt;
        const auto value = Rational::make(over, part.value);
        if (!value) return std::nullopt;
        return Single{*value, i + 1};
    }

    std::optional<Single> spelled(std::size_t at) {
        const NumberWord word = wordAt(at);
        switch (word.kind) {
        case NumberWordKind::Article:
            return fromArticle(at);
        case NumberWordKind::Cardinal:
            return fromCardinal(at, word.value);
        case NumberWordKind::Fraction:
            return fromHalf(at);
        case NumberWordKind::Mixed:
            return Single{*Rational::make(2 * word.value + 1, 2), at + 1};
        case NumberWordKind::Dozen:
            return Single{Rational(12), at + 1};
        case NumberWordKind::Couple:
            return Single{Rational(2), at + 1};
        case NumberWordKind::Vague: {
            Single out{Rational(0), at + 1};
            out.vague = true;
            return out;
        }
        case NumberWordKind::None:
        case NumberWordKind::And:
            break;
        }
        return std::nullopt;
    }

    std::optional<Single> fromArticle(std::size_t at) {
        if (const auto fraction = spelledFraction(at)) return afterFraction(*fraction);
        const NumberWord next = wordAt(at + 1);
        if (next.kind == NumberWordKind::Vague || next.kind == NumberWordKind::Couple ||
            next.kind == NumberWordKind::Dozen ||
            (next.kind == NumberWordKind::Cardinal && next.value >= 100))
            return spelled(at + 1);
        if (next.kind == NumberWordKind::And) {
            if (const auto fraction = spelledFraction(at + 2)) return sum(Rational(1), *fraction);
        }
        Single out{Rational(1), at + 1};
        out.article = true;
        return out;
    }

    std::optional<Single> fromCardinal(std::size_t at, std::int64_t value) {
        if (const auto fraction = spelledFraction(at)) return afterFraction(*fraction);
        std::size_t next = at + 1;
        if (value >= 20 && value < 100) {
            const std::size_t unitAt = tok(next).isMark("-") ? next + 1 : next;
            if (const NumberWord unit = wordAt(unitAt);
                unit.kind == NumberWordKind::Cardinal && unit.value < 10) {
                value += unit.value;
                next = unitAt + 1;
            }
        }
        if (const NumberWord hundred = wordAt(next);
            hundred.kind == NumberWordKind::Cardinal && hundred.value == 100 && value < 100) {
            value *= 100;
            ++next;
        }
        Single base{Rational(value), next};
        if (wordAt(next).kind == NumberWordKind::Dozen) return scaled(base.value, 12, next + 1);
        if (wordAt(next).kind == NumberWordKind::And) {
            if (const auto fraction = spelledFraction(next + 1)) return sum(base.value, *fraction);
            if (const auto fraction = properFraction(next + 1)) return sum(base.value, *fraction);
        }
        return base;
    }

    std::optional<Single> fromHalf(std::size_t at) {
        // "half and half" is a name
        if (tok(at + 1).isMark("&") || tok(at + 1).isMark("-") ||
            wordAt(at + 1).kind == NumberWordKind::And) {
            if (!(tok(at + 1).isMark("-") && wordAt(at + 2).kind == NumberWordKind::Dozen))
                return std::nullopt;
            return Single{Rational(6), at + 3};
        }
        const auto fraction = spelledFraction(at);
        if (!fraction) return std::nullopt;
        return afterFraction(*fraction);
    }

    std::optional<Single> single(std::size_t at) {
        if (startsFigure(at)) return numeric(at);
        return tok(at).kind == TokenKind::Word ? spelled(at) : std::nullopt;
    }

    void askOf(NumberRead& out, const Single& s, std::size_t at) const {
        if (s.doubtful)
            out.doubts.push_back({DoubtCode::CommaAmbiguous, DoubtWeight::Ask, m_line.slice(at, s.next)});
    }

    NumberRead fromSingle(const Single& s, std::size_t at) const {
        NumberRead out;
        out.next = s.next;
        out.article = s.article;
        out.vague = s.vague;
        if (s.vague) {
            out.vagueWord = m_line.slice(s.next - 1, s.next);
            if (oneOf(tok(out.next), {"of", "de", "di"})) ++out.next;
            return out;
        }
        out.amount = Amount::exact(s.value);
        out.groupMark = s.groupMark;
        out.grouped = s.grouped;
        out.decimal = s.decimal;
        out.slash = s.slash;
        askOf(out, s, at);
        // "a couple of dashes"
        if (wordAt(s.next - 1).kind == NumberWordKind::Couple && oneOf(tok(s.next), {"of", "de", "di"}))
            ++out.next;
        if (wordAt(s.next - 1).kind == NumberWordKind::Dozen && oneOf(tok(s.next), {"of", "de", "di"}))
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
        if (oneOf(tok(i), {"to", "or", "bis", "oder", "ou", "o", "a", "al", "hasta", "till", "tot", "of"}))
            return i + 1;
        return 0;
    }

    bool startsSecondNumber(std::size_t i) const {
        const NumberWordKind kind = wordAt(i).kind;
        return startsFigure(i) || kind == NumberWordKind::Cardinal;
    }

    void extendToRange(NumberRead& out, const Single& first, std::size_t at) {
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
    if (oneOf(w, {"proof",    "year",    "years",   "yr",      "yrs",        "yo",       "month",
                  "months",   "percent", "prozent", "pct",     "abv",        "vol",      "jahre",
                  "degrees",  "degree",  "deg",     "celsius", "fahrenheit", "jahriger", "jahrige",
                  "jahriges", "jahren",  "ans",     "anos",    "anni"}))
        return true;
    return t.isTight() && oneOf(t, {"st", "nd", "rd", "th", "y", "er", "e"});
}

} // namespace stillroom::exchange
