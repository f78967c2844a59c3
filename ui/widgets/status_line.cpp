#include "ui/widgets/status_line.h"

#include "ui/delegates/paint_text.h"
#include "ui/theme/theme.h"

#include <QPainter>

namespace stillroom::ui {

StatusLine::StatusLine(QWidget* parent) : QWidget(parent) {
    setAccessibleName(tr("Status"));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void StatusLine::setPlace(const QString& place) {
    if (place == m_place && m_message.isEmpty()) return;
    m_place = place;
    m_message.clear();
    update();
}

void StatusLine::setHints(const std::vector<KeyHints::Hint>& hints) {
    m_hints = hints;
    update();
}

void StatusLine::setSaved(const QString& text) {
    if (text == m_saved) return;
    m_saved = text;
    update();
}

void StatusLine::say(const QString& text) {
    if (text == m_message) return;
    m_message = text;
    setAccessibleDescription(text);
    update();
}

QSize StatusLine::sizeHint() const {
    return {Theme::current().pxInt(200), Theme::current().pxInt(24)};
}

void StatusLine::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const Look& look = Theme::current().look();
    painter.fillRect(rect(), look.color(Token::Surface));
    painter.fillRect(QRectF(0, 0, width(), look.px(1)), look.color(Token::Rule));
    const QFont& font = look.font(Type::Caption);
    double right = width() - look.px(12);
    right -= paintText(painter, QRectF(look.px(12), 0, right - look.px(12), height()), m_saved, font,
                       look.color(Token::Ink2), Qt::AlignRight);
    double x = look.px(12);
    const auto text = [&](const QString& words, const QColor& color, const QFont& with) {
        if (words.isEmpty() || right - x < look.px(40)) return;
        x += paintText(painter, QRectF(x, 0, right - x - look.px(16), height()), words, with, color) +
             look.px(16);
    };
    QFont strong = font;
    strong.setWeight(QFont::DemiBold);
    if (!m_message.isEmpty()) {
        text(m_message, look.color(Token::Ink), strong);
        return;
    }
    text(m_place, look.color(Token::Ink2), strong);
    for (const auto& hint : m_hints) {
        const double needed = keyWidth(hint.key) + look.px(5) + textWidth(hint.words, font);
        if (right - x - look.px(16) < needed) break;
        if (!hint.key.isEmpty())
            x += paintKey(painter, QPointF(x, (height() - look.px(16)) / 2), hint.key) + look.px(5);
        x += paintText(painter, QRectF(x, 0, needed, height()), hint.words, font, look.color(Token::Ink2)) +
             look.px(14);
    }
}

} // namespace stillroom::ui
