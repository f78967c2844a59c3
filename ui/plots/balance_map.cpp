#include "ui/plots/balance_map.h"

#include "ui/plots/plot_text.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QHelpEvent>
#include <QPainter>
#include <QToolTip>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

// More steps than this would be a scribble: the older ones are dots, off the path.
constexpr std::size_t kJoined = 10;

QString ratioText(double ratio) {
    return u"%1\u202f:\u202f1"_s.arg(trimmedNumber(ratio, 1));
}

void paintAxes(QPainter& painter, const BalanceGeometry& geometry, const Look& look) {
    const auto& field = geometry.field;
    painter.setPen(look.pen(Token::GlassLine, 1));
    painter.drawLine(field.bottomLeft(), field.bottomRight());
    painter.drawLine(field.topLeft(), field.bottomLeft());
    const auto steps = [](const Axis& axis) {
        return static_cast<int>(std::lround((axis.high - axis.low) / axis.step));
    };
    for (int i = 0; i <= steps(geometry.sugar); ++i) {
        const double value = geometry.sugar.low + i * geometry.sugar.step;
        const double x = field.left() + geometry.sugar.share(value) * field.width();
        painter.setPen(look.pen(Token::GlassLine, 1));
        painter.drawLine(QPointF(x, field.bottom()), QPointF(x, field.bottom() + look.px(5)));
        drawLabel(painter, QPointF(x, field.bottom() + look.px(12)), Stand::Centre,
                  number(value, geometry.sugar.decimals), Type::Axis, Token::Ink3, look);
    }
    for (int i = 0; i <= steps(geometry.acid); ++i) {
        const double value = geometry.acid.low + i * geometry.acid.step;
        const double y = field.bottom() - geometry.acid.share(value) * field.height();
        painter.setPen(look.pen(Token::GlassLine, 1));
        painter.drawLine(QPointF(field.left(), y), QPointF(field.left() - look.px(5), y));
        drawLabel(painter, QPointF(field.left() - look.px(8), y), Stand::Right,
                  number(value, geometry.acid.decimals), Type::Axis, Token::Ink3, look);
    }
    drawLabel(painter, field.topLeft() + QPointF(look.px(5), look.px(8)), Stand::Left, u"acid"_s, Type::Axis,
              Token::Ink3, look);
    drawLabel(painter, QPointF(field.right(), field.bottom() + look.px(25)), Stand::Right,
              u"sugar, g per 100 ml"_s, Type::Axis, Token::Ink3, look);
}

void paintRays(QPainter& painter, const BalanceGeometry& geometry, const Look& look) {
    for (const auto& ray : geometry.rays) {
        auto pen = look.pen(Token::RuleStrong, 1);
        pen.setDashPattern({1, 3});
        painter.setPen(pen);
        painter.drawLine(ray.line);
        const auto text = ratioText(ray.ratio);
        const double width = textWidth(text, Type::Axis, look) + look.px(4);
        painter.fillRect(
            QRectF(ray.labelAt.x() - width / 2, ray.labelAt.y() - look.px(6), width, look.px(12)),
            look.color(Token::Well));
        drawLabel(painter, ray.labelAt, Stand::Centre, text, Type::Axis, Token::Ink3, look);
    }
}

// The corner of the region where its name covers no point, nor the lines from the draft's to the scales; none
// when every one does.
QRectF cornerForName(const BalanceGeometry& geometry, const BalanceValues& values, QSizeF size,
                     const Look& look) {
    std::vector<QRectF> taken;
    const double r = look.px(7);
    const auto take = [&](const MapPoint& point) {
        if (!point.isPlaced()) return;
        const QPointF at = geometry.at(point);
        taken.emplace_back(at.x() - r, at.y() - r, 2 * r, 2 * r);
    };
    for (const auto& point : values.earlier)
        take(point);
    if (values.now && values.now->isPlaced()) {
        take(*values.now);
        const QPointF at = geometry.at(*values.now);
        taken.emplace_back(geometry.field.left(), at.y() - 1, at.x() - geometry.field.left(), 2);
        taken.emplace_back(at.x() - 1, at.y(), 2, geometry.field.bottom() - at.y());
    }
    const QRectF in = geometry.regionBox.adjusted(look.px(1), look.px(1), -look.px(1), -look.px(1));
    const QRectF corners[] = {{QPointF(in.right() - size.width(), in.top()), size},
                              {in.topLeft(), size},
                              {QPointF(in.left(), in.bottom() - size.height()), size},
                              {in.bottomRight() - QPointF(size.width(), size.height()), size}};
    for (const QRectF& corner : corners)
        if (std::none_of(taken.begin(), taken.end(), [&](const QRectF& t) { return t.intersects(corner); }))
            return corner;
    return {};
}

