#pragma once

#include "core/quantity/money.h"
#include "core/spec/reading.h"

#include <QLocale>
#include <QString>

#include <optional>

namespace stillroom::ui {

inline constexpr QChar kMinus{0x2212};
inline constexpr QChar kNarrowSpace{0x202F}; // no-break; before % and units
inline constexpr QChar kEnDash{0x2013};
inline constexpr QChar kEmDash{0x2014};
inline constexpr QChar kAtLeast{0x2265};
inline constexpr QChar kAtMost{0x2264};
inline constexpr QChar kNearly{0x2248}; // an estimate

// Numbers people read: the locale's decimal mark, a true minus sign, no group marks, never "−0".
QString number(double value, int decimals, const QLocale& locale = QLocale());
// With + or −; "0.0" bare when nothing is left after rounding.
QString signedNumber(double value, int decimals, const QLocale& locale = QLocale());
// The shortest text that says the value, at most `decimals` places: "22.5", "20".
QString trimmedNumber(double value, int decimals, const QLocale& locale = QLocale());

// A number typed into a field. The point and the comma both mark decimals, in every locale: reading "2.5"
// as 25 because a point groups thousands would be a ten-fold dose error. nullopt: not a number.
std::optional<double> typedNumber(const QString& text);

// How one reading is shown: its number with its bound, and which stretch of the text is the number itself.
struct ReadingText {
    QString sign;   // "≥", "≤", "≈" of an estimate, or empty
    QString number; // "7.2", "7.1–8.0", "?" or "—"
    bool gap = false;
    friend bool operator==(const ReadingText&, const ReadingText&) = default;
    QString plain() const; // "≥ 7.2"
};
// Values in the unit shown in the grid: dilution as per cent, everything else as it is.
double shownValue(spec::Quantity quantity, double value);
int shownDecimals(spec::Quantity quantity);
ReadingText readingText(const spec::Reading& reading, spec::Quantity quantity,
                        const QLocale& locale = QLocale());
ReadingText readingText(const spec::Reading& reading, int decimals, const QLocale& locale = QLocale());
// The first character from which the second text differs; -1 when they are equal.
int firstDifference(const QString& before, const QString& now);

QString currencySign(const quantity::Currency& currency);

} // namespace stillroom::ui
