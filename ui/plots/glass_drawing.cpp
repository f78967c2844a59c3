#include "ui/plots/glass_drawing.h"

#include "ui/plots/plot_text.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/theme/icons.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QHelpEvent>
#include <QPainter>
#include <QToolTip>

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
    const double unitY = std::max(geometry.y(geometry.filling->brimMm) - look.px(10), look.px(6));
    if (!compact || unitY > look.px(6))
        drawLabel(painter, QPointF(geometry.rulerX - look.px(10), unitY), Stand::Right, u"ml"_s, Type::Axis,
                  Token::Ink3, look);
}

// Bands are told apart by their hatching and the line between them; the tint only helps.
void paintBands(QPainter& painter, const GlassGeometry& geometry, const Look& look) {
    for (std::size_t i = 0; i < geometry.bands.size(); ++i) {
        const auto& band = geometry.bands[i];
        const bool apart = band.layer->kind != spec::GlassLayerKind::Drink;
        const bool odd = i % 2 == 1;
        painter.fillPath(band.path, look.color(odd ? Token::LiquidFloat : Token::LiquidBody));
        if (apart && (odd || geometry.bands.size() > 2))
            paintHatch(painter, band.path, look.px(odd ? 4.5 : 7), look.pen(Token::Ink3, 0.7),
                       odd ? Hatch::Rising : Hatch::Falling);
        if (band.layer->fromMm > 0) {
            painter.setPen(look.pen(Token::Ink3, 1));
            const double half = geometry.shape.profile.radiusAt(band.layer->fromMm) * geometry.pxPerMm;
            const double y = geometry.y(band.layer->fromMm);
            painter.drawLine(QPointF(geometry.axisX - half, y), QPointF(geometry.axisX + half, y));
        }
    }
}

// Foam is bubbles, cream is soft strokes; both end in a broken line, for their height is assumed.
void paintHeads(QPainter& painter, const GlassGeometry& geometry, const Look& look) {
    for (const auto& shape : geometry.heads) {
        const auto box = shape.path.boundingRect();
        painter.save();
        painter.fillPath(shape.path, look.color(Token::Page));
        painter.setClipPath(shape.path, Qt::IntersectClip);
        painter.setBrush(Qt::NoBrush);
        painter.setPen(look.pen(Token::Ink3, 0.9));
        const bool foam = shape.head->kind == spec::GlassHeadKind::Foam;
        int row = 0;
        for (double y = box.bottom() - look.px(3); y > box.top(); y -= look.px(foam ? 4.5 : 6), ++row)
            for (double x = box.left() + look.px(row % 2 ? 5 : 2); x < box.right();
                 x += look.px(foam ? 6 : 12))
                if (foam)
                    painter.drawEllipse(QPointF(x, y), look.px(1.3), look.px(1.3));
                else
                    painter.drawArc(QRectF(x, y - look.px(2), look.px(8), look.px(4)), 0, 180 * 16);
        painter.restore();
        auto pen = look.pen(Token::Ink3, 1.2);
        pen.setDashPattern({4, 3});
        painter.setPen(pen);
        painter.setBrush(Qt::NoBrush);
        painter.drawPath(shape.path);
    }
}

// Where such a drink is poured to, as a caliper beside the right wall: two ticks and what they mean.
void paintWashBand(QPainter& painter, const GlassGeometry& geometry, const GlassValues& values,
                   const Look& look) {
    if (geometry.washBand.isEmpty()) return;
    const auto& filling = *geometry.filling;
    auto pen = look.pen(Token::Intent, 1);
    pen.setDashPattern({2, 2});
    for (const double mm : {filling.washLowMm, filling.washHighMm}) {
        const double half = geometry.shape.profile.radiusAt(mm) * geometry.pxPerMm;
        painter.setPen(pen);
        painter.drawLine(QPointF(geometry.axisX - half, geometry.y(mm)),
                         QPointF(geometry.axisX + half, geometry.y(mm)));
    }
    if (values.compact) return;
    const double x = geometry.glassBox.right() + look.px(5);
    const double low = geometry.y(filling.washLowMm);
    const double high = geometry.y(filling.washHighMm);
    painter.setPen(look.pen(Token::Intent, 1.5));
    painter.drawLine(QPointF(x, low), QPointF(x, high));
    for (const double y : {low, high})
        painter.drawLine(QPointF(x - look.px(3), y), QPointF(x, y));
}

