#include "ui/widgets/key_hint.h"

#include "ui/delegates/paint_text.h"
#include "ui/theme/theme.h"

#include <QPainter>

namespace stillroom::ui {

double keyWidth(const QString& key) {
    const Look& look = Theme::current().look();
    return textWidth(key, look.font(Type::Caption)) + look.px(9);
}

double paintKey(QPainter& painter, QPointF topLeft, const QString& key) {
    const Look& look = Theme::current().look();
    const double width = keyWidth(key);
    const QRectF box(topLeft.x() + 0.5, topLeft.y() + 0.5, width - 1, look.px(15));
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(look.pen(Token::RuleStrong, 1));
    painter.setBrush(look.color(Token::Page));
    painter.drawRoundedRect(box, look.px(2), look.px(2));
    painter.fillRect(QRectF(box.left() + 1, box.bottom() - look.px(0.5), box.width() - 2, look.px(1.5)),
                     look.color(Token::RuleStrong));
    paintText(painter, box, key, look.font(Type::Caption), look.color(Token::Ink2), Qt::AlignHCenter);
    painter.restore();
    return width;
}

KeyHints::KeyHints(QWidget* parent) : QWidget(parent) {
    setSizePolicy(QSizePolicy::Minimum, QSizePolicy::Preferred);
}

void KeyHints::show(std::vector<Hint> hints) {
    m_hints = std::move(hints);
    QStringList words;
    for (const auto& hint : m_hints)
        words << hint.key + QLatin1Char(' ') + hint.words;
    setAccessibleName(words.join(QStringLiteral(", ")));
    updateGeometry();
    update();
}

QSize KeyHints::sizeHint() const {
    const Look& look = Theme::current().look();
    double width = 0;
    for (const auto& hint : m_hints)
        width += (hint.key.isEmpty() ? 0 : keyWidth(hint.key) + look.px(5)) +
                 textWidth(hint.words, look.font(Type::Caption)) + look.px(16);
    return {static_cast<int>(width) + 2, look.pxInt(20)};
}

void KeyHints::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const Look& look = Theme::current().look();
    double x = 0;
    for (const auto& hint : m_hints) {
        if (!hint.key.isEmpty())
            x += paintKey(painter, QPointF(x, (height() - look.px(16)) / 2), hint.key) + look.px(5);
        x += paintText(painter, QRectF(x, 0, width() - x, height()), hint.words, look.font(Type::Caption),
                       look.color(Token::Ink2)) +
             look.px(16);
    }
}

} // namespace stillroom::ui