// Gives where its name stands.
QRectF paintRegion(QPainter& painter, const BalanceGeometry& geometry, const BalanceValues& values,
                   const Look& look) {
    if (geometry.regionBox.isNull()) return {};
    QPainterPath shape;
    shape.addRect(geometry.regionBox);
    painter.fillPath(shape, look.color(Token::Page));
    paintHatch(painter, shape, look.px(6), look.pen(Token::Rule, 1));
    painter.setPen(look.pen(Token::GlassLine, 1));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(geometry.regionBox);
    const auto name = fromCore(values.region->name);
    const double width = textWidth(name, Type::Axis, look) + look.px(6);
    const QSizeF size(width, look.px(16));
    const bool fits = width < geometry.regionBox.width() && geometry.regionBox.height() > look.px(22);
    QRectF label = fits ? cornerForName(geometry, values, size, look) : QRectF();
    const bool inside = !label.isNull();
    if (!inside) {
        const double left = std::clamp(geometry.regionBox.center().x() - width / 2, geometry.field.left(),
                                       geometry.field.right() - width);
        const bool above = geometry.regionBox.top() - look.px(17) >= geometry.field.top();
        label = QRectF(QPointF(left, geometry.regionBox.top() + look.px(above ? -17 : 1)), size);
    }
    painter.fillRect(label, look.color(inside ? Token::Page : Token::Well));
    drawLabel(painter, label.center(), Stand::Centre, name, Type::Axis, Token::Ink, look);
    return label;
}

void paintPointMark(QPainter& painter, QPointF at, PointMark mark, const Look& look, double radius) {
    painter.setPen(look.pen(Token::Ink2, 1.5));
    painter.setBrush(look.color(Token::Page));
    const double r = look.px(radius);
    switch (mark) {
    case PointMark::Ring:
        painter.drawEllipse(at, r, r);
        break;
    case PointMark::Square:
        painter.drawRect(QRectF(at.x() - r, at.y() - r, 2 * r, 2 * r));
        break;
    case PointMark::Diamond:
        painter.drawPolygon(QPolygonF({at + QPointF(0, -r * 1.35), at + QPointF(r * 1.35, 0),
                                       at + QPointF(0, r * 1.35), at + QPointF(-r * 1.35, 0)}));
        break;
    case PointMark::Triangle:
        painter.drawPolygon(QPolygonF(
            {at + QPointF(0, -r * 1.25), at + QPointF(r * 1.2, r * 0.9), at + QPointF(-r * 1.2, r * 0.9)}));
        break;
    }
}

// A label beside a point where it covers neither a point nor another label: nine places are tried, `under`
// first.
QRectF placeLabel(QPainter& painter, QPointF point, const QString& text, Type type, Token token,
                  const QRectF& field, std::vector<QRectF>& taken, const Look& look, bool under = false) {
    const double width = textWidth(text, type, look);
    const double height = look.lineHeight(type);
    const double away = look.px(9);
    const std::array<QPointF, 9> places = {QPointF(-width - away, under ? away - look.px(3) : -height / 2),
                                           QPointF(-width - away, -height / 2),
                                           QPointF(away, -height / 2),
                                           QPointF(-width / 2, -height - away + look.px(2)),
                                           QPointF(-width / 2, away - look.px(2)),
                                           QPointF(-width - away, away - look.px(6)),
                                           QPointF(away, away - look.px(6)),
                                           QPointF(away, -height - away + look.px(6)),
                                           QPointF(-width - away, -height - away + look.px(6))};
    QRectF best;
    for (const auto& place : places) {
        const QRectF box(point + place, QSizeF(width, height));
        if (!field.contains(box)) continue;
        const bool clash = std::any_of(taken.begin(), taken.end(),
                                       [&](const QRectF& other) { return other.intersects(box); });
        if (clash) continue;
        best = box;
        break;
    }
    if (best.isNull()) return best; // crowded: the table beside it has every one
    drawLabel(painter, QPointF(best.left(), best.center().y()), Stand::Left, text, type, token, look);
    taken.push_back(best);
    return best;
}