void paintIce(QPainter& painter, const GlassGeometry& geometry, const GlassValues& values, const Look& look) {
    if (!values.filling.ice) return;
    const auto& pieces = values.filling.ice->pieces;
    for (std::size_t i = 0; i < geometry.ice.size(); ++i) {
        const auto& cube = geometry.ice[i];
        auto fill = look.color(Token::Ice);
        fill.setAlphaF(0.72F);
        painter.setPen(look.pen(Token::GlassLine, 1));
        painter.setBrush(fill);
        if (pieces.sphere) {
            painter.drawEllipse(cube);
        } else {
            painter.drawRect(cube);
            const double in = std::min(look.px(6), cube.width() / 6);
            const auto face = cube.adjusted(in, in, -in, -in);
            painter.setBrush(Qt::NoBrush);
            painter.drawRect(face);
            painter.drawLine(cube.topLeft(), face.topLeft());
            painter.drawLine(cube.topRight(), face.topRight());
            painter.drawLine(cube.bottomLeft(), face.bottomLeft());
            painter.drawLine(cube.bottomRight(), face.bottomRight());
        }
        const auto label = withUnit(number(pieces.edgeMm, 0), pieces.sphere ? u"mm ball" : u"mm cube");
        if (i == 0 && !values.compact && textWidth(label, Type::Axis, look) < cube.width() * 0.7)
            drawLabel(painter, cube.center(), Stand::Centre, label, Type::Axis, Token::Ink2, look);
    }
}

QString layerMl(const spec::GlassLayer& layer) {
    const auto ml = withUnit(plotMl(layer.volumeMl), u"ml");
    return layer.atLeast ? u"≥ "_s + ml : ml;
}

QString densityText(const spec::GlassLayer& layer) {
    if (layer.densityKgPerM3) return withUnit(number(*layer.densityKgPerM3, 0), u"kg/m³");
    return withUnit(number(layer.lowKgPerM3, 0) + u'–' + number(layer.highKgPerM3, 0), u"kg/m³");
}

QString headWords(const spec::GlassHead& head) {
    return (head.kind == spec::GlassHeadKind::Cream ? u"cream head: about %1"_s : u"foam: about %1"_s)
        .arg(withUnit(plotMl(head.volumeMl), u"ml"));
}

// The lowest place in a band where a text of this width has 10 px of liquid on both sides and clears the ice.
std::optional<QPointF> placeInside(const GlassGeometry& geometry, const GlassBand& band, double width,
                                   const Look& look) {
    const auto area = band.path.boundingRect();
    for (double y = area.bottom() - look.px(13); y > area.top() + look.px(9); y -= look.px(2)) {
        const double radius =
            geometry.shape.profile.radiusAt((geometry.floorY - y - look.px(6)) / geometry.pxPerMm) *
            geometry.pxPerMm;
        const double low =
            geometry.shape.profile.radiusAt((geometry.floorY - y + look.px(6)) / geometry.pxPerMm) *
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
        const QString text = layerMl(*band.layer) + u' ' + band.name;
        const bool plain = band.layer->kind == spec::GlassLayerKind::Drink;
        const double within = area.width() - look.px(24);
        // A hatched layer carries its name on a plate; a float is too thin for one.
        if (!plain && area.height() >= look.px(18) && within >= look.px(50)) {
            const auto shown = elided(text, Type::Axis, look, within - look.px(8));
            const double half = textWidth(shown, Type::Axis, look) / 2 + look.px(4);
            painter.fillRect(
                QRectF(geometry.axisX - half, area.center().y() - look.px(8), 2 * half, look.px(16)),
                look.color(Token::Page));
            drawLabel(painter, QPointF(geometry.axisX, area.center().y()), Stand::Centre, shown, Type::Axis,
                      Token::Ink, look);
            continue;
        }
        const auto at =
            plain ? placeInside(geometry, band, textWidth(text, Type::Axis, look), look) : std::nullopt;
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
        drawLabel(painter, QPointF(x, label.y), Stand::Left, label.band->name, Type::Axis, Token::Ink2, look,
                  room);
        drawLabel(painter, QPointF(x, label.y + look.lineHeight(Type::Axis)), Stand::Left,
                  layerMl(*label.band->layer), Type::Axis, Token::Ink2, look, room);
    }
}

