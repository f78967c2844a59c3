#pragma once

#include "ui/theme/look.h"

#include <QRectF>
#include <QString>

class QPainter;

namespace stillroom::ui {

// A number as every drawing writes it: the locale's decimal mark, a real minus, no group marks.
QString plotNumber(double value, int decimals);
// "156", "9.5": whole from ten up, one decimal below.
QString plotMl(double ml);
// Narrow no-break space before a unit.
QString withUnit(const QString& number, QStringView unit);

// Where a line of text stands in relation to the point it is given.
enum class Stand : unsigned char { Left, Centre, Right };
// Draws one line with its box's middle at y; returns the box it took.
QRectF drawLabel(QPainter& painter, QPointF at, Stand stand, const QString& text, Type type, Token token,
                 const Look& look, double maxWidth = 0);
double textWidth(const QString& text, Type type, const Look& look);
QString elided(const QString& text, Type type, const Look& look, double width);

// Round steps of an axis: 1, 2, 2.5 or 5 times a power of ten.
double niceStep(double span, int mostSteps);
int decimalsOfStep(double step);

} // namespace stillroom::ui
