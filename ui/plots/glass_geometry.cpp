#include "ui/plots/glass_geometry.h"

#include "ui/plots/plot_text.h"
#include "ui/text/border.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

constexpr double kPxPerMmAtFullScale = 96.0 / 25.4;
// Fresh ice, 0 °C: 0.917 g/ml, floating in a drink of about 0.99 g/ml.
constexpr double kIceSubmergedShare = 0.917 / 0.99;
constexpr std::array<double, 14> kDenominators = {0.5, 0.75, 1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 5, 6, 8};
constexpr double kMlPerCubicMm = 1e-3;

struct Room {
    double left, right, top, bottom;
};

Room roomFor(bool compact, const Look& look) {
    return compact ? Room{look.px(42), look.px(42), look.px(16), look.px(6)}
                   : Room{look.px(40), look.px(50), look.px(54), look.px(24)};
}

double widestRadius(const GlassShape& shape) {
    double widest = 0;
    for (const auto& point : shape.profile->points)
        widest = std::max(widest, point.radiusMm);
    widest += shape.wallMm;
    return shape.isStemmed() ? std::max(widest, shape.footRadiusMm) : widest;
}

double heightOutside(const GlassShape& shape) {
    const double bowl = shape.profile->rimHeightMm();
    return bowl + (shape.isStemmed() ? shape.profile->stemMm : shape.floorMm);
}

// Height at which the liquid stands with the ice in it. Liquid and ice under the line together fill the
// glass up to there; both grow with the height, so halving finds it.
double heightWithIce(const physics::GlassProfile& inner, const std::optional<GlassIce>& ice, double ml) {
    if (!ice) return inner.heightOf(quantity::Volume::fromMl(ml));
    double low = 0;
    double high = inner.rimHeightMm();
    const auto liquidAt = [&](double height) {
        return std::max(0.0, inner.volumeTo(height).ml() - submergedMl(*ice, height));
    };
    if (liquidAt(high) <= ml) return high;
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        (liquidAt(middle) < ml ? low : high) = middle;
    }
    return (low + high) / 2;
}

// The inside between two heights, as a closed shape.
QPainterPath slice(const GlassGeometry& geometry, const physics::GlassProfile& inner, double from,
                   double to) {
    std::vector<physics::ProfilePoint> side;
    side.push_back({from, inner.radiusAt(from)});
    for (const auto& point : inner.points)
        if (point.heightMm > from && point.heightMm < to) side.push_back(point);
    side.push_back({to, inner.radiusAt(to)});
    QPainterPath path;
    const auto place = [&](const physics::ProfilePoint& point, double sign) {
        return QPointF(geometry.axisX + sign * point.radiusMm * geometry.pxPerMm, geometry.y(point.heightMm));
    };
    path.moveTo(place(side.front(), -1));
    for (const auto& point : side)
        path.lineTo(place(point, -1));
    for (auto point = side.rbegin(); point != side.rend(); ++point)
        path.lineTo(place(*point, 1));
    path.closeSubpath();
    return path;
}

void addRuler(GlassGeometry& geometry, const physics::GlassProfile& inner, const Look& look) {
    // Ticks no closer than 4 px where the glass is widest, numbers no closer than 20 px.
    const double perMlAtMost = geometry.pxPerMm * geometry.brimMm / std::max(1.0, geometry.brimMl);
    double minor = 500;
    for (const double step : {1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0})
        if (step * perMlAtMost >= look.px(6)) {
            minor = step;
            break;
        }
    double major = minor * 2;
    for (const double factor : {2.0, 5.0, 10.0})
        if (minor * factor <= geometry.brimMl && minor * factor * perMlAtMost >= look.px(24)) {
            major = minor * factor;
            break;
        }
    for (double ml = 0; ml <= geometry.brimMl + 1e-9; ml += minor) {
        const double off = std::fmod(ml, major);
        geometry.ticks.push_back({ml, geometry.y(inner.heightOf(quantity::Volume::fromMl(ml))),
                                  off < minor / 2 || major - off < minor / 2});
    }
}