void paintFillLine(QPainter& painter, const GlassGeometry& geometry, const GlassValues& values,
                   const Look& look) {
    if (values.isEmpty()) return;
    const auto& filling = values.filling;
    const double reach = geometry.shape.profile.radiusAt(filling.fillMm) * geometry.pxPerMm + look.px(6);
    const double y = geometry.y(filling.fillMm);
    auto pen = look.pen(Token::Ink, 2);
    if (filling.atLeast) pen.setDashPattern({4, 2});
    painter.setPen(pen);
    painter.drawLine(QPointF(geometry.axisX - reach, y), QPointF(geometry.axisX + reach, y));
    if (filling.wash == spec::WashLine::Spills)
        painter.drawLine(QPointF(geometry.axisX - reach, y - look.px(4)),
                         QPointF(geometry.axisX + reach, y - look.px(4)));
}

QString drawnAt(const GlassGeometry& geometry) {
    return u"drawn at 1 : %1"_s.arg(number(geometry.denominator, decimalsOfStep(geometry.denominator)));
}

void paintWords(QPainter& painter, const QRectF& box, const GlassGeometry& geometry,
                const GlassValues& values, const Look& look) {
    const auto& filling = values.filling;
    if (values.compact) {
        if (!filling.glassKnown || values.isEmpty()) return;
        const auto share = filling.wash == spec::WashLine::Spills
                               ? u"over"_s
                               : withUnit(number(filling.shareOfBrim.value_or(0) * 100, 0), u"%");
        drawLabel(painter,
                  QPointF(geometry.glassBox.right() + look.px(9),
                          std::max(geometry.y(filling.fillMm), box.top() + look.px(10))),
                  Stand::Left, share, Type::Control, Token::Ink, look);
        return;
    }
    const double above = geometry.y(std::max(filling.brimMm, filling.topMm));
    const double second = std::max(box.top() + look.px(28), above - look.px(24));
    auto fact = glassFact(values, geometry);
    if (!filling.glassKnown) {
        const double width = textWidth(fact, Type::Heading, look);
        const double side = look.px(16);
        paintIcon(painter,
                  QRectF(box.center().x() - width / 2 - side - look.px(6), second - look.px(16) - side / 2,
                         side, side),
                  u"gap", look.color(Token::Gap));
    }
    drawLabel(painter, QPointF(box.center().x(), second - look.px(16)), Stand::Centre, fact, Type::Heading,
              Token::Ink, look, box.width());
    // A warning takes the place of what there is to spare.
    const auto doubts = glassDoubts(values);
    const bool warns = !doubts.isEmpty() && filling.wash != spec::WashLine::Spills && filling.glassKnown;
    drawLabel(painter, QPointF(box.center().x(), second), Stand::Centre,
              warns ? doubts.front() : glassConsequence(values, geometry), Type::Unit,
              warns ? Token::Caution : Token::Ink2, look, box.width());
    // The name gives way before the scale does.
    const double scaleWidth = textWidth(u", drawn at 1 : 1.75"_s, Type::Caption, look);
    const auto name =
        elided(geometry.shape.name(), Type::Caption, look, box.width() - scaleWidth - look.px(8));
    drawLabel(painter, QPointF(box.center().x(), geometry.glassBox.bottom() + look.px(14)), Stand::Centre,
              (name.isEmpty() ? QString() : name + u", "_s) + drawnAt(geometry), Type::Caption, Token::Ink3,
              look);
}

} // namespace

