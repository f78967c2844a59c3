#pragma once

#include "ui/theme/look.h"

#include <QPointF>
#include <QPolygonF>
#include <QRectF>
#include <QSizeF>
#include <QString>

#include <optional>
#include <vector>

namespace stillroom::ui {

// One reading over the minutes a drink stands.
struct HeldStrip {
    QString name; // "Strength"
    QString unit; // "% vol"
    int decimals = 1;
    double leastSpan = 1; // its scale covers no less: what hardly moves is drawn hardly moving
    std::vector<double> values;
    std::optional<QPointF> measured; // minute and value that somebody read off the drink
    bool neverNegative = false;      // its scale starts at 0 at the lowest
};

struct HeldValues {
    std::vector<double> minutes; // rising
    std::vector<HeldStrip> strips;
    QString basis; // on what the curve rests, in sentences
};

struct HeldTick {
    double at = 0; // value or minute
    double px = 0;
    QString text;
};

struct HeldStripBox {
    QRectF field;
    double low = 0, high = 1; // values at the field's floor and top
    std::vector<HeldTick> ticks;
    QPolygonF line;
    double y(double value) const { return field.bottom() - (value - low) / (high - low) * field.height(); }
};

// Strips under each other over one axis of minutes, which starts at 0.
struct HeldGeometry {
    double left = 0, right = 0, lastMinute = 1;
    double axisY = 0; // floor of the lowest strip
    std::vector<HeldStripBox> strips;
    std::vector<HeldTick> minutes;
    double x(double minute) const { return left + minute / lastMinute * (right - left); }
    double minuteAt(double px) const { return (px - left) / (right - left) * lastMinute; }
};

HeldGeometry heldGeometry(const HeldValues& values, QSizeF size, const Look& look);
// Along the line between its points; values outside the curve take its end.
double heldValueAt(const HeldValues& values, const HeldStrip& strip, double minute);

} // namespace stillroom::ui
