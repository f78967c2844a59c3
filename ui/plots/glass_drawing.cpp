#include "ui/plots/glass_drawing.h"

#include "ui/plots/plot_text.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/theme/icons.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QPainter>

#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

void paintRuler(QPainter& painter, const GlassGeometry& geometry, bool compact, const Look& look) {
    if (geometry.ticks.empty()) return;
    painter.setPen(look.pen(Token::GlassLine, 1));
    painter.drawLine(QPointF(geometry.rulerX, geometry.ticks.front().y),
                     QPointF(geometry.rulerX, geometry.ticks.back().y));
    for (const auto& tick : geometry.ticks) {
        painter.setPen(look.pen(Token::GlassLine, 1));
        painter.drawLine(QPointF(geometry.rulerX, tick.y),
                         QPointF(geometry.rulerX - look.px(tick.major ? 7 : 4), tick.y));
        if (tick.major)
            drawLabel(painter, QPointF(geometry.rulerX - look.px(10), tick.y), Stand::Right,
                      number(tick.ml, 0), Type::Axis, Token::Ink3, look);
    }
    const double unitY = std::max(geometry.y(geometry.brimMm) - look.px(10), look.px(6));
    if (!compact || unitY > look.px(6))
        drawLabel(painter, QPointF(geometry.rulerX - look.px(10), unitY), Stand::Right, u"ml"_s, Type::Axis,
                  Token::Ink3, look);
}

void paintBands(QPainter& painter, const GlassGeometry& geometry, const Look& look) {
    for (const auto& band : geometry.bands) {
        const bool floated = band.layer.kind == LayerKind::Floated;
        painter.fillPath(band.path, look.color(floated ? Token::LiquidFloat : Token::LiquidBody));
        if (floated) paintHatch(painter, band.path, look.px(4.5), look.pen(Token::Ink3, 0.7));
        if (band.fromMm > 0) {
            painter.setPen(look.pen(Token::GlassLine, 1));
            const auto box = band.path.boundingRect();
            painter.drawLine(QPointF(box.left(), geometry.y(band.fromMm)),
                             QPointF(box.right(), geometry.y(band.fromMm)));
        }
    }
}

void paintHead(QPainter& painter, const GlassGeometry& geometry, const Look& look) {
    if (geometry.headMm <= 0 || geometry.bands.empty()) return;
    const auto surface = geometry.bands.back().path.boundingRect();
    const double top = geometry.y(geometry.fillMm + geometry.headMm);
    const double bottom = geometry.y(geometry.fillMm);
    painter.setPen(Qt::NoPen);
    painter.setBrush(look.color(Token::GlassLine));
    int row = 0;
    for (double y = bottom - look.px(4); y > top + look.px(1); y -= look.px(4), ++row)
        for (double x = surface.left() + look.px(row % 2 ? 5 : 3); x < surface.right() - look.px(2);
             x += look.px(5))
            painter.drawEllipse(QPointF(x, y), look.px(0.8), look.px(0.8));
    auto pen = look.pen(Token::GlassLine, 1.2);
    pen.setDashPattern({4, 3});
    painter.setPen(pen);
    painter.drawLine(QPointF(surface.left(), top), QPointF(surface.right(), top));
}

void paintIce(QPainter& painter, const GlassGeometry& geometry, const GlassValues& values, const Look& look) {
    for (std::size_t i = 0; i < geometry.ice.size(); ++i) {
        const auto& cube = geometry.ice[i];
        auto fill = look.color(Token::Ice);
        fill.setAlphaF(0.72F);
        painter.setPen(look.pen(Token::GlassLine, 1));
        painter.setBrush(fill);
        painter.drawRect(cube);
        const double in = std::min(look.px(6), cube.width() / 6);
        const auto face = cube.adjusted(in, in, -in, -in);
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(face);
        painter.drawLine(cube.topLeft(), face.topLeft());
        painter.drawLine(cube.topRight(), face.topRight());
        painter.drawLine(cube.bottomLeft(), face.bottomLeft());
        painter.drawLine(cube.bottomRight(), face.bottomRight());
        const auto label = withUnit(number(values.ice->sideMm, 0), u"mm cube");
        if (i == 0 && !values.compact && textWidth(label, Type::Axis, look) < face.width())
            drawLabel(painter, face.center(), Stand::Centre, label, Type::Axis, Token::Ink2, look);
    }
}

