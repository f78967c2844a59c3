#include "ui/widgets/prose_edit.h"

#include "ui/theme/theme.h"
#include "ui/widgets/cell_edit.h"

#include <QKeyEvent>
#include <QMimeData>
#include <QPainter>
#include <QTextBlock>
#include <QUrl>

#include <cmath>

namespace stillroom::ui {

ProseEdit::ProseEdit(Type type, Undo undo, QWidget* parent)
    : QPlainTextEdit(parent),
      m_type(type),
      m_undo(undo) {
    setFrameShape(QFrame::NoFrame);
    setTabChangesFocus(true);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setUndoRedoEnabled(undo == Undo::Own);
    document()->setDocumentMargin(2);
    dress();
    connect(this, &QPlainTextEdit::textChanged, this, [this] {
        fit();
        if (!m_showing) Q_EMIT edited(toPlainText());
    });
}

void ProseEdit::dress() {
    const Look& look = Theme::current().look();
    if (font() != look.font(m_type)) setFont(look.font(m_type));
    QPalette colors = palette();
    if (colors.color(QPalette::Base) == look.color(Token::Page) &&
        colors.color(QPalette::Text) == look.color(Token::Ink))
        return;
    colors.setColor(QPalette::Base, look.color(Token::Page));
    colors.setColor(QPalette::Text, look.color(Token::Ink));
    colors.setColor(QPalette::PlaceholderText, look.color(Token::Ink3));
    setPalette(colors);
}

void ProseEdit::show(const QString& text) {
    if (toPlainText() == text) return;
    m_showing = true;
    setPlainText(text);
    m_showing = false;
}

QSize ProseEdit::sizeHint() const {
    int lines = 0;
    for (auto block = document()->begin(); block.isValid(); block = block.next())
        lines += std::max(1, block.layout() ? block.layout()->lineCount() : 1);
    const double height =
        QFontMetricsF(font()).lineSpacing() * std::max(1, lines) + 2 * document()->documentMargin() + 2;
    return {Theme::current().pxInt(240), static_cast<int>(std::ceil(height))};
}

void ProseEdit::fit() {
    const int wanted = sizeHint().height();
    if (wanted == minimumHeight() && wanted == maximumHeight()) return;
    setFixedHeight(wanted);
}

bool ProseEdit::event(QEvent* event) {
    if (m_undo == Undo::Drafts && isUndoOrRedo(event)) {
        event->ignore();
        return false;
    }
    return QPlainTextEdit::event(event);
}

void ProseEdit::focusInEvent(QFocusEvent* event) {
    QPlainTextEdit::focusInEvent(event);
    update();
    Q_EMIT entered();
}

void ProseEdit::focusOutEvent(QFocusEvent* event) {
    QPlainTextEdit::focusOutEvent(event);
    update();
}

void ProseEdit::keyPressEvent(QKeyEvent* event) {
    if (m_undo == Undo::Drafts && isUndoOrRedo(event)) {
        event->ignore();
        return;
    }
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        if (event->modifiers() & Qt::ControlModifier) {
            event->ignore(); // saving is for whoever holds the field
            return;
        }
        if (m_enterLeaves) {
            Q_EMIT finished();
            return;
        }
    }
    QPlainTextEdit::keyPressEvent(event);
}

bool ProseEdit::canInsertFromMimeData(const QMimeData* source) const {
    return (m_takesImages && (source->hasImage() || source->hasUrls())) ||
           QPlainTextEdit::canInsertFromMimeData(source);
}

void ProseEdit::insertFromMimeData(const QMimeData* source) {
    const bool files = source->hasUrls() && !source->urls().isEmpty() && source->urls().front().isLocalFile();
    if (m_takesImages && (files || (source->hasImage() && !source->hasText()))) {
        Q_EMIT imagePasted(*source);
        return;
    }
    const auto cursor = textCursor();
    const auto next = document()->characterCount() - 1 - (cursor.selectionEnd() - cursor.selectionStart()) +
                      source->text().size();
    if (m_most > 0 && next > m_most) {
        Q_EMIT pasteRefused(next);
        return;
    }
    QPlainTextEdit::insertFromMimeData(source);
}

void ProseEdit::paintEvent(QPaintEvent* event) {
    QPlainTextEdit::paintEvent(event);
    if (!hasFocus()) return;
    QPainter painter(viewport());
    const Look& look = Theme::current().look();
    painter.fillRect(QRectF(0, viewport()->height() - look.px(2), viewport()->width(), look.px(2)),
                     look.color(Token::Focus));
}

void ProseEdit::resizeEvent(QResizeEvent* event) {
    QPlainTextEdit::resizeEvent(event);
    fit();
}

void ProseEdit::changeEvent(QEvent* event) {
    QPlainTextEdit::changeEvent(event);
    if (event->type() == QEvent::StyleChange) {
        dress();
        fit();
    }
}

} // namespace stillroom::ui
