#include "ui/plots/glass_geometry.h"

#include "ui/plots/plot_text.h"

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

double frustumMl(const ProfilePoint& a, const ProfilePoint& b) {
    const double height = b.heightMm - a.heightMm;
    return M_PI * height / 3.0 *
           (a.radiusMm * a.radiusMm + a.radiusMm * b.radiusMm + b.radiusMm * b.radiusMm) * kMlPerCubicMm;
}

ProfilePoint pointAt(const ProfilePoint& a, const ProfilePoint& b, double heightMm) {
    const double rise = b.heightMm - a.heightMm;
    const double share = rise > 0 ? (heightMm - a.heightMm) / rise : 1.0;
    return {heightMm, a.radiusMm + share * (b.radiusMm - a.radiusMm)};
}

struct Room {
    double left, right, top, bottom;
};

Room roomFor(bool compact, const Look& look) {
    return compact ? Room{look.px(42), look.px(42), look.px(16), look.px(6)}
                   : Room{look.px(40), look.px(50), look.px(54), look.px(24)};
}

double widestRadius(const GlassShape& shape) {
    double widest = 0;
    for (const auto& point : shape.inner)
        widest = std::max(widest, point.radiusMm);
    widest += shape.wallMm;
    return shape.stem ? std::max(widest, shape.stem->footRadiusMm) : widest;
}

double heightOutside(const GlassShape& shape) {
    const double bowl = shape.inner.back().heightMm;
    return bowl + (shape.stem ? shape.stem->heightMm : shape.floorMm);
}

// Height at which the liquid stands with the ice in it. Liquid and ice under the line together fill the
// glass up to there; both grow with the height, so halving finds it.
double heightWithIce(const std::vector<ProfilePoint>& inner, const std::optional<GlassIce>& ice, double ml) {
    if (!ice) return heightOfVolume(inner, ml);
    double low = 0;
    double high = inner.back().heightMm;
    const auto liquidAt = [&](double height) {
        return std::max(0.0, volumeBelow(inner, height) - submergedMl(*ice, height));
    };
    if (liquidAt(high) <= ml) return high;
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        (liquidAt(middle) < ml ? low : high) = middle;
    }
    return (low + high) / 2;
}

