#pragma once

#include "core/physics/glass_profile.h"
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
    std::optional<physics::GlassProfile> profile; // none: nobody named a glass that is known
    double wallMm = 2.0;
    double floorMm = 5.0;
    double footRadiusMm = 33.0; // of a stemmed glass
    bool isKnown() const { return profile.has_value(); }
    bool isStemmed() const { return profile && profile->foot == physics::GlassFoot::Stem; }
    QString name() const; // "Low tumbler"
};
GlassShape shapeOf(const physics::GlassProfile& profile);

enum class LayerKind : unsigned char { Mixed, Topped, Floated };

struct GlassLayer {
    QString name; // "mixed", "float"
    double ml = 0;
    LayerKind kind = LayerKind::Mixed;
};

struct GlassIce {
    double sideMm = 0;
    int count = 1;
};

struct GlassValues {
    GlassShape shape;
    std::vector<GlassLayer> layers; // from the bottom up
    double headMl = 0;              // foam or head: above the line, not counted as liquid
    std::optional<GlassIce> ice;
    bool atLeast = false;              // something poured has no size yet: the line stands at least this high
    bool iceNotCounted = false;        // served over ice whose size nobody stated
    bool compact = false;              // beside others: share alone, no caption
    std::optional<double> denominator; // drawn at 1 : this; none: the largest that fits
};

// How much of `ice` is under liquid standing at this height, floating (or lying on the floor).
double submergedMl(const GlassIce& ice, double heightMm);

struct GlassBand {
    GlassLayer layer;
    double fromMm = 0;
    double toMm = 0;
    QPainterPath path;
};

struct RulerTick {
    double ml = 0;
    double y = 0;
    bool major = false;
};

struct GlassGeometry {
    GlassShape shape; // what is drawn: the glass, or the cylinder standing in for it
    double denominator = 1;
    double pxPerMm = 1;
    double brimMm = 0;
    double fillMm = 0;
    double brimMl = 0;
    double liquidMl = 0;
    double shareOfBrim = 0; // of the brim volume, ice counted where it is under the line
    double overMl = 0;      // what does not fit
    double headMm = 0;      // how high the head stands above the line
    double axisX = 0;
    double floorY = 0;
    QRectF glassBox; // outside, foot to brim
    QPainterPath inner;
    QPainterPath outer;
    std::vector<GlassBand> bands;
    std::vector<QRectF> ice;
    std::vector<RulerTick> ticks;
    double rulerX = 0;

    bool isOverfull() const { return overMl > 0.05; }
    double y(double heightMm) const { return floorY - heightMm * pxPerMm; }
};

// The shape drawn when nobody named a glass that is known: a plain cylinder of 70 mm that holds it all.
GlassShape plainCylinder(double ml);
GlassGeometry glassGeometry(const GlassValues& values, QSizeF size, const Look& look);
// The smallest usual denominator at which this glass fits: for drawing several at one scale.
double denominatorFor(const GlassShape& shape, QSizeF size, bool compact, const Look& look);

} // namespace stillroom::ui
