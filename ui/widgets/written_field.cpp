#include "ui/widgets/written_field.h"

#include "ui/theme/marks.h"
#include "ui/theme/theme.h"
#include "ui/widgets/cell_edit.h"

#include <QKeyEvent>
#include <QPainter>

namespace stillroom::ui {

WrittenField::WrittenField(Type type, Token ink, QWidget* parent)
    : QLineEdit(parent),
      m_type(type),
      m_ink(ink) {
    setFrame(false);
    dress();
}

void WrittenField::dress() {
    const Look& look = Theme::current().look();
    if (font() != look.font(m_type)) setFont(look.font(m_type));
    QPalette colors = palette();
    if (colors.color(QPalette::Text) == look.color(m_ink) &&
        colors.color(QPalette::Base) == look.color(Token::Page))
        return;
    colors.setColor(QPalette::Base, look.color(Token::Page));
    colors.setColor(QPalette::Text, look.color(m_ink));
    colors.setColor(QPalette::PlaceholderText, look.color(Token::Ink3));
    setPalette(colors);
}

void WrittenField::show(const QString& value) {
    if (text() == value) return;
    setText(value);
    if (!hasFocus()) setCursorPosition(0);
}

QSize WrittenField::sizeHint() const {
    return {Theme::current().pxInt(160), static_cast<int>(Theme::current().look().lineHeight(m_type)) + 2};
}

bool WrittenField::event(QEvent* event) {
    if (isUndoOrRedo(event)) {
        event->ignore();
        return false;
    }
    return QLineEdit::event(event);
}

void WrittenField::paintEvent(QPaintEvent* event) {
    QLineEdit::paintEvent(event);
    if (!hasFocus()) return;
    QPainter painter(this);
    const Look& look = Theme::current().look();
    painter.fillRect(QRectF(0, height() - look.px(2), width(), look.px(2)), look.color(Token::Focus));
}

void WrittenField::focusInEvent(QFocusEvent* event) {
    QLineEdit::focusInEvent(event);
    Q_EMIT entered();
}

void WrittenField::focusOutEvent(QFocusEvent* event) {
    QLineEdit::focusOutEvent(event);
    // A name too long for its place is read from its beginning, and whole in the tip.
    if (event->reason() != Qt::PopupFocusReason) setCursorPosition(0);
    setToolTip(fontMetrics().horizontalAdvance(text()) > width() ? text() : QString());
}

void WrittenField::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        Q_EMIT finished();
        return;
    }
    QLineEdit::keyPressEvent(event);
}

void WrittenField::changeEvent(QEvent* event) {
    QLineEdit::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
