#include "ui/theme/marks.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

QPen inkPen(const QColor& color, double width, Qt::PenStyle style = Qt::SolidLine) {
    return {color, width, style, Qt::FlatCap, Qt::MiterJoin};
}

void dottedLine(QPainter& painter, double x0, double x1, double y, double width, double step,
                const QColor& color) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(color);
    for (double x = x0 + width / 2; x <= x1; x += step)
        painter.drawEllipse(QPointF(x, y), width / 2, width / 2);
}

} // namespace

QString stateWord(StateMark state) {
    switch (state) {
    case StateMark::Draft:
        return u"draft"_s;
    case StateMark::Kept:
        return u"kept"_s;
    case StateMark::House:
        return u"house"_s;
    case StateMark::Published:
        return u"published"_s;
    case StateMark::SetAside:
        return u"set aside"_s;
    }
    return {};
}

void paintStateMark(QPainter& painter, QPointF centre, StateMark state, const Look& look, const QColor& ink,
                    double radius) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const double r = look.px(radius);
    const double stroke = look.px(1.5);
    switch (state) {
    case StateMark::Draft: {
        const double ringRadius = r + look.px(0.5);
        // Ten dashes close the ring evenly, whatever its size.
        const double dash = 2 * M_PI * ringRadius / stroke / 20.0;
        QPen pen = inkPen(ink, stroke);
        pen.setDashPattern({dash, dash});
        painter.setPen(pen);
        painter.setBrush(Qt::NoBrush);
        painter.drawEllipse(centre, ringRadius, ringRadius);
        break;
    }
    case StateMark::Kept:
        painter.setPen(Qt::NoPen);
        painter.setBrush(ink);
        painter.drawEllipse(centre, r, r);
        break;
    case StateMark::House: {
        const double outer = r + look.px(1.5);
        painter.setPen(inkPen(ink, stroke));
        painter.setBrush(look.color(Token::Page));
        painter.drawEllipse(centre, outer, outer);
        painter.setPen(Qt::NoPen);
        painter.setBrush(ink);
        painter.drawEllipse(centre, r - look.px(1.7), r - look.px(1.7));
        break;
    }
    case StateMark::Published: {
        const double half = r + look.px(0.5);
        painter.setPen(inkPen(ink, stroke));
        painter.setBrush(look.color(Token::Page));
        painter.drawRect(QRectF(centre.x() - half, centre.y() - half, 2 * half, 2 * half));
        painter.setPen(Qt::NoPen);
        painter.setBrush(ink);
        painter.drawEllipse(centre, r - look.px(2), r - look.px(2));
        break;
    }
    case StateMark::SetAside: {
        const double ring = r - look.px(0.5);
        painter.setPen(inkPen(ink, stroke));
        painter.setBrush(look.color(Token::Page));
        painter.drawEllipse(centre, ring, ring);
        const double reach = r;
        painter.drawLine(centre + QPointF(-reach, reach), centre + QPointF(reach, -reach));
        break;
    }
    }
    painter.restore();
}

QSizeF verdictSize(const QString& initials, const Look& look) {
    const QFontMetricsF metrics(look.font(Type::Heading));
    return {metrics.horizontalAdvance(initials), look.lineHeight(Type::Heading) + look.px(5)};
}

QSizeF paintVerdict(QPainter& painter, QPointF topLeft, const QString& initials, tasting::Verdict verdict,
                    const Look& look) {
    painter.setFont(look.font(Type::Heading));
    const QFontMetricsF metrics(look.font(Type::Heading));
    const double baseline =
        topLeft.y() + (look.lineHeight(Type::Heading) + metrics.ascent() - metrics.descent()) / 2;
    painter.setPen(look.color(Token::Ink));
    painter.drawText(QPointF(topLeft.x(), baseline), initials);
    const auto size = verdictSize(initials, look);
    paintVerdictMark(painter, topLeft.x(), topLeft.x() + size.width(), baseline, verdict, look);
    return size;
}