QString glassFact(const GlassValues& values, const GlassGeometry&) {
    const auto& filling = values.filling;
    if (values.isEmpty()) return filling.glassKnown ? u"nothing poured yet"_s : u"no glass named"_s;
    if (!filling.glassKnown) return u"this glass is not known"_s;
    if (filling.wash == spec::WashLine::Spills)
        return u"spills: %1 more than it holds"_s.arg(withUnit(plotMl(filling.overMl), u"ml"));
    const auto share = withUnit(number(filling.shareOfBrim.value_or(0) * 100, 0), u"%");
    return (filling.atLeast ? u"full to at least %1 of the brim,"_s : u"full to %1 of the brim,"_s)
        .arg(share);
}

QString glassConsequence(const GlassValues& values, const GlassGeometry&) {
    const auto& filling = values.filling;
    if (values.isEmpty())
        return filling.glassKnown
                   ? u"it holds %1 to the brim"_s.arg(withUnit(number(filling.brimMl, 0), u"ml"))
                   : u"the glass is drawn once you name one"_s;
    if (!filling.glassKnown) return u"a plain 70 mm cylinder stands in"_s;
    if (filling.wash == spec::WashLine::Spills)
        return u"the brim is at %1"_s.arg(withUnit(number(filling.brimMl, 0), u"ml"));
    const double spare = filling.brimMm - filling.fillMm;
    auto text = spare < 1 ? u"under 1 mm to spare"_s
                          : u"%1 to spare"_s.arg(withUnit(number(std::floor(spare), 0), u"mm"));
    for (const auto& doubt : filling.doubts)
        if (doubt.code == spec::FillDoubtCode::IceNotCounted) text += u"; ice not counted"_s;
    if (filling.wash == spec::WashLine::Short) text += u": looks short of 85–90 %"_s;
    if (filling.wash == spec::WashLine::High) text += u": hard to carry"_s;
    return text;
}

QStringList glassDoubts(const GlassValues& values) {
    QStringList all;
    for (const auto& doubt : values.filling.doubts) {
        switch (doubt.code) {
        case spec::FillDoubtCode::FloatSinks:
            all.prepend(u"the float is no lighter: it sinks and mixes in"_s);
            break;
        case spec::FillDoubtCode::PouredOutOfOrder:
            all.prepend(u"a layer is poured on a lighter one: it goes below"_s);
            break;
        case spec::FillDoubtCode::OrderUnknown:
            all << u"too little is known to say what stays on top"_s;
            break;
        case spec::FillDoubtCode::IceDoesNotPass:
            all << u"this ice is wider than the mouth of the glass"_s;
            break;
        case spec::FillDoubtCode::HeadOverBrim:
            all << u"the head stands above the brim"_s;
            break;
        case spec::FillDoubtCode::VolumeUnknown:
            all << u"parts need a volume before they fill a glass"_s;
            break;
        default: // told by the line, the fact or the consequence
            break;
        }
    }
    all.removeDuplicates();
    return all;
}

QString layerWords(const GlassValues& values, std::size_t layer) {
    const auto& of = values.filling.layers.at(layer);
    const QString name = layer < values.layerNames.size() ? values.layerNames[layer] : QString();
    return u"%1: %2 at %3"_s.arg(name, layerMl(of), densityText(of));
}

QString glassScale(const GlassValues& values, const GlassGeometry& geometry) {
    const QString name = values.filling.glassKnown ? geometry.shape.name() : QString();
    return name.isEmpty() ? drawnAt(geometry) : name + u", "_s + drawnAt(geometry);
}

void paintGlass(QPainter& painter, const QRectF& box, const GlassValues& values, const Look& look) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(box.topLeft());
    const QRectF field(QPointF(0, 0), box.size());
    const auto geometry = glassGeometry(values, box.size(), look);
    paintBands(painter, geometry, look);
    paintWashBand(painter, geometry, values, look);
    paintIce(painter, geometry, values, look);
    paintHeads(painter, geometry, look);
    auto line = look.pen(Token::GlassLine, 1.5);
    line.setJoinStyle(Qt::RoundJoin);
    if (!values.filling.glassKnown) line.setDashPattern({4, 3});
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

