#pragma once

#include "ui/theme/look.h"

#include <QRectF>
#include <QString>

class QPainter;

namespace stillroom::ui {

// "156", "7.5": whole from ten up, at most one decimal below.
QString plotMl(double ml);
// Narrow no-break space before a unit.
QString withUnit(const QString& figure, QStringView unit);

// Where a line of text stands in relation to the point it is given.
enum class Stand : unsigned char { Left, Centre, Right };
// Draws one line with its box's middle at y; returns the box it took.
QRectF drawLabel(QPainter& painter, QPointF at, Stand stand, const QString& text, Type type, Token token,
                 const Look& look, double maxWidth = 0);
// A paragraph at the line height of its type, cut at `maxLines` with an ellipsis. Returns its height.
double drawParagraph(QPainter& painter, QPointF topLeft, double width, const QString& text, Type type,
                     Token token, const Look& look, int maxLines = 0);
double paragraphHeight(const QString& text, Type type, const Look& look, double width, int maxLines = 0);
double textWidth(const QString& text, Type type, const Look& look);
// Of a list in one text ("a 1 → 2; b 3 → 4"): as many whole parts as fit, and how many there are more.
QString wholeParts(const QString& text, const QString& separator, Type type, const Look& look, double width);
// The same in up to `lines` lines, broken between parts; the last of them tells how many more there are.
QStringList wholePartLines(const QString& text, const QString& separator, Type type, const Look& look,
                           double width, int lines);
QString elided(const QString& text, Type type, const Look& look, double width);

// Round steps of an axis: 1, 2, 2.5 or 5 times a power of ten.
double niceStep(double span, int mostSteps);
int decimalsOfStep(double step);

} // namespace stillroom::ui
