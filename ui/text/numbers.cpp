#include "ui/text/numbers.h"

#include "ui/text/border.h"

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

namespace {

// QLocale writes "-0.0" for what rounds to nothing, and a hyphen for a minus.
QString magnitude(double value, int decimals, QLocale locale) {
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    return locale.toString(std::abs(value), 'f', decimals);
}

bool roundsToZero(double value, int decimals) {
    return std::abs(value) < 0.5 * std::pow(10.0, -decimals);
}

} // namespace

QString number(double value, int decimals, const QLocale& locale) {
    const QString digits = magnitude(value, decimals, locale);
    return value < 0 && !roundsToZero(value, decimals) ? QString(kMinus) + digits : digits;
}

QString signedNumber(double value, int decimals, const QLocale& locale) {
    const QString digits = magnitude(value, decimals, locale);
    if (roundsToZero(value, decimals)) return digits;
    return (value < 0 ? QString(kMinus) : QStringLiteral("+")) + digits;
}

QString trimmedNumber(double value, int decimals, const QLocale& locale) {
    QString text = number(value, decimals, locale);
    const QString point = locale.decimalPoint();
    if (!text.contains(point)) return text;
    while (text.endsWith(locale.zeroDigit()))
        text.chop(1);
    if (text.endsWith(point)) text.chop(point.size());
    return text;
}

std::optional<double> typedNumber(const QString& text) {
    QString plain = text.trimmed();
    plain.replace(kMinus, QLatin1Char('-'));
    plain.replace(QLatin1Char(','), QLatin1Char('.'));
    if (plain.isEmpty() || plain.count(QLatin1Char('.')) > 1) return std::nullopt;
    const bool onlyDigits = std::all_of(plain.cbegin(), plain.cend(), [](QChar c) {
        return (c >= QLatin1Char('0') && c <= QLatin1Char('9')) || c == QLatin1Char('.') ||
               c == QLatin1Char('-');
    });
    if (!onlyDigits) return std::nullopt;
    bool ok = false;
    const double value = QLocale::c().toDouble(plain, &ok);
    return ok ? std::optional<double>(value) : std::nullopt;
}

QString ReadingText::plain() const {
    return sign.isEmpty() ? number : QString(sign + QLatin1Char(' ') + number);
}

double shownValue(spec::Quantity quantity, double value) {
    return quantity == spec::Quantity::Dilution ? value * 100.0 : value;
}

int shownDecimals(spec::Quantity quantity) {
    return quantity == spec::Quantity::Dilution ? 1 : spec::quantityDecimals(quantity);
}

ReadingText readingText(const spec::Reading& reading, int decimals, const QLocale& locale) {
    using spec::Bound;
    ReadingText text;
    text.gap = reading.bound != Bound::Exact && reading.bound != Bound::NotApplicable;
    switch (reading.bound) {
    case Bound::Exact:
        if (reading.estimate) text.sign = kNearly;
        text.number = number(reading.value, decimals, locale);
        break;
    case Bound::AtLeast:
        text.sign = kAtLeast;
        text.number = number(reading.value, decimals, locale);
        break;
    case Bound::AtMost:
        text.sign = kAtMost;
        text.number = number(reading.value, decimals, locale);
        break;
    case Bound::Between:
        text.number =
            number(reading.value, decimals, locale) + kEnDash + number(reading.upper, decimals, locale);
        break;
    case Bound::Unknown:
        text.number = QStringLiteral("?");
        break;
    case Bound::NotApplicable:
        text.number = kEmDash;
        break;
    }
    return text;
}

ReadingText readingText(const spec::Reading& reading, spec::Quantity quantity, const QLocale& locale) {
    spec::Reading shown = reading;
    shown.value = shownValue(quantity, reading.value);
    shown.upper = shownValue(quantity, reading.upper);
    return readingText(shown, shownDecimals(quantity), locale);
}

int firstDifference(const QString& before, const QString& now) {
    if (before == now) return -1;
    if (before.size() != now.size()) return 0;
    for (qsizetype i = 0; i < now.size(); ++i)
        if (before[i] != now[i]) return static_cast<int>(i);
    return -1;
}

QString currencySign(const quantity::Currency& currency) {
    const auto code = currency.text();
    if (code == "EUR") return QStringLiteral("€");
    if (code == "USD") return QStringLiteral("$");
    if (code == "GBP") return QStringLiteral("£");
    if (code == "JPY") return QStringLiteral("¥");
    return fromCore(code);
}

} // namespace stillroom::ui
