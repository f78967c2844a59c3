#pragma once

#include "core/spec/glass_filling.h"
#include "ui/theme/look.h"

#include <QPainterPath>
#include <QPointF>
#include <QRectF>
#include <QSizeF>
#include <QString>

#include <optional>
#include <vector>

namespace stillroom::ui {

// A glass as it is drawn: the section of its inside, and enough of its outside to recognise it by. Walls,
// floors and feet are drawn as such glasses usually have them; only the inside is measured.
struct GlassShape {
    physics::GlassProfile profile;
    double wallMm = 2.0;
    double floorMm = 5.0;
    double footRadiusMm = 33.0; // of a stemmed glass
    bool isStemmed() const { return profile.foot == physics::GlassFoot::Stem; }
    QString name() const; // "Low tumbler"
};
GlassShape shapeOf(const physics::GlassProfile& profile);

// What stands in the glass comes finished from core; here only names and where it is drawn.
struct GlassValues {
    spec::GlassFilling filling;
    std::vector<QString> layerNames;   // of filling.layers: "mixed", "coffee liqueur"
    bool compact = false;              // beside others: share alone, no caption
    std::optional<double> denominator; // drawn at 1 : this; none: the largest that fits

    bool isEmpty() const { return filling.layers.empty(); }
};

struct GlassBand {
    const spec::GlassLayer* layer = nullptr; // of the values
    QString name;
    QPainterPath path;
};

struct HeadShape {
    const spec::GlassHead* head = nullptr;
    QPainterPath path;
};

struct RulerTick {
    double ml = 0;
    double y = 0;
    bool major = false;
};

struct GlassGeometry {
    GlassShape shape; // what is drawn: the glass, or the cylinder standing in for it
    const spec::GlassFilling* filling = nullptr; // of the values
    double denominator = 1;
    double pxPerMm = 1;
    double axisX = 0;
    double floorY = 0;
    QRectF glassBox; // outside, foot to brim
    QPainterPath inner;
    QPainterPath outer;
    std::vector<GlassBand> bands;
    std::vector<HeadShape> heads;
    QPainterPath washBand; // 85 to 90 % of the brim; empty where the glass is not known or not filled so
    std::vector<QRectF> ice;
    std::vector<RulerTick> ticks;
    double rulerX = 0;

    double y(double heightMm) const { return floorY - heightMm * pxPerMm; }
};

// `values` must outlive what is returned.
GlassGeometry glassGeometry(const GlassValues& values, QSizeF size, const Look& look);
// The smallest usual denominator at which this glass fits: for drawing several at one scale.
double denominatorFor(const GlassShape& shape, QSizeF size, bool compact, const Look& look);

} // namespace stillroom::ui
