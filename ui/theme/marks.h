#pragma once

#include "core/tasting/tasting.h"
#include "ui/theme/look.h"

#include <QPainterPath>
#include <QPointF>
#include <QRectF>
#include <QString>

#include <optional>

class QPainter;

namespace stillroom::ui {

// The proofreader's and the chart room's signs, each with one meaning everywhere. Lengths are pixels at
// 100 %; points and rectangles are in the painter's own coordinates.

enum class StateMark : unsigned char { Draft, Kept, House, Published, SetAside };
QString stateWord(StateMark state); // "draft", "kept", "house", "published", "set aside"
void paintStateMark(QPainter& painter, QPointF centre, StateMark state, const Look& look, const QColor& ink,
                    double radius = 5.5);

// Initials with the verdict drawn as a proof mark: dots under to keep, a wave under to change, a line
// through to drop. `topLeft` is the corner of the block; returns the block's size.
QSizeF verdictSize(const QString& initials, const Look& look);
QSizeF paintVerdict(QPainter& painter, QPointF topLeft, const QString& initials, tasting::Verdict verdict,
                    const Look& look);
QString verdictWords(const QString& initials, tasting::Verdict verdict); // "MK would drop it"
// The mark alone, below or through a text that stands between x0 and x1 on this baseline.
void paintVerdictMark(QPainter& painter, double x0, double x1, double baseline, tasting::Verdict verdict,
                      const Look& look);

// Under a number that lacks a fact.
void paintGapUnderline(QPainter& painter, double x0, double x1, double y, const Look& look);
// Under the digits that just changed.
void paintChangedUnderline(QPainter& painter, double x0, double x1, double y, const QColor& color,
                           const Look& look);
// Under a number out of its limit.
void paintDoubleUnderline(QPainter& painter, double x0, double x1, double y, const QColor& color,
                          const Look& look);

// 2 px frame, 1 px gap around `inner`, in the focus colour.
void paintFocusFrame(QPainter& painter, const QRectF& inner, const Look& look);

enum class Pointing : unsigned char { Down, Left, Right, Up };
// The reading against an aim: filled inside it, hollow outside, half when only a bound is known.
enum class WedgeFill : unsigned char { Filled, Hollow, Half };
void paintWedge(QPainter& painter, QPointF tip, Pointing pointing, WedgeFill fill, const Look& look,
                const QColor& color);
// Four corners around a field.
void paintCornerBrackets(QPainter& painter, const QRectF& field, const Look& look);

// One reading on its scale: rule, aim as caliper brackets, last revision as a ring, now as a wedge.
struct AimScale {
    double low = 0;
    double high = 1; // ends of the scale
    std::optional<double> aimLow;
    std::optional<double> aimHigh; // one alone: a limit
    std::optional<double> value;
    bool openAbove = false; // the value is a floor: half wedge, dotted tail to the right
    bool openBelow = false;
    std::optional<double> last;
};
bool isInsideAim(const AimScale& scale);
void paintAimScale(QPainter& painter, const QRectF& box, const AimScale& scale, const Look& look);

// Parallel lines clipped to a shape. Qt's hatch brushes do not scale.
enum class Hatch : unsigned char { Rising, Falling };
void paintHatch(QPainter& painter, const QPainterPath& clip, double spacing, const QPen& pen,
                Hatch direction = Hatch::Rising);

} // namespace stillroom::ui