GlassDrawing::GlassDrawing(QWidget* parent) : PlotOf(u"Glass, in section and to scale"_s, parent) {}

QString GlassDrawing::words() const {
    const auto geometry = glassGeometry(m_values, size(), Theme::current().look());
    const auto& filling = m_values.filling;
    QString text;
    if (filling.glassKnown && !geometry.shape.name().isEmpty()) text = geometry.shape.name() + u": "_s;
    text += glassFact(m_values, geometry) + u' ' + glassConsequence(m_values, geometry) + u'.';
    for (std::size_t i = 0; i < filling.layers.size(); ++i)
        text += u' ' + layerWords(m_values, i) + u'.';
    for (const auto& head : filling.heads)
        text += u' ' + headWords(head) + u'.';
    if (filling.ice)
        text +=
            u" Ice of %1 takes the room of %2."_s.arg(withUnit(number(filling.ice->pieces.grams, 0), u"g"),
                                                      withUnit(plotMl(filling.ice->displacedMl), u"ml"));
    for (const auto& doubt : glassDoubts(m_values))
        text += u' ' + doubt + u'.';
    return text;
}

QList<QStringList> GlassDrawing::rows() const {
    const auto& filling = m_values.filling;
    QList<QStringList> rows{{u"layer"_s, u"ml"_s, u"kg/m³"_s, u"from mm"_s, u"to mm"_s}};
    for (std::size_t i = 0; i < filling.layers.size(); ++i) {
        const auto& layer = filling.layers[i];
        rows << QStringList{i < m_values.layerNames.size() ? m_values.layerNames[i] : QString(),
                            number(layer.volumeMl, 1),
                            layer.densityKgPerM3 ? number(*layer.densityKgPerM3, 0) : u"?"_s,
                            number(layer.fromMm, 1), number(layer.toMm, 1)};
    }
    for (const auto& head : filling.heads)
        rows << QStringList{head.kind == spec::GlassHeadKind::Cream ? u"cream head"_s : u"foam"_s,
                            number(head.volumeMl, 0), QString(), number(head.fromMm, 1),
                            number(head.toMm, 1)};
    rows << QStringList{u"brim"_s, number(filling.brimMl, 0), QString(), QString(),
                        number(filling.brimMm, 1)};
    return rows;
}

QString GlassDrawing::wordsAt(QPointF at) const {
    const auto geometry = glassGeometry(m_values, size(), Theme::current().look());
    for (const auto& head : geometry.heads)
        if (head.path.contains(at)) return headWords(*head.head);
    for (const auto& cube : geometry.ice)
        if (cube.contains(at))
            return u"ice: %1"_s.arg(withUnit(number(m_values.filling.ice->pieces.grams, 0), u"g"));
    for (std::size_t i = 0; i < geometry.bands.size(); ++i)
        if (geometry.bands[i].path.contains(at)) return layerWords(m_values, i);
    return {};
}

bool GlassDrawing::event(QEvent* event) {
    if (event->type() != QEvent::ToolTip) return PlotWidget::event(event);
    const auto* help = static_cast<QHelpEvent*>(event);
    const auto text = wordsAt(QPointF(help->pos()));
    if (text.isEmpty())
        QToolTip::hideText();
    else
        QToolTip::showText(help->globalPos(), text, this);
    return true;
}

QSize GlassDrawing::sizeHint() const {
    const auto& theme = Theme::current();
    return {theme.pxInt(262), theme.pxInt(310)};
}

QSize GlassDrawing::minimumSizeHint() const {
    const auto& theme = Theme::current();
    return {theme.pxInt(180), theme.pxInt(180)};
}

void GlassDrawing::paint(QPainter& painter) {
    paintGlass(painter, QRectF(rect()), m_values, Theme::current().look());
}

} // namespace stillroom::ui