// The side on which the truth may lie, as a dotted tail with its word.
void paintTails(QPainter& painter, const BalanceGeometry& geometry, const MapPoint& now,
                std::vector<QRectF>& taken, const Look& look) {
    const auto at = geometry.at(now);
    auto pen = look.pen(Token::Gap, 2);
    pen.setDashPattern({1.5, 1.5});
    const auto tail = [&](QPointF end, const QString& word, QPointF wordAt, Stand stand) {
        painter.setPen(pen);
        painter.drawLine(at, end);
        taken.push_back(drawLabel(painter, wordAt, stand, word, Type::Axis, Token::Gap, look));
    };
    const double reach = look.px(62);
    const auto& field = geometry.field;
    if (now.sugarOpen == Open::Above) {
        const QPointF end(std::min(at.x() + reach, field.right()), at.y());
        tail(end, u"or sweeter"_s, end + QPointF(0, look.px(10)), Stand::Right);
    } else if (now.sugarOpen == Open::Below) {
        const QPointF end(std::max(at.x() - reach, field.left()), at.y());
        tail(end, u"or drier"_s, end + QPointF(0, look.px(10)), Stand::Left);
    }
    const double upward = now.acidOpen == Open::Above ? -1 : 1;
    if (now.acidOpen == Open::Above || now.acidOpen == Open::Below) {
        const QPointF end(at.x(), std::clamp(at.y() + upward * reach, field.top(), field.bottom()));
        tail(end, upward < 0 ? u"or sharper"_s : u"or softer"_s,
             end + QPointF(look.px(5), look.px(6) * -upward), Stand::Left);
    }
}

// Of an earlier point a short stub of the same dots: its words would crowd the map, the table has them.
void paintStubs(QPainter& painter, const BalanceGeometry& geometry, const MapPoint& point, const Look& look) {
    auto pen = look.pen(Token::Gap, 1.6);
    pen.setDashPattern({1.2, 1.4});
    painter.setPen(pen);
    const auto at = geometry.at(point);
    const double reach = look.px(16);
    const auto side = [](Open open) { return open == Open::Above ? 1.0 : open == Open::Below ? -1.0 : 0.0; };
    if (const double along = side(point.sugarOpen); along != 0)
        painter.drawLine(at, at + QPointF(along * reach, 0));
    if (const double along = side(point.acidOpen); along != 0)
        painter.drawLine(at, at - QPointF(0, along * reach));
}

void paintPoints(QPainter& painter, const BalanceGeometry& geometry, const BalanceValues& values,
                 const QRectF& regionName, const Look& look) {
    std::vector<QRectF> taken{regionName};
    QPolygonF path;
    const auto joined = values.earlier.size() > kJoined ? values.earlier.size() - kJoined : 0;
    painter.setPen(Qt::NoPen);
    painter.setBrush(look.color(Token::Ink3));
    for (std::size_t i = 0; i < joined; ++i)
        if (values.earlier[i].isPlaced())
            painter.drawEllipse(geometry.at(values.earlier[i]), look.px(1.5), look.px(1.5));
    for (std::size_t i = joined; i < values.earlier.size(); ++i)
        if (values.earlier[i].isPlaced()) path << geometry.at(values.earlier[i]);
    const bool placed = values.now && values.now->isPlaced();
    if (placed) path << geometry.at(*values.now);
    auto dashed = look.pen(Token::Ink3, 1);
    dashed.setDashPattern({4, 3});
    painter.setPen(dashed);
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(path);
    const double r = look.px(6);
    for (const auto& at : path)
        taken.emplace_back(at.x() - r, at.y() - r, 2 * r, 2 * r);

    if (placed) {
        const auto at = geometry.at(*values.now);
        painter.setPen(look.pen(Token::Ink, 1));
        painter.drawLine(at, QPointF(geometry.field.left(), at.y()));
        painter.drawLine(at, QPointF(at.x(), geometry.field.bottom()));
        taken.emplace_back(geometry.field.left(), at.y() - 1, at.x() - geometry.field.left(), 2);
        taken.emplace_back(at.x() - 1, at.y(), 2, geometry.field.bottom() - at.y());
        paintTails(painter, geometry, *values.now, taken, look);
    }
    // Where the way is long, the oldest labels give way: the newest are placed first.
    if (placed)
        placeLabel(painter, geometry.at(*values.now), values.now->label, Type::Delta, Token::Ink,
                   geometry.field, taken, look, true);
    for (std::size_t i = values.earlier.size(); i-- > joined;) {
        const auto& point = values.earlier[i];
        if (!point.isPlaced()) continue;
        paintStubs(painter, geometry, point, look);
        paintPointMark(painter, geometry.at(point), point.mark, look,
                       point.mark == PointMark::Ring ? 4 : 4.5);
        placeLabel(painter, geometry.at(point), point.label, Type::Axis, Token::Ink2, geometry.field, taken,
                   look);
    }
    if (!geometry.aimBox.isNull()) paintCornerBrackets(painter, geometry.aimBox, look);
    if (placed) {
        const auto at = geometry.at(*values.now);
        painter.setPen(look.pen(Token::Ink, 2));
        painter.setBrush(look.color(Token::Page));
        painter.drawEllipse(at, look.px(6), look.px(6));
        painter.setPen(Qt::NoPen);
        painter.setBrush(look.color(Token::Ink));
        painter.drawEllipse(at, look.px(3), look.px(3));
    }
}