void paintVerdictMark(QPainter& painter, double x0, double x1, double baseline, tasting::Verdict verdict,
                      const Look& look) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const double under = baseline + look.px(4);
    switch (verdict) {
    case tasting::Verdict::Keep:
        dottedLine(painter, x0, x1, under, look.px(1.8), look.px(3.4), look.color(Token::Ink));
        break;
    case tasting::Verdict::Change: {
        QPainterPath wave(QPointF(x0 - look.px(1), under));
        const double step = look.px(2.5);
        double side = -1;
        for (double x = x0 - look.px(1); x < x1; x += step, side = -side)
            wave.quadTo(x + step / 2, under + side * look.px(2.2), x + step, under);
        painter.setBrush(Qt::NoBrush);
        painter.setPen(inkPen(look.color(Token::Ink), look.px(1.2)));
        painter.drawPath(wave);
        break;
    }
    case tasting::Verdict::Drop: {
        const double through = baseline - look.px(4);
        painter.setPen(inkPen(look.color(Token::Ink), look.px(1.5)));
        painter.drawLine(QPointF(x0 - look.px(2), through), QPointF(x1 + look.px(2), through));
        break;
    }
    case tasting::Verdict::None:
        break;
    }
    painter.restore();
}

QString verdictWords(const QString& initials, tasting::Verdict verdict) {
    switch (verdict) {
    case tasting::Verdict::Keep:
        return u"%1 would keep it"_s.arg(initials);
    case tasting::Verdict::Change:
        return u"%1 would change it"_s.arg(initials);
    case tasting::Verdict::Drop:
        return u"%1 would drop it"_s.arg(initials);
    case tasting::Verdict::None:
        break;
    }
    return u"%1 tasted it"_s.arg(initials);
}

void paintGapUnderline(QPainter& painter, double x0, double x1, double y, const Look& look) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    dottedLine(painter, x0, x1, y, look.px(1.5), look.px(3), look.color(Token::Gap));
    painter.restore();
}

void paintChangedUnderline(QPainter& painter, double x0, double x1, double y, const QColor& color,
                           const Look& look) {
    painter.fillRect(QRectF(x0, y, x1 - x0, look.px(2)), color);
}

void paintDoubleUnderline(QPainter& painter, double x0, double x1, double y, const QColor& color,
                          const Look& look) {
    painter.fillRect(QRectF(x0, y, x1 - x0, look.px(1)), color);
    painter.fillRect(QRectF(x0, y + look.px(2), x1 - x0, look.px(1)), color);
}

void paintFocusFrame(QPainter& painter, const QRectF& inner, const Look& look) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setBrush(Qt::NoBrush);
    painter.setPen(look.pen(Token::Focus, 2));
    const double out = look.px(2); // 1 px gap and half of the stroke
    painter.drawRoundedRect(inner.adjusted(-out, -out, out, out), look.px(4), look.px(4));
    painter.restore();
}

void paintWedge(QPainter& painter, QPointF tip, Pointing pointing, WedgeFill fill, const Look& look,
                const QColor& color) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(tip);
    switch (pointing) {
    case Pointing::Down:
        break;
    case Pointing::Up:
        painter.rotate(180);
        break;
    case Pointing::Left:
        painter.rotate(90);
        break;
    case Pointing::Right:
        painter.rotate(-90);
        break;
    }
    const double half = look.px(4.25);
    const double height = look.px(8);
    QPainterPath whole;
    whole.moveTo(0, 0);
    whole.lineTo(-half, -height);
    whole.lineTo(half, -height);
    whole.closeSubpath();
    painter.setPen(inkPen(color, look.px(1.25)));
    painter.setBrush(fill == WedgeFill::Filled ? QBrush(color) : QBrush(look.color(Token::Page)));
    painter.drawPath(whole);
    if (fill == WedgeFill::Half) {
        QPainterPath left;
        left.moveTo(0, 0);
        left.lineTo(-half, -height);
        left.lineTo(0, -height);
        left.closeSubpath();
        painter.fillPath(left, color);
    }
    painter.restore();
}

