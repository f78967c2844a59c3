#include "ui/text/amounts.h"

#include "ui/text/border.h"
#include "ui/text/numbers.h"

#include <array>
#include <cmath>

namespace stillroom::ui {

namespace {

using quantity::Measure;
using quantity::Rational;

struct Vulgar {
    int numerator;
    int denominator;
    char16_t sign;
};

constexpr std::array<Vulgar, 15> kVulgar{{{1, 4, u'¼'},
                                          {1, 2, u'½'},
                                          {3, 4, u'¾'},
                                          {1, 3, u'⅓'},
                                          {2, 3, u'⅔'},
                                          {1, 5, u'⅕'},
                                          {2, 5, u'⅖'},
                                          {3, 5, u'⅗'},
                                          {4, 5, u'⅘'},
                                          {1, 6, u'⅙'},
                                          {5, 6, u'⅚'},
                                          {1, 8, u'⅛'},
                                          {3, 8, u'⅜'},
                                          {5, 8, u'⅝'},
                                          {7, 8, u'⅞'}}};

bool isMetric(std::optional<Measure> measure) {
    if (!measure) return false;
    switch (*measure) {
    case Measure::Ml:
    case Measure::Cl:
    case Measure::Dl:
    case Measure::L:
    case Measure::Mg:
    case Measure::G:
    case Measure::Kg:
        return true;
    default:
        return false;
    }
}

// Decimals that say the fraction exactly, or -1 when none within nine do.
int exactDecimals(const Rational& value) {
    auto rest = value.denominator();
    int twos = 0;
    int fives = 0;
    while (rest % 2 == 0) {
        rest /= 2;
        ++twos;
    }
    while (rest % 5 == 0) {
        rest /= 5;
        ++fives;
    }
    const int decimals = std::max(twos, fives);
    return rest == 1 && decimals <= 9 ? decimals : -1;
}

} // namespace

QString rationalText(const Rational& value, bool fractions, const QLocale& locale) {
    const auto whole = value.numerator() / value.denominator();
    const auto part = value.numerator() % value.denominator();
    if (part == 0) return number(static_cast<double>(whole), 0, locale);
    if (fractions && !value.isNegative()) {
        for (const auto& vulgar : kVulgar) {
            if (part != vulgar.numerator || value.denominator() != vulgar.denominator) continue;
            const QString sign{QChar(vulgar.sign)};
            return whole == 0 ? sign : QString(QString::number(whole) + QLatin1Char(' ') + sign);
        }
    }
    const int decimals = exactDecimals(value);
    if (decimals >= 0) return number(value.toDouble(), decimals, locale);
    const QString fraction =
        QString::number(std::abs(part)) + QLatin1Char('/') + QString::number(value.denominator());
    return whole == 0 ? fraction : QString(QString::number(whole) + QLatin1Char(' ') + fraction);
}

QString amountNumber(const spec::Measured& measured, const QLocale& locale) {
    using Kind = quantity::Amount::Kind;
    const bool fractions = !isMetric(measured.measure);
    const auto& amount = measured.amount;
    if (amount.kind == Kind::None) return {};
    QString text = rationalText(amount.low, fractions, locale);
    if (amount.kind == Kind::Range) text += kEnDash + rationalText(amount.high, fractions, locale);
    if (measured.multiplier == Rational(1)) return text;
    return rationalText(measured.multiplier, fractions, locale) + QStringLiteral(" × ") + text;
}

QString amountUnit(const spec::Measured& measured) {
    if (!measured.measure || measured.measure == Measure::Piece) return {};
    const auto& info = quantity::measureInfo(*measured.measure);
    const auto& amount = measured.amount;
    const bool one = amount.isStated() && !(Rational(1) < amount.high);
    return fromCore(one ? info.shown : info.plural);
}

QString amountForEditing(const spec::Measured& measured, const QLocale& locale) {
    const QString unit = amountUnit(measured);
    const QString text = amountNumber(measured, locale);
    // A spoon named with its size ("tsp (5 ml)") is not how one types it; a bare number keeps the measure.
    if (unit.isEmpty() || unit.contains(QLatin1Char('('))) return text;
    return text.isEmpty() ? unit : QString(text + QLatin1Char(' ') + unit);
}

QString lineInWords(const spec::Line& line, const QLocale& locale) {
    const QString amount = amountForEditing(line.poured, locale);
    const QString name = fromCore(line.name);
    return amount.isEmpty() ? name : QString(name + QStringLiteral(", ") + amount);
}

} // namespace stillroom::ui