void paintStrength(QPainter& painter, const BalanceGeometry& geometry, const BalanceValues& values,
                   const Look& look) {
    const auto& field = geometry.field;
    const double x = geometry.scaleX;
    if (!geometry.strengthBox.isNull()) {
        QPainterPath shape;
        shape.addRect(geometry.strengthBox);
        painter.fillPath(shape, look.color(Token::Page));
        paintHatch(painter, shape, look.px(5), look.pen(Token::Rule, 1));
        painter.setPen(look.pen(Token::GlassLine, 1));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(geometry.strengthBox);
    }
    painter.setPen(look.pen(Token::GlassLine, 1));
    painter.drawLine(QPointF(x, field.top()), QPointF(x, field.bottom()));
    const int steps = static_cast<int>(
        std::lround((geometry.strength.high - geometry.strength.low) / geometry.strength.step));
    for (int i = 0; i <= steps; ++i) {
        const double value = geometry.strength.low + i * geometry.strength.step;
        const double y = geometry.strengthY(value);
        painter.setPen(look.pen(Token::GlassLine, 1));
        painter.drawLine(QPointF(x, y), QPointF(x - look.px(5), y));
        drawLabel(painter, QPointF(x - look.px(8), y), Stand::Right,
                  number(value, geometry.strength.decimals), Type::Axis, Token::Ink3, look);
    }
    drawLabel(painter, QPointF(x + look.px(2), field.bottom() + look.px(25)), Stand::Centre, u"% vol"_s,
              Type::Axis, Token::Ink3, look);
    if (values.aim.strength) {
        const double top = geometry.strengthY(values.aim.strength->high);
        const double bottom = geometry.strengthY(values.aim.strength->low);
        painter.setPen(look.pen(Token::Aim, 2));
        for (const auto& [y, lip] : {std::pair(top, look.px(3)), std::pair(bottom, -look.px(3))}) {
            QPainterPath bracket(QPointF(x + look.px(24), y + lip));
            bracket.lineTo(x + look.px(24), y);
            bracket.lineTo(x + look.px(15), y);
            painter.drawPath(bracket);
        }
    }
    for (const auto& point : values.earlier)
        if (point.strength && &point == &values.earlier.back())
            paintPointMark(painter, QPointF(x + look.px(6), geometry.strengthY(*point.strength)),
                           PointMark::Ring, look, 3);
    if (!values.now || !values.now->strength) return;
    const QPointF tip(x + look.px(14), geometry.strengthY(*values.now->strength));
    const auto open = values.now->strengthOpen;
    if (open == Open::Above || open == Open::Below) {
        auto pen = look.pen(Token::Gap, 2);
        pen.setDashPattern({1.5, 1.5});
        painter.setPen(pen);
        const double reach = (open == Open::Above ? -1 : 1) * look.px(40);
        painter.drawLine(
            QPointF(tip.x() + look.px(4), tip.y()),
            QPointF(tip.x() + look.px(4), std::clamp(tip.y() + reach, field.top(), field.bottom())));
    }
    paintWedge(painter, tip, Pointing::Left, open == Open::No ? WedgeFill::Filled : WedgeFill::Half, look,
               look.color(Token::Ink));
}

