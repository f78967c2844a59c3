// One number as people write it: figures with their marks, fractions, words.
#include "core/exchange/single_number.h"

#include <algorithm>
#include <charconv>
#include <string>
#include <vector>

namespace stillroom::exchange {

using quantity::Rational;

namespace {

class SingleReader {
  public:
    explicit SingleReader(const TokenLine& line) : m_line(line) {}

    SingleRead read(std::size_t at) {
        auto number = startsFigure(m_line, at)          ? numeric(at)
                      : tok(at).kind == TokenKind::Word ? spelled(at)
                                                        : std::nullopt;
        return {std::move(number), m_problem};
    }

  private:
    const Token& tok(std::size_t i) const { return m_line.at(i); }

    NumberWord wordAt(std::size_t i) const { return numberWordAt(m_line, i); }

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

    std::optional<SingleNumber> figure(std::size_t at) {
        if (tok(at).isMark(".")) {
            std::string decimals("0.");
            decimals += m_line.raw(at + 1);
            const auto value = Rational::fromText(decimals);
            if (!value) return unclear();
            return SingleNumber{*value, at + 2};
        }
        const Groups groups = groupsAt(at);
        if (isExponent(groups.next)) {
            m_problem = DoubtCode::NotANumber;
            return std::nullopt;
        }
        SingleNumber out;
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

    std::optional<SingleNumber> unclear() {
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

    std::optional<SingleNumber> grouped(const Groups& g, SingleNumber out) {
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

    std::optional<SingleNumber> onePointOrComma(const Groups& g, SingleNumber out) {
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
    std::optional<SingleNumber> slashFraction(std::size_t at) {
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
        SingleNumber out{*value, at + 3};
        out.slash = std::pair(*a, *b);
        return out;
    }

    // A fraction below one, in figures.
    std::optional<SingleNumber> properFraction(std::size_t at) {
        if (tok(at).kind == TokenKind::Vulgar) return SingleNumber{tok(at).vulgar, at + 1};
        auto fraction = slashFraction(at);
        if (fraction && !(fraction->value < Rational(1))) return std::nullopt;
        return fraction;
    }

    std::optional<SingleNumber> numeric(std::size_t at) {
        if (tok(at).kind == TokenKind::Vulgar) return afterFraction(SingleNumber{tok(at).vulgar, at + 1});
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

    std::optional<SingleNumber> sum(const Rational& a, const SingleNumber& b) {
        const auto value = a.plus(b.value);
        if (!value) return unclear();
        SingleNumber out{*value, b.next};
        return out;
    }

    // "1 1/2", "1½", "1-1/2", "1 and 1/2", "1 & a half"
    std::optional<SingleNumber> mixedFrom(const SingleNumber& base) {
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
    std::optional<SingleNumber> spelledPartOf(const SingleNumber& base) {
        const NumberWord word = wordAt(base.next);
        if (word.kind == NumberWordKind::Dozen) return scaled(base.value, 12, base.next + 1);
        if (word.kind == NumberWordKind::Fraction) {
            const auto value = base.value.over(Rational(word.value));
            if (value && *value < Rational(1)) return afterFraction(SingleNumber{*value, base.next + 1});
        }
        return std::nullopt;
    }

    std::optional<SingleNumber> scaled(const Rational& value, std::int64_t by, std::size_t next) {
        const auto product = value.times(Rational(by));
        if (!product) return unclear();
        return SingleNumber{*product, next};
    }

    // "half a", "a quarter of an", "1/2 of a": the words that only link a fraction to its measure
    SingleNumber afterFraction(SingleNumber fraction) {
        if (wordAt(fraction.next).kind == NumberWordKind::Dozen) {
            if (const auto twelve = scaled(fraction.value, 12, fraction.next + 1)) return *twelve;
        }
        std::size_t i = fraction.next;
        const bool of = isOneOf(tok(i), {"of", "de", "di"});
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
    std::optional<SingleNumber> spelledFraction(std::size_t i) {
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
        return SingleNumber{*value, i + 1};
    }

    std::optional<SingleNumber> spelled(std::size_t at) {
        const NumberWord word = wordAt(at);
        switch (word.kind) {
        case NumberWordKind::Article:
            return fromArticle(at);
        case NumberWordKind::Cardinal:
            return fromCardinal(at, word.value);
        case NumberWordKind::Fraction:
            return fromHalf(at);
        case NumberWordKind::Mixed:
            return SingleNumber{*Rational::make(2 * word.value + 1, 2), at + 1};
        case NumberWordKind::Dozen:
            return SingleNumber{Rational(12), at + 1};
        case NumberWordKind::Couple:
            return SingleNumber{Rational(2), at + 1};
        case NumberWordKind::Vague: {
            SingleNumber out{Rational(0), at + 1};
            out.vague = true;
            return out;
        }
        case NumberWordKind::None:
        case NumberWordKind::And:
            break;
        }
        return std::nullopt;
    }

    std::optional<SingleNumber> fromArticle(std::size_t at) {
        if (const auto fraction = spelledFraction(at)) return afterFraction(*fraction);
        const NumberWord next = wordAt(at + 1);
        if (next.kind == NumberWordKind::Vague || next.kind == NumberWordKind::Couple ||
            next.kind == NumberWordKind::Dozen ||
            (next.kind == NumberWordKind::Cardinal && next.value >= 100))
            return spelled(at + 1);
        if (next.kind == NumberWordKind::And) {
            if (const auto fraction = spelledFraction(at + 2)) return sum(Rational(1), *fraction);
        }
        SingleNumber out{Rational(1), at + 1};
        out.article = true;
        return out;
    }

    std::optional<SingleNumber> fromCardinal(std::size_t at, std::int64_t value) {
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
        SingleNumber base{Rational(value), next};
        if (wordAt(next).kind == NumberWordKind::Dozen) return scaled(base.value, 12, next + 1);
        if (wordAt(next).kind == NumberWordKind::And) {
            if (const auto fraction = spelledFraction(next + 1)) return sum(base.value, *fraction);
            if (const auto fraction = properFraction(next + 1)) return sum(base.value, *fraction);
        }
        return base;
    }

    std::optional<SingleNumber> fromHalf(std::size_t at) {
        // "half and half" is a name
        if (tok(at + 1).isMark("&") || tok(at + 1).isMark("-") ||
            wordAt(at + 1).kind == NumberWordKind::And) {
            if (!(tok(at + 1).isMark("-") && wordAt(at + 2).kind == NumberWordKind::Dozen))
                return std::nullopt;
            return SingleNumber{Rational(6), at + 3};
        }
        const auto fraction = spelledFraction(at);
        if (!fraction) return std::nullopt;
        return afterFraction(*fraction);
    }

    const TokenLine& m_line;
    std::optional<DoubtCode> m_problem;
};

} // namespace

bool isOneOf(const Token& token, std::initializer_list<std::string_view> words) {
    return token.kind == TokenKind::Word &&
           std::find(words.begin(), words.end(), token.folded) != words.end();
}

bool startsFigure(const TokenLine& line, std::size_t at) {
    const Token& t = line.at(at);
    const Token& after = line.at(at + 1);
    return t.kind == TokenKind::Digits || t.kind == TokenKind::Vulgar ||
           (t.isMark(".") && after.kind == TokenKind::Digits && after.isTight());
}

NumberWord numberWordAt(const TokenLine& line, std::size_t i) {
    const Token& word = line.at(i);
    if (word.kind != TokenKind::Word) return {};
    // a quart is a quarter only in French: "un quart", "trois quarts"
    if (isOneOf(word, {"quart", "quarts"}) &&
        (i == 0 || !isOneOf(line.at(i - 1), {"un", "trois", "le", "et", "demi"})))
        return {};
    return numberWord(word.folded);
}

SingleRead readSingle(const TokenLine& line, std::size_t at) {
    return SingleReader(line).read(at);
}

} // namespace stillroom::exchange