QPainterPath openInside(const GlassGeometry& geometry, const physics::GlassProfile& inner) {
    QPainterPath path;
    const auto place = [&](const physics::ProfilePoint& point, double sign) {
        return QPointF(geometry.axisX + sign * point.radiusMm * geometry.pxPerMm, geometry.y(point.heightMm));
    };
    path.moveTo(place(inner.points.back(), -1));
    for (auto point = inner.points.rbegin(); point != inner.points.rend(); ++point)
        path.lineTo(place(*point, -1));
    for (const auto& point : inner.points)
        path.lineTo(place(point, 1));
    return path;
}

QPainterPath tumblerOutside(const GlassGeometry& geometry, const GlassShape& shape) {
    QPainterPath path;
    const auto& inner = *shape.profile;
    const auto place = [&](double radius, double height, double sign) {
        return QPointF(geometry.axisX + sign * radius * geometry.pxPerMm, geometry.y(height));
    };
    path.moveTo(place(inner.points.back().radiusMm, inner.rimHeightMm(), -1));
    path.lineTo(place(inner.points.back().radiusMm + shape.wallMm, inner.rimHeightMm(), -1));
    for (auto point = inner.points.rbegin(); point != inner.points.rend(); ++point)
        path.lineTo(place(point->radiusMm + shape.wallMm, point->heightMm, -1));
    path.lineTo(place(inner.points.front().radiusMm + shape.wallMm, -shape.floorMm, -1));
    path.lineTo(place(inner.points.front().radiusMm + shape.wallMm, -shape.floorMm, 1));
    for (const auto& point : inner.points)
        path.lineTo(place(point.radiusMm + shape.wallMm, point.heightMm, 1));
    path.lineTo(place(inner.points.back().radiusMm, inner.rimHeightMm(), 1));
    return path;
}

QPainterPath stemOutside(const GlassGeometry& geometry, const GlassShape& shape) {
    QPainterPath path;
    const double mm = geometry.pxPerMm;
    const double half = 3.0 * mm;
    const double table = geometry.floorY + shape.profile->stemMm * mm;
    const double foot = shape.footRadiusMm * mm;
    for (const double sign : {-1.0, 1.0}) {
        path.moveTo(geometry.axisX + sign * half, geometry.floorY);
        path.lineTo(geometry.axisX + sign * half, table - 8 * mm);
        path.cubicTo(geometry.axisX + sign * half, table - 3 * mm, geometry.axisX + sign * foot * 0.5,
                     table - 1.5 * mm, geometry.axisX + sign * foot, table);
    }
    path.moveTo(geometry.axisX - foot, table);
    path.lineTo(geometry.axisX + foot, table);
    return path;
}

void addBands(GlassGeometry& geometry, const GlassValues& values, const physics::GlassProfile& inner) {
    double poured = 0;
    double from = 0;
    for (const auto& layer : values.layers) {
        if (!(layer.ml > 0)) continue;
        poured += layer.ml;
        const double to = heightWithIce(inner, values.ice, poured);
        geometry.bands.push_back({layer, from, to, slice(geometry, inner, from, to)});
        from = to;
    }
    geometry.liquidMl = poured;
    geometry.fillMm = from;
    const double iceAtBrim = values.ice ? submergedMl(*values.ice, geometry.brimMm) : 0.0;
    geometry.overMl = std::max(0.0, poured - (geometry.brimMl - iceAtBrim));
    geometry.shareOfBrim =
        geometry.brimMl > 0 ? std::min(1.0, inner.volumeTo(geometry.fillMm).ml() / geometry.brimMl) : 0.0;
    const double area = M_PI * std::pow(inner.radiusAt(geometry.fillMm), 2);
    geometry.headMm = values.headMl > 0 && area > 0 ? values.headMl / kMlPerCubicMm / area : 0.0;
}

void addIce(GlassGeometry& geometry, const GlassIce& ice, const physics::GlassProfile& inner) {
    const double width = 2 * inner.radiusAt(geometry.fillMm);
    const int across = std::max(1, static_cast<int>(width / (ice.sideMm * 1.05)));
    const double deep = ice.sideMm * kIceSubmergedShare;
    for (int i = 0; i < std::min(ice.count, 12); ++i) {
        const int row = i / across;
        const int inRow = std::min(across, ice.count - row * across);
        const double x =
            geometry.axisX + ((i % across) - (inRow - 1) / 2.0) * ice.sideMm * 1.05 * geometry.pxPerMm;
        const double bottom = std::max(0.0, geometry.fillMm - deep - row * ice.sideMm * 1.03);
        const double side = ice.sideMm * geometry.pxPerMm;
        geometry.ice.emplace_back(x - side / 2, geometry.y(bottom) - side, side, side);
    }
}

} // namespace

