#pragma once

#include "core/balance/style_region.h"
#include "ui/theme/look.h"

#include <QLineF>
#include <QRectF>
#include <QSizeF>
#include <QString>

#include <optional>
#include <vector>

namespace stillroom::ui {

// Which way a number that lacks a fact may still go.
enum class Open : unsigned char { No, Above, Below, Unknown };

// Earlier revisions are small rings; drinks laid side by side each have a mark of their own.
enum class PointMark : unsigned char { Ring, Square, Diamond, Triangle };

struct MapPoint {
    QString label;                  // "r4", "draft"
    double sugar = 0;               // g/100 ml as served
    double acid = 0;                // g/100 ml as citric
    std::optional<double> strength; // % vol
    Open sugarOpen = Open::No;
    Open acidOpen = Open::No;
    Open strengthOpen = Open::No;
    PointMark mark = PointMark::Ring;
    bool isPlaced() const { return sugarOpen != Open::Unknown && acidOpen != Open::Unknown; }
};

struct MapAim {
    std::optional<balance::Range> sugar, acid, strength;
};

struct BalanceValues {
    std::optional<balance::StyleRegion> region;
    std::vector<MapPoint> earlier; // oldest first, joined by the path
    std::optional<MapPoint> now;
    MapAim aim;
    QString sentence; // what the place on the map means
};

struct Axis {
    double low = 0;
    double high = 1;
    double step = 0.1;
    int decimals = 1;
    double share(double value) const { return (value - low) / (high - low); }
};

struct RatioRay {
    double ratio = 0; // sugar : acid
    QLineF line;
    QPointF labelAt; // middle of the label
};

struct BalanceGeometry {
    Axis sugar, acid, strength;
    QRectF field;
    double scaleX = 0; // the upright strength scale
    QRectF regionBox;  // null when the style is not known
    QRectF strengthBox;
    QRectF aimBox;
    QRectF sentenceBox;
    std::vector<RatioRay> rays;
    QPointF at(const MapPoint& point) const;
    double strengthY(double strength) const;
};

// An axis of whole steps around these values, never narrower than `leastSpan`, never below zero.
Axis axisAround(const std::vector<double>& values, double leastSpan, int mostSteps);
BalanceGeometry balanceGeometry(const BalanceValues& values, QSizeF size, const Look& look);

} // namespace stillroom::ui