QString layerMl(const GlassValues& values, const GlassLayer& layer) {
    const auto ml = withUnit(plotMl(layer.ml), u"ml");
    if (values.atLeast && layer.kind == LayerKind::Mixed) return u"≥ "_s + ml;
    return ml;
}

// The lowest place in a band where a text of this width has 10 px of liquid on both sides and clears the ice.
std::optional<QPointF> placeInside(const GlassGeometry& geometry, const GlassBand& band, double width,
                                   const Look& look) {
    const auto area = band.path.boundingRect();
    for (double y = area.bottom() - look.px(13); y > area.top() + look.px(9); y -= look.px(2)) {
        const double radius =
            geometry.shape.profile->radiusAt((geometry.floorY - y - look.px(6)) / geometry.pxPerMm) *
            geometry.pxPerMm;
        const double low =
            geometry.shape.profile->radiusAt((geometry.floorY - y + look.px(6)) / geometry.pxPerMm) *
            geometry.pxPerMm;
        const double half = std::min(radius, low) - look.px(10);
        if (2 * half < width) continue;
        const QRectF text(geometry.axisX - half, y - look.px(7), width, look.px(14));
        for (const auto& cube : geometry.ice)
            if (cube.intersects(text)) return std::nullopt;
        return QPointF(geometry.axisX - half, y);
    }
    return std::nullopt;
}

// Inside where there is room, else outside the right wall with a leader, spread so that none overlap.
void paintLayerLabels(QPainter& painter, const GlassGeometry& geometry, const GlassValues& values,
                      const QRectF& box, const Look& look) {
    struct Outside {
        const GlassBand* band;
        double y;
    };
    std::vector<Outside> outside;
    for (const auto& band : geometry.bands) {
        const auto area = band.path.boundingRect();
        const QString text = layerMl(values, band.layer) + u' ' + band.layer.name;
        const auto at = band.layer.kind == LayerKind::Floated
                            ? std::nullopt
                            : placeInside(geometry, band, textWidth(text, Type::Axis, look), look);
        if (at)
            drawLabel(painter, *at, Stand::Left, text, Type::Axis, Token::Ink2, look);
        else
            outside.push_back({&band, area.center().y()});
    }
    const double pitch = look.lineHeight(Type::Axis) * 2 + look.px(2);
    double below = box.bottom() - look.px(values.compact ? 6 : 34);
    for (auto& label : outside) { // from the bottom up
        label.y = std::min(label.y + look.px(26), below);
        below = label.y - pitch;
    }
    const double x = geometry.glassBox.right() + look.px(10);
    for (const auto& label : outside) {
        const auto area = label.band->path.boundingRect();
        painter.setPen(look.pen(Token::GlassLine, 1));
        painter.drawLine(QPointF(area.right() - look.px(4), area.center().y()),
                         QPointF(x - look.px(2), label.y - look.px(4)));
        const double room = box.right() - x - look.px(2);
        drawLabel(painter, QPointF(x, label.y), Stand::Left, label.band->layer.name, Type::Axis, Token::Ink2,
                  look, room);
        drawLabel(painter, QPointF(x, label.y + look.lineHeight(Type::Axis)), Stand::Left,
                  layerMl(values, label.band->layer), Type::Axis, Token::Ink2, look, room);
    }
}

