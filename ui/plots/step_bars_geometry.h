#pragma once

#include "ui/theme/look.h"

#include <QRectF>
#include <QSizeF>
#include <QString>

#include <vector>

namespace stillroom::ui {

// One moment of a preparation: how much there is, what went and what came since the one above.
struct StepBar {
    QString name;       // "strained, cloth"
    double grams = 0;   // the bar's length
    double left = 0;    // g lost since the bar above: the dotted part
    QString inside;     // "958 g", "807 ml"
    QString beside;     // "−30 g held back", "94.7 % of the weight"
    bool loss = false;  // what is said beside it is a loss
    bool edited = true; // the cursor stops here
    friend bool operator==(const StepBar&, const StepBar&) = default;
};

struct StepBarsValues {
    std::vector<StepBar> bars;
    QString empty; // said when there is nothing to draw
    friend bool operator==(const StepBarsValues&, const StepBarsValues&) = default;
};

struct StepBarBox {
    QRectF row;       // what the cursor frames
    QRectF bar;       // to scale
    QRectF lost;      // right of the bar, to scale; empty when nothing left
    double textX = 0; // where what is said beside it begins
};

struct StepBarsGeometry {
    double nameRight = 0; // names end here
    double pxPerGram = 0; // one scale for all
    std::vector<StepBarBox> bars;
};

// Bars share their left edge and scale; the longest with its loss fills the field that words leave.
StepBarsGeometry stepBarsGeometry(const StepBarsValues& values, QSizeF size, const Look& look);
double stepBarsHeight(std::size_t bars, const Look& look);

} // namespace stillroom::ui
