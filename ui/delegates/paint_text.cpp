#include "ui/delegates/paint_text.h"

#include "ui/text/numbers.h"
#include "ui/theme/marks.h"

#include <QFontMetricsF>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

double textWidth(const QString& text, const QFont& font) {
    return QFontMetricsF(font).horizontalAdvance(text);
}

double paintText(QPainter& painter, const QRectF& box, const QString& text, const QFont& font,
                 const QColor& color, Qt::Alignment horizontal) {
    if (text.isEmpty() || box.width() <= 0) return 0;
    const QFontMetricsF metrics(font);
    double width = metrics.horizontalAdvance(text);
    QString shown = text;
    if (width > box.width() + 0.5) {
        shown = metrics.elidedText(text, Qt::ElideRight, box.width());
        width = metrics.horizontalAdvance(shown);
    }
    double x = box.left();
    if (horizontal & Qt::AlignRight) x = box.right() - width;
    if (horizontal & Qt::AlignHCenter) x = box.center().x() - width / 2;
    const double y = box.top() + (box.height() - metrics.height()) / 2 + metrics.ascent();
    painter.setFont(font);
    painter.setPen(color);
    painter.drawText(QPointF(x, std::round(y)), shown);
    return width;
}

void paintReading(QPainter& painter, const QRectF& box, const ReadingText& text, const ReadingPaint& how,
                  const Look& look) {
    if (text.number.isEmpty()) return;
    const QFontMetricsF metrics(how.font);
    const double width = metrics.horizontalAdvance(text.number);
    const double left = box.right() - width;
    const double baseline = std::round(box.top() + (box.height() - metrics.height()) / 2 + metrics.ascent());
    painter.setFont(how.font);
    painter.setPen(how.ink);
    painter.drawText(QPointF(left, baseline), text.number);
    double from = left;
    if (!text.sign.isEmpty()) {
        from = left - metrics.horizontalAdvance(text.sign) - look.px(4);
        painter.setPen(look.color(text.sign == kNearly ? Token::Ink3 : Token::Gap));
        painter.drawText(QPointF(from, baseline), text.sign);
    }
    const double under = baseline + look.px(3.5);
    if (text.gap && how.dots) paintGapUnderline(painter, from, box.right(), under, look);
    if (how.changedFrom >= 0 && how.changedFrom < text.number.size()) {
        const double start = left + metrics.horizontalAdvance(text.number.left(how.changedFrom));
        paintChangedUnderline(painter, start, box.right(), under, how.changedInk, look);
    }
}

} // namespace stillroom::ui