void paintFillLine(QPainter& painter, const GlassGeometry& geometry, const GlassValues& values,
                   const Look& look) {
    if (geometry.liquidMl <= 0) return;
    const double reach = geometry.shape.profile->radiusAt(geometry.fillMm) * geometry.pxPerMm + look.px(6);
    const double y = geometry.y(geometry.fillMm);
    auto pen = look.pen(Token::Ink, 2);
    if (values.atLeast) pen.setDashPattern({4, 2});
    painter.setPen(pen);
    painter.drawLine(QPointF(geometry.axisX - reach, y), QPointF(geometry.axisX + reach, y));
    if (geometry.isOverfull())
        painter.drawLine(QPointF(geometry.axisX - reach, y - look.px(4)),
                         QPointF(geometry.axisX + reach, y - look.px(4)));
}

void paintWords(QPainter& painter, const QRectF& box, const GlassGeometry& geometry,
                const GlassValues& values, const Look& look) {
    if (values.compact) {
        const auto share = geometry.liquidMl <= 0  ? QString()
                           : geometry.isOverfull() ? u"over"_s
                                                   : withUnit(number(geometry.shareOfBrim * 100, 0), u"%");
        if (!values.shape.isKnown()) return;
        drawLabel(painter,
                  QPointF(geometry.glassBox.right() + look.px(9),
                          std::max(geometry.y(geometry.fillMm), box.top() + look.px(10))),
                  Stand::Left, share, Type::Control, Token::Ink, look);
        return;
    }
    const double above = geometry.y(geometry.brimMm + geometry.headMm);
    const double second = std::max(box.top() + look.px(28), above - look.px(24));
    auto fact = glassFact(values, geometry);
    if (!values.shape.isKnown()) {
        const double width = textWidth(fact, Type::Heading, look);
        const double side = look.px(16);
        paintIcon(painter,
                  QRectF(box.center().x() - width / 2 - side - look.px(6), second - look.px(16) - side / 2,
                         side, side),
                  u"gap", look.color(Token::Gap));
    }
    drawLabel(painter, QPointF(box.center().x(), second - look.px(16)), Stand::Centre, fact, Type::Heading,
              Token::Ink, look, box.width());
    drawLabel(painter, QPointF(box.center().x(), second), Stand::Centre, glassConsequence(values, geometry),
              Type::Unit, Token::Ink2, look, box.width());
    // The name gives way before the scale does.
    auto named = values;
    const double scaleWidth = textWidth(u", drawn at 1 : 1.75"_s, Type::Caption, look);
    if (named.shape.profile)
        named.shape.profile->name =
            toCore(elided(values.shape.name(), Type::Caption, look, box.width() - scaleWidth - look.px(8)));
    drawLabel(painter, QPointF(box.center().x(), geometry.glassBox.bottom() + look.px(14)), Stand::Centre,
              glassScale(named, geometry), Type::Caption, Token::Ink3, look);
}

} // namespace

QString glassFact(const GlassValues& values, const GlassGeometry& geometry) {
    if (geometry.liquidMl <= 0) return values.shape.isKnown() ? u"nothing poured yet"_s : u"no glass named"_s;
    if (!values.shape.isKnown()) return u"this glass is not known"_s;
    if (geometry.isOverfull())
        return u"%1 more than it holds"_s.arg(withUnit(plotMl(geometry.overMl), u"ml"));
    const auto share = withUnit(number(geometry.shareOfBrim * 100, 0), u"%");
    return (values.atLeast ? u"full to at least %1 of the brim,"_s : u"full to %1 of the brim,"_s).arg(share);
}

