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
constexpr std::array<double, 14> kDenominators = {0.5, 0.75, 1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 5, 6, 8};

struct Room {
    double left, right, top, bottom;
};

Room roomFor(bool compact, const Look& look) {
    return compact ? Room{look.px(42), look.px(42), look.px(16), look.px(6)}
                   : Room{look.px(40), look.px(50), look.px(54), look.px(24)};
}

double widestRadius(const GlassShape& shape) {
    double widest = 0;
    for (const auto& point : shape.profile.points)
        widest = std::max(widest, point.radiusMm);
    widest += shape.wallMm;
    return shape.isStemmed() ? std::max(widest, shape.footRadiusMm) : widest;
}

double heightOutside(const GlassShape& shape) {
    const double bowl = shape.profile.rimHeightMm();
    return bowl + (shape.isStemmed() ? shape.profile.stemMm : shape.floorMm);
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
    const double brimMl = geometry.filling->brimMl;
    const double perMlAtMost = geometry.pxPerMm * geometry.filling->brimMm / std::max(1.0, brimMl);
    double minor = 500;
    for (const double step : {1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0})
        if (step * perMlAtMost >= look.px(6)) {
            minor = step;
            break;
        }
    double major = minor * 2;
    for (const double factor : {2.0, 5.0, 10.0})
        if (minor * factor <= brimMl && minor * factor * perMlAtMost >= look.px(24)) {
            major = minor * factor;
            break;
        }
    for (double ml = 0; ml <= brimMl + 1e-9; ml += minor) {
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
    const auto& inner = shape.profile;
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
    const double table = geometry.floorY + shape.profile.stemMm * mm;
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
    const auto& filling = values.filling;
    for (std::size_t i = 0; i < filling.layers.size(); ++i) {
        const auto& layer = filling.layers[i];
        const QString name = i < values.layerNames.size() ? values.layerNames[i] : QString();
        geometry.bands.push_back({&layer, name, slice(geometry, inner, layer.fromMm, layer.toMm)});
    }
    for (const auto& head : filling.heads) {
        auto path = slice(geometry, inner, head.fromMm, std::min(head.toMm, filling.brimMm));
        if (head.toMm > filling.brimMm) {
            // Above the rim it stands as wide as the mouth, rounded off.
            const double half = inner.radiusAt(filling.brimMm) * geometry.pxPerMm;
            const double top = geometry.y(head.toMm);
            const double rim = geometry.y(std::max(head.fromMm, filling.brimMm));
            QPainterPath dome;
            dome.moveTo(geometry.axisX - half, rim);
            dome.cubicTo(geometry.axisX - half, top, geometry.axisX - half * 0.5, top, geometry.axisX, top);
            dome.cubicTo(geometry.axisX + half * 0.5, top, geometry.axisX + half, top, geometry.axisX + half,
                         rim);
            dome.closeSubpath();
            path = path.united(dome);
        }
        geometry.heads.push_back({&head, path});
    }
    const bool applies = filling.glassKnown && filling.wash != spec::WashLine::NotPoured;
    if (applies && !values.isEmpty())
        geometry.washBand = slice(geometry, inner, filling.washLowMm, filling.washHighMm);
}

void addIce(GlassGeometry& geometry, const spec::GlassIce& ice) {
    const double edge = ice.pieces.edgeMm;
    if (edge <= 0) return; // a weight alone has no shape to draw
    // In section: of pieces side by side as many as stand in one line, the others behind them.
    const int wide = ice.across == 1 ? 1 : ice.across < 9 ? 2 : 3;
    const double side = edge * geometry.pxPerMm;
    int left = ice.pieces.count;
    for (int row = 0; left > 0 && row < 8; ++row) {
        const int inRow = std::min(wide, left);
        for (int i = 0; i < inRow; ++i) {
            const double x = geometry.axisX + (i - (inRow - 1) / 2.0) * side;
            geometry.ice.emplace_back(x - side / 2, geometry.y(ice.bottomMm + row * edge) - side, side, side);
        }
        left -= ice.across;
    }
}

} // namespace

QString GlassShape::name() const {
    auto text = fromCore(profile.name);
    if (!text.isEmpty()) text[0] = text[0].toUpper();
    return text;
}

GlassShape shapeOf(const physics::GlassProfile& profile) {
    GlassShape shape;
    shape.profile = profile;
    if (profile.foot == physics::GlassFoot::Stem) shape.wallMm = 1.0;
    return shape;
}

double denominatorFor(const GlassShape& shape, QSizeF size, bool compact, const Look& look) {
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
    GlassGeometry geometry;
    geometry.shape =
        shapeOf(values.filling.glass.points.empty() ? physics::standInGlass({}) : values.filling.glass);
    const auto& shape = geometry.shape;
    const auto& inner = shape.profile;
    geometry.filling = &values.filling;
    geometry.denominator = values.denominator.value_or(denominatorFor(shape, size, values.compact, look));
    geometry.pxPerMm = look.px(kPxPerMmAtFullScale) / geometry.denominator;

    const auto room = roomFor(values.compact, look);
    const double half = widestRadius(shape) * geometry.pxPerMm;
    const double tall = heightOutside(shape) * geometry.pxPerMm;
    geometry.axisX = room.left + (size.width() - room.left - room.right) / 2;
    // Glasses stand on one table line, at the bottom of the room they have.
    const double spare = std::max(0.0, size.height() - room.top - room.bottom - tall);
    const double table = size.height() - room.bottom - (values.compact ? 0 : spare / 2);
    geometry.floorY = table - (shape.isStemmed() ? shape.profile.stemMm : shape.floorMm) * geometry.pxPerMm;
    geometry.glassBox = QRectF(geometry.axisX - half, table - tall, 2 * half, tall);
    geometry.rulerX = geometry.glassBox.left() - look.px(10);

    geometry.inner = openInside(geometry, inner);
    geometry.outer = shape.isStemmed() ? stemOutside(geometry, shape) : tumblerOutside(geometry, shape);
    addBands(geometry, values, inner);
    if (values.filling.ice && !values.isEmpty()) addIce(geometry, *values.filling.ice);
    addRuler(geometry, inner, look);
    return geometry;
}

} // namespace stillroom::ui