QString regionWords(const balance::StyleRegion& region) {
    const auto range = [](const balance::Range& of, int decimals, QStringView unit) {
        return of.stated ? u"%1 to %2 %3"_s.arg(number(of.low, decimals), number(of.high, decimals),
                                                unit.toString())
                         : u"not stated"_s;
    };
    auto text = u"%1: sugar %2, acid %3, strength %4."_s.arg(
        fromCore(region.name), range(region.sugar, 1, u"g/100 ml"), range(region.acid, 2, u"g/100 ml"),
        range(region.strength, 0, u"% vol"));
    if (region.fromMemory) text += u" From memory, not read in its source."_s;
    if (!region.source.empty()) text += u" Source: %1."_s.arg(fromCore(region.source));
    return text;
}

QString placeWords(const MapPoint& point) {
    if (!point.isPlaced()) return u"%1 has no place yet: its sugar or acid is not known."_s.arg(point.label);
    const auto sign = [](Open open) {
        return open == Open::Above ? u"at least "_s : open == Open::Below ? u"at most "_s : QString();
    };
    return u"%1: sugar %2%3, acid %4%5 g/100 ml."_s.arg(point.label, sign(point.sugarOpen),
                                                        number(point.sugar, 1), sign(point.acidOpen),
                                                        number(point.acid, 2));
}

} // namespace

void paintBalance(QPainter& painter, const QRectF& box, const BalanceValues& given, const Look& look) {
    auto values = given;
    if (values.sentence.isEmpty() && values.now && !values.now->isPlaced())
        values.sentence = placeWords(*values.now);
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(box.topLeft());
    const auto geometry = balanceGeometry(values, box.size(), look);
    painter.fillRect(geometry.field, look.color(Token::Well));
    const QRectF regionName = paintRegion(painter, geometry, values, look);
    paintRays(painter, geometry, look);
    paintAxes(painter, geometry, look);
    paintPoints(painter, geometry, values, regionName, look);
    paintStrength(painter, geometry, values, look);
    if (!values.sentence.isEmpty())
        drawParagraph(painter, geometry.sentenceBox.topLeft(), geometry.sentenceBox.width(), values.sentence,
                      Type::Body, Token::Ink, look, 2);
    painter.restore();
}

BalanceMap::BalanceMap(QWidget* parent) : PlotOf(u"Balance map, sugar against acid"_s, parent) {}

QString BalanceMap::words() const {
    QStringList parts;
    if (m_values.now) parts << placeWords(*m_values.now);
    if (!m_values.sentence.isEmpty()) parts << m_values.sentence;
    if (m_values.region) parts << regionWords(*m_values.region);
    if (parts.isEmpty()) parts << u"Your drink lands on this map."_s;
    return parts.join(u' ');
}

QList<QStringList> BalanceMap::rows() const {
    QList<QStringList> rows{{u"drink"_s, u"sugar g/100 ml"_s, u"acid g/100 ml"_s, u"% vol"_s}};
    const auto row = [](const MapPoint& point) {
        const auto cell = [](double value, int decimals, Open open) -> QString {
            if (open == Open::Unknown) return u"?"_s;
            const auto text = number(value, decimals);
            if (open == Open::Above) return kAtLeast + text;
            if (open == Open::Below) return kAtMost + text;
            return text;
        };
        return QStringList{point.label, cell(point.sugar, 1, point.sugarOpen),
                           cell(point.acid, 2, point.acidOpen),
                           point.strength ? cell(*point.strength, 1, point.strengthOpen) : u"?"_s};
    };
    for (const auto& point : m_values.earlier)
        rows << row(point);
    if (m_values.now) rows << row(*m_values.now);
    return rows;
}

QSize BalanceMap::sizeHint() const {
    const auto& theme = Theme::current();
    return {theme.pxInt(350), theme.pxInt(310)};
}

QSize BalanceMap::minimumSizeHint() const {
    const auto& theme = Theme::current();
    return {theme.pxInt(210), theme.pxInt(190)};
}

void BalanceMap::paint(QPainter& painter) {
    paintBalance(painter, QRectF(rect()), m_values, Theme::current().look());
}

bool BalanceMap::event(QEvent* event) {
    if (event->type() == QEvent::ToolTip && m_values.region) {
        const auto* help = dynamic_cast<QHelpEvent*>(event);
        const auto geometry = balanceGeometry(m_values, size(), Theme::current().look());
        if (help && geometry.regionBox.contains(help->pos()))
            QToolTip::showText(help->globalPos(), regionWords(*m_values.region), this);
        else
            QToolTip::hideText();
        return true;
    }
    return PlotWidget::event(event);
}

} // namespace stillroom::ui