QString glassConsequence(const GlassValues& values, const GlassGeometry& geometry) {
    if (geometry.liquidMl <= 0)
        return values.shape.isKnown()
                   ? u"it holds %1 to the brim"_s.arg(withUnit(number(geometry.brimMl, 0), u"ml"))
                   : u"the glass is drawn once you name one"_s;
    if (!values.shape.isKnown()) return u"a plain 70 mm cylinder stands in"_s;
    if (geometry.isOverfull()) return u"the brim is at %1"_s.arg(withUnit(number(geometry.brimMl, 0), u"ml"));
    const double spare = geometry.brimMm - geometry.fillMm;
    auto text = spare < 1 ? u"under 1 mm to spare"_s
                          : u"%1 to spare"_s.arg(withUnit(number(std::floor(spare), 0), u"mm"));
    if (values.iceNotCounted) text += u"; ice not counted"_s;
    return text;
}

QString glassScale(const GlassValues& values, const GlassGeometry& geometry) {
    const int decimals = decimalsOfStep(geometry.denominator);
    const auto scale = u"drawn at 1 : %1"_s.arg(number(geometry.denominator, decimals));
    if (!values.shape.isKnown() || values.shape.name().isEmpty()) return scale;
    return values.shape.name() + u", "_s + scale;
}

void paintGlass(QPainter& painter, const QRectF& box, const GlassValues& values, const Look& look) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(box.topLeft());
    const QRectF field(QPointF(0, 0), box.size());
    const auto geometry = glassGeometry(values, box.size(), look);
    paintBands(painter, geometry, look);
    paintHead(painter, geometry, look);
    paintIce(painter, geometry, values, look);
    auto line = look.pen(Token::GlassLine, 1.5);
    line.setJoinStyle(Qt::RoundJoin);
    if (!values.shape.isKnown()) line.setDashPattern({4, 3});
    painter.setPen(line);
    painter.setBrush(Qt::NoBrush);
    painter.drawPath(geometry.outer);
    painter.drawPath(geometry.inner);
    paintFillLine(painter, geometry, values, look);
    paintRuler(painter, geometry, values.compact, look);
    if (!values.compact) paintLayerLabels(painter, geometry, values, field, look);
    paintWords(painter, field, geometry, values, look);
    painter.restore();
}

GlassDrawing::GlassDrawing(QWidget* parent) : PlotWidget(u"Glass, in section and to scale"_s, parent) {}

void GlassDrawing::setValues(const GlassValues& values) {
    m_values = values;
    valuesChanged();
}

QString GlassDrawing::words() const {
    const auto geometry = glassGeometry(m_values, size(), Theme::current().look());
    QString text;
    if (!m_values.shape.name().isEmpty()) text = m_values.shape.name() + u": "_s;
    text += glassFact(m_values, geometry) + u' ' + glassConsequence(m_values, geometry) + u'.';
    for (const auto& band : geometry.bands)
        text += u" %1 %2."_s.arg(layerMl(m_values, band.layer), band.layer.name);
    if (m_values.headMl > 0)
        text += u" %1 of head above the line."_s.arg(withUnit(plotMl(m_values.headMl), u"ml"));
    return text;
}

QList<QStringList> GlassDrawing::rows() const {
    const auto geometry = glassGeometry(m_values, size(), Theme::current().look());
    QList<QStringList> rows{{u"layer"_s, u"ml"_s, u"from mm"_s, u"to mm"_s}};
    for (const auto& band : geometry.bands)
        rows << QStringList{band.layer.name, number(band.layer.ml, 1), number(band.fromMm, 1),
                            number(band.toMm, 1)};
    rows << QStringList{u"brim"_s, number(geometry.brimMl, 0), QString(), number(geometry.brimMm, 1)};
    return rows;
}

QSize GlassDrawing::sizeHint() const {
    const auto& theme = Theme::current();
    return {theme.pxInt(262), theme.pxInt(310)};
}

QSize GlassDrawing::minimumSizeHint() const {
    const auto& theme = Theme::current();
    return {theme.pxInt(200), theme.pxInt(180)};
}

void GlassDrawing::paint(QPainter& painter) {
    paintGlass(painter, QRectF(rect()), m_values, Theme::current().look());
}

} // namespace stillroom::ui