// The inside between two heights, as a closed shape.
QPainterPath slice(const GlassGeometry& geometry, const std::vector<ProfilePoint>& inner, double from,
                   double to) {
    std::vector<ProfilePoint> side;
    side.push_back({from, radiusAt(inner, from)});
    for (const auto& point : inner)
        if (point.heightMm > from && point.heightMm < to) side.push_back(point);
    side.push_back({to, radiusAt(inner, to)});
    QPainterPath path;
    const auto place = [&](const ProfilePoint& point, double sign) {
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

void addRuler(GlassGeometry& geometry, const std::vector<ProfilePoint>& inner, const Look& look) {
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
        geometry.ticks.push_back(
            {ml, geometry.y(heightOfVolume(inner, ml)), off < minor / 2 || major - off < minor / 2});
    }
}

QPainterPath openInside(const GlassGeometry& geometry, const std::vector<ProfilePoint>& inner) {
    QPainterPath path;
    const auto place = [&](const ProfilePoint& point, double sign) {
        return QPointF(geometry.axisX + sign * point.radiusMm * geometry.pxPerMm, geometry.y(point.heightMm));
    };
    path.moveTo(place(inner.back(), -1));
    for (auto point = inner.rbegin(); point != inner.rend(); ++point)
        path.lineTo(place(*point, -1));
    for (const auto& point : inner)
        path.lineTo(place(point, 1));
    return path;
}

QPainterPath tumblerOutside(const GlassGeometry& geometry, const GlassShape& shape) {
    QPainterPath path;
    const auto& inner = shape.inner;
    const auto place = [&](double radius, double height, double sign) {
        return QPointF(geometry.axisX + sign * radius * geometry.pxPerMm, geometry.y(height));
    };
    path.moveTo(place(inner.back().radiusMm, inner.back().heightMm, -1));
    path.lineTo(place(inner.back().radiusMm + shape.wallMm, inner.back().heightMm, -1));
    for (auto point = inner.rbegin(); point != inner.rend(); ++point)
        path.lineTo(place(point->radiusMm + shape.wallMm, point->heightMm, -1));
    path.lineTo(place(inner.front().radiusMm + shape.wallMm, -shape.floorMm, -1));
    path.lineTo(place(inner.front().radiusMm + shape.wallMm, -shape.floorMm, 1));
    for (const auto& point : inner)
        path.lineTo(place(point.radiusMm + shape.wallMm, point.heightMm, 1));
    path.lineTo(place(inner.back().radiusMm, inner.back().heightMm, 1));
    return path;
}

QPainterPath stemOutside(const GlassGeometry& geometry, const GlassShape& shape) {
    QPainterPath path;
    const double mm = geometry.pxPerMm;
    const double half = 3.0 * mm;
    const double table = geometry.floorY + shape.stem->heightMm * mm;
    const double foot = shape.stem->footRadiusMm * mm;
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

void addBands(GlassGeometry& geometry, const GlassValues& values, const std::vector<ProfilePoint>& inner) {
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
        geometry.brimMl > 0 ? std::min(1.0, volumeBelow(inner, geometry.fillMm) / geometry.brimMl) : 0.0;
    const double area = M_PI * std::pow(radiusAt(inner, geometry.fillMm), 2);
    geometry.headMm = values.headMl > 0 && area > 0 ? values.headMl / kMlPerCubicMm / area : 0.0;
}

void addIce(GlassGeometry& geometry, const GlassIce& ice, const std::vector<ProfilePoint>& inner) {
    const double width = 2 * radiusAt(inner, geometry.fillMm);
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

double volumeBelow(const std::vector<ProfilePoint>& inner, double heightMm) {
    double ml = 0;
    for (std::size_t i = 1; i < inner.size(); ++i) {
        const auto& a = inner[i - 1];
        const auto& b = inner[i];
        if (heightMm <= a.heightMm) break;
        ml += frustumMl(a, heightMm < b.heightMm ? pointAt(a, b, heightMm) : b);
    }
    return ml;
}

double heightOfVolume(const std::vector<ProfilePoint>& inner, double ml) {
    if (inner.empty() || !(ml > 0)) return 0;
    double low = 0;
    double high = inner.back().heightMm;
    if (volumeBelow(inner, high) <= ml) return high;
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        (volumeBelow(inner, middle) < ml ? low : high) = middle;
    }
    return (low + high) / 2;
}

double radiusAt(const std::vector<ProfilePoint>& inner, double heightMm) {
    if (inner.empty()) return 0;
    for (std::size_t i = 1; i < inner.size(); ++i)
        if (heightMm <= inner[i].heightMm)
            return pointAt(inner[i - 1], inner[i], std::max(heightMm, inner[i - 1].heightMm)).radiusMm;
    return inner.back().radiusMm;
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
    shape.inner = {{0, kRadiusMm}, {holds / kMlPerCubicMm / (M_PI * kRadiusMm * kRadiusMm), kRadiusMm}};
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
    const auto& inner = shape.inner;

    GlassGeometry geometry;
    geometry.shape = shape;
    geometry.denominator = values.denominator.value_or(denominatorFor(shape, size, values.compact, look));
    geometry.pxPerMm = look.px(kPxPerMmAtFullScale) / geometry.denominator;
    geometry.brimMm = inner.back().heightMm;
    geometry.brimMl = volumeBelow(inner, geometry.brimMm);

    const auto room = roomFor(values.compact, look);
    const double half = widestRadius(shape) * geometry.pxPerMm;
    const double tall = heightOutside(shape) * geometry.pxPerMm;
    geometry.axisX = room.left + (size.width() - room.left - room.right) / 2;
    // Glasses stand on one table line, at the bottom of the room they have.
    const double spare = std::max(0.0, size.height() - room.top - room.bottom - tall);
    const double table = size.height() - room.bottom - (values.compact ? 0 : spare / 2);
    geometry.floorY = table - (shape.stem ? shape.stem->heightMm : shape.floorMm) * geometry.pxPerMm;
    geometry.glassBox = QRectF(geometry.axisX - half, table - tall, 2 * half, tall);
    geometry.rulerX = geometry.glassBox.left() - look.px(10);

    geometry.inner = openInside(geometry, inner);
    geometry.outer = shape.stem ? stemOutside(geometry, shape) : tumblerOutside(geometry, shape);
    addBands(geometry, values, inner);
    if (values.ice && geometry.liquidMl > 0) addIce(geometry, *values.ice, inner);
    addRuler(geometry, inner, look);
    return geometry;
}

} // namespace stillroom::ui
