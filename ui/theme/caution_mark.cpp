#include "ui/theme/caution_mark.h"

#include <QPainter>
#include <QPainterPath>

namespace stillroom::ui {

void paintCautionMark(QPainter& painter, const QRectF& box, const QColor& ink, const Look& look) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(ink, look.px(1.5), Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    const QPointF c = box.center();
    const double r = box.width() * 0.42;
    QPainterPath triangle(c + QPointF(0, -r));
    triangle.lineTo(c + QPointF(r * 1.05, r * 0.85));
    triangle.lineTo(c + QPointF(-r * 1.05, r * 0.85));
    triangle.closeSubpath();
    painter.drawPath(triangle);
    painter.drawLine(c + QPointF(0, r * -0.25), c + QPointF(0, r * 0.35));
    painter.setPen(Qt::NoPen);
    painter.setBrush(ink);
    painter.drawEllipse(c + QPointF(0, r * 0.63), look.px(0.95), look.px(0.95));
    painter.restore();
}

} // namespace stillroom::ui
