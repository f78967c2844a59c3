#include "ui/widgets/number_edit.h"

#include "ui/text/numbers.h"
#include "ui/theme/theme.h"

#include <QPainter>

namespace stillroom::ui {

NumberEdit::NumberEdit(QWidget* parent) : QLineEdit(parent) {
    setAlignment(Qt::AlignRight);
    connect(this, &QLineEdit::textChanged, this, [this] { update(); });
}

void NumberEdit::setValue(std::optional<double> value, int decimals) {
    setText(value ? trimmedNumber(*value, decimals) : QString());
}

std::optional<double> NumberEdit::value() const {
    return typedNumber(text());
}

bool NumberEdit::isUnreadable() const {
    const auto number = value();
    return !text().trimmed().isEmpty() && (!number || (*number < 0 && !m_belowZero));
}

void NumberEdit::paintEvent(QPaintEvent* event) {
    QLineEdit::paintEvent(event);
    if (!isUnreadable()) return;
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Look& look = Theme::current().look();
    painter.setPen(look.pen(Token::Error, 2));
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), look.px(3), look.px(3));
}

} // namespace stillroom::ui