void paintCornerBrackets(QPainter& painter, const QRectF& field, const Look& look) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(look.pen(Token::Aim, 2));
    const double arm = std::min({look.px(7), field.width() / 2.5, field.height() / 2.5});
    for (const bool right : {false, true}) {
        for (const bool bottom : {false, true}) {
            const QPointF corner(right ? field.right() : field.left(), bottom ? field.bottom() : field.top());
            const QPointF across(right ? -arm : arm, 0);
            const QPointF down(0, bottom ? -arm : arm);
            QPainterPath path(corner + across);
            path.lineTo(corner);
            path.lineTo(corner + down);
            painter.drawPath(path);
        }
    }
    painter.restore();
}

bool isInsideAim(const AimScale& scale) {
    if (!scale.value) return false;
    if (scale.aimLow && *scale.value < *scale.aimLow) return false;
    return !(scale.aimHigh && *scale.value > *scale.aimHigh);
}

void paintAimScale(QPainter& painter, const QRectF& box, const AimScale& scale, const Look& look) {
    if (!(scale.high > scale.low)) return;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const double base = box.center().y() + look.px(4);
    const auto x = [&](double value) {
        const double share = std::clamp((value - scale.low) / (scale.high - scale.low), 0.0, 1.0);
        return box.left() + share * box.width();
    };
    painter.setPen(look.pen(Token::Rule, 1));
    painter.drawLine(QPointF(box.left(), base), QPointF(box.right(), base));

    if (scale.aimLow || scale.aimHigh) {
        const double from = scale.aimLow ? x(*scale.aimLow) : box.left();
        const double to = scale.aimHigh ? x(*scale.aimHigh) : box.right();
        painter.setPen(look.pen(Token::Aim, 2));
        painter.drawLine(QPointF(from, base), QPointF(to, base));
        painter.setPen(look.pen(Token::Aim, 1.5));
        const double reach = look.px(5);
        const double lip = look.px(2.5);
        const auto bracket = [&](double at, double towards) {
            QPainterPath path(QPointF(at + towards * lip, base - reach));
            path.lineTo(at, base - reach);
            path.lineTo(at, base + reach);
            path.lineTo(at + towards * lip, base + reach);
            painter.drawPath(path);
        };
        if (scale.aimLow) bracket(from, 1);
        if (scale.aimHigh) bracket(to, -1);
    }
    if (scale.last) {
        painter.setPen(look.pen(Token::Ink2, 1.2));
        painter.setBrush(look.color(Token::Page));
        painter.drawEllipse(QPointF(x(*scale.last), base), look.px(2.6), look.px(2.6));
    }
    if (scale.value) {
        const bool open = scale.openAbove || scale.openBelow;
        const auto color = look.color(open ? Token::Gap : Token::Ink);
        const auto fill = open ? WedgeFill::Half : isInsideAim(scale) ? WedgeFill::Filled : WedgeFill::Hollow;
        const double at = x(*scale.value);
        if (open) {
            const double end = scale.openAbove ? std::min(box.right(), at + look.px(28))
                                               : std::max(box.left(), at - look.px(28));
            dottedLine(painter, std::min(at, end), std::max(at, end), base - look.px(4), look.px(1.6),
                       look.px(3.2), color);
        }
        paintWedge(painter, QPointF(at, base - look.px(0.5)), Pointing::Down, fill, look, color);
    }
    painter.restore();
}

void paintHatch(QPainter& painter, const QPainterPath& clip, double spacing, const QPen& pen,
                Hatch direction) {
    if (!(spacing > 0)) return;
    painter.save();
    painter.setClipPath(clip, Qt::IntersectClip);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(pen);
    const auto box = clip.boundingRect();
    // Lines are anchored to the origin, so that neighbouring shapes hatch as one.
    const double step = spacing * M_SQRT2;
    const double lean = direction == Hatch::Rising ? 1 : -1;
    const double reach = box.height();
    const double first = std::floor((box.left() - reach) / step) * step;
    for (double x = first; x <= box.right() + reach; x += step) {
        const double bottomX = lean > 0 ? x : x + reach;
        const double topX = lean > 0 ? x + reach : x;
        painter.drawLine(QPointF(bottomX, box.bottom()), QPointF(topX, box.top()));
    }
    painter.restore();
}

} // namespace stillroom::ui
