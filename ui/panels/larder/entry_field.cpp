#include "ui/panels/larder/entry_field.h"

#include "ui/theme/theme.h"
#include "ui/widgets/cell_edit.h"

#include <QAbstractItemView>
#include <QCompleter>
#include <QKeyEvent>
#include <QPainter>
#include <QStringListModel>

namespace stillroom::ui {

namespace {

// Nothing anybody means is longer; a page pasted by mistake would slow every paint.
constexpr int kLongest = 2000;

} // namespace

EntryField::EntryField(const QString& name, QWidget* parent) : QLineEdit(parent) {
    setAccessibleName(name);
    setMaxLength(kLongest);
}

void EntryField::showValue(const QString& value, const QString& typed) {
    setUnreadable(!typed.isEmpty());
    m_shown = typed.isEmpty() ? value : typed;
    if (hasFocus() && isModified()) return;
    if (text() != m_shown) setText(m_shown);
    if (!hasFocus()) setCursorPosition(0);
}

void EntryField::setUnreadable(bool unreadable) {
    if (unreadable == m_unreadable) return;
    m_unreadable = unreadable;
    setAccessibleDescription(unreadable ? tr("This cannot be read yet.") : QString());
    update();
}

void EntryField::commit() {
    if (!isModified()) return;
    setModified(false);
    Q_EMIT entered(text());
}

void EntryField::offer(std::function<QStringList(const QString&)> search) {
    auto* names = new QStringListModel(this);
    m_completer = new QCompleter(names, this);
    m_completer->setCompletionMode(QCompleter::UnfilteredPopupCompletion);
    m_completer->setMaxVisibleItems(10);
    setCompleter(m_completer);
    connect(this, &QLineEdit::textEdited, this,
            [this, names, search = std::move(search)](const QString& text) {
                const QStringList found = text.trimmed().isEmpty() ? QStringList() : search(text);
                names->setStringList(found);
                if (found.isEmpty())
                    m_completer->popup()->hide();
                else
                    m_completer->complete();
            });
    connect(m_completer, qOverload<const QString&>(&QCompleter::activated), this,
            [this](const QString& name) {
                setText(name);
                setModified(false);
                Q_EMIT entered(name);
            });
}

// While nobody typed here, undo is the page's.
bool EntryField::event(QEvent* event) {
    if (isUndoOrRedo(event) && !isModified()) {
        event->ignore();
        return false;
    }
    return QLineEdit::event(event);
}

void EntryField::keyPressEvent(QKeyEvent* event) {
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (enter && event->modifiers() == Qt::NoModifier) {
        if (isModified())
            commit();
        else
            Q_EMIT acceptAsked();
        return;
    }
    if (event->key() == Qt::Key_Escape) {
        if (isModified()) {
            setText(m_shown);
            setModified(false);
        } else {
            Q_EMIT leaveAsked();
        }
        return;
    }
    QLineEdit::keyPressEvent(event);
}

void EntryField::focusOutEvent(QFocusEvent* event) {
    QLineEdit::focusOutEvent(event);
    // A list of offers takes the focus and gives it back.
    if (event->reason() != Qt::PopupFocusReason) commit();
}

void EntryField::paintEvent(QPaintEvent* event) {
    QLineEdit::paintEvent(event);
    if (!m_unreadable) return;
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Look& look = Theme::current().look();
    painter.setPen(look.pen(Token::Error, 2));
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), look.px(3), look.px(3));
}

} // namespace stillroom::ui
