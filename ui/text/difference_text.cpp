#include "ui/text/difference_text.h"

#include "core/history/reading_difference.h"
#include "ui/text/numbers.h"

#include <QCoreApplication>

namespace stillroom::ui {

using history::Known;

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("Difference", text);
}

int signOf(double value) {
    return value > 0 ? 1 : (value < 0 ? -1 : 0);
}

} // namespace

DifferenceText differenceText(const spec::Reading& before, const spec::Reading& after,
                              spec::Quantity quantity, const QLocale& locale) {
    const auto difference = history::readingDifference(before, after, quantity);
    const auto shown = [&](double value) {
        return signedNumber(shownValue(quantity, value), shownDecimals(quantity), locale);
    };
    const auto signedBy = [](QChar sign, const QString& text) -> QString {
        return QString(sign) + QLatin1Char(' ') + text;
    };
    DifferenceText said;
    said.moved = readingText(before, quantity, locale) != readingText(after, quantity, locale);
    const double value = difference.value;
    switch (difference.known) {
    case Known::NoSuch:
        break;
    case Known::Nothing:
        said.text = say("not known");
        said.bound = true;
        break;
    case Known::Exactly:
        said.direction = signOf(value);
        said.text = difference.estimate ? signedBy(kNearly, shown(value)) : shown(value);
        break;
    case Known::AtLeast:
        said.direction = value > 0 ? 1 : 0;
        said.text = signedBy(kAtLeast, shown(value));
        said.bound = true;
        break;
    case Known::AtMost:
        said.direction = value < 0 ? -1 : 0;
        said.text = signedBy(kAtMost, shown(value));
        said.bound = true;
        break;
    case Known::Between:
        said.direction = signOf(value) == signOf(difference.upper) ? signOf(value) : 0;
        said.text = say("%1 to %2").arg(shown(value), shown(difference.upper));
        said.bound = true;
        break;
    case Known::FloorMoved:
        said.text = value == 0 ? say("same floor") : say("floor %1").arg(shown(value));
        said.bound = true;
        break;
    case Known::CeilingMoved:
        said.text = value == 0 ? say("same ceiling") : say("ceiling %1").arg(shown(value));
        said.bound = true;
        break;
    }
    return said;
}

} // namespace stillroom::ui