QString GlassShape::name() const {
    auto text = profile ? fromCore(profile->name) : QString();
    if (!text.isEmpty()) text[0] = text[0].toUpper();
    return text;
}

GlassShape shapeOf(const physics::GlassProfile& profile) {
    GlassShape shape;
    shape.profile = profile;
    if (profile.foot == physics::GlassFoot::Stem) shape.wallMm = 1.0;
    return shape;
}

double submergedMl(const GlassIce& ice, double heightMm) {
    const double area = ice.sideMm * ice.sideMm * ice.count;
    const double deep = std::min(heightMm, ice.sideMm * kIceSubmergedShare);
    return area * std::max(0.0, deep) * kMlPerCubicMm;
}

GlassShape plainCylinder(double ml) {
    constexpr double kRadiusMm = 35;
    const double holds = std::max(150.0, ml * 1.2);
    GlassShape shape;
    physics::GlassProfile cylinder;
    cylinder.points = {{0, kRadiusMm}, {holds / kMlPerCubicMm / (M_PI * kRadiusMm * kRadiusMm), kRadiusMm}};
    shape.profile = std::move(cylinder);
    return shape;
}

double denominatorFor(const GlassShape& shape, QSizeF size, bool compact, const Look& look) {
    if (!shape.isKnown()) return 1;
    const auto room = roomFor(compact, look);
    const double width = std::max(1.0, size.width() - room.left - room.right);
    const double height = std::max(1.0, size.height() - room.top - room.bottom);
    const double perMm = look.px(kPxPerMmAtFullScale);
    const double need =
        std::max(2 * widestRadius(shape) * perMm / width, heightOutside(shape) * perMm / height);
    for (const double denominator : kDenominators)
        if (denominator >= need) return denominator;
    return std::ceil(need);
}

GlassGeometry glassGeometry(const GlassValues& values, QSizeF size, const Look& look) {
    double total = 0;
    for (const auto& layer : values.layers)
        total += std::max(0.0, layer.ml);
    const auto shape = values.shape.isKnown() ? values.shape : plainCylinder(total);
    const auto& inner = *shape.profile;

    GlassGeometry geometry;
    geometry.shape = shape;
    geometry.denominator = values.denominator.value_or(denominatorFor(shape, size, values.compact, look));
    geometry.pxPerMm = look.px(kPxPerMmAtFullScale) / geometry.denominator;
    geometry.brimMm = inner.rimHeightMm();
    geometry.brimMl = inner.brim().ml();

    const auto room = roomFor(values.compact, look);
    const double half = widestRadius(shape) * geometry.pxPerMm;
    const double tall = heightOutside(shape) * geometry.pxPerMm;
    geometry.axisX = room.left + (size.width() - room.left - room.right) / 2;
    // Glasses stand on one table line, at the bottom of the room they have.
    const double spare = std::max(0.0, size.height() - room.top - room.bottom - tall);
    const double table = size.height() - room.bottom - (values.compact ? 0 : spare / 2);
    geometry.floorY = table - (shape.isStemmed() ? shape.profile->stemMm : shape.floorMm) * geometry.pxPerMm;
    geometry.glassBox = QRectF(geometry.axisX - half, table - tall, 2 * half, tall);
    geometry.rulerX = geometry.glassBox.left() - look.px(10);

    geometry.inner = openInside(geometry, inner);
    geometry.outer = shape.isStemmed() ? stemOutside(geometry, shape) : tumblerOutside(geometry, shape);
    addBands(geometry, values, inner);
    if (values.ice && geometry.liquidMl > 0) addIce(geometry, *values.ice, inner);
    addRuler(geometry, inner, look);
    return geometry;
}

} // namespace stillroom::ui
