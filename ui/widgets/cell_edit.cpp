#include "ui/widgets/cell_edit.h"

#include "ui/text/border.h"
#include "ui/theme/theme.h"

#include <QAbstractItemView>
#include <QCompleter>
#include <QKeyEvent>
#include <QPainter>
#include <QStringListModel>

#include <algorithm>

namespace stillroom::ui {

bool isUndoOrRedo(const QEvent* event) {
    if (event->type() != QEvent::ShortcutOverride && event->type() != QEvent::KeyPress) return false;
    const auto* key = static_cast<const QKeyEvent*>(event);
    if ((key->modifiers() & ~Qt::ShiftModifier) != Qt::ControlModifier) return false;
    return key->key() == Qt::Key_Z || key->key() == Qt::Key_Y;
}

CellEdit::CellEdit(QWidget* parent) : QLineEdit(parent) {
    setFrame(false);
    setContextMenuPolicy(Qt::NoContextMenu);
    const int inset = Theme::current().pxInt(5);
    setTextMargins(inset, 0, inset, 0);
}

bool CellEdit::event(QEvent* event) {
    if (isUndoOrRedo(event)) {
        event->ignore();
        return false;
    }
    return QLineEdit::event(event);
}

void CellEdit::setUnreadable(bool unreadable) {
    if (m_unreadable == unreadable) return;
    m_unreadable = unreadable;
    setAccessibleDescription(unreadable ? tr("Not an amount yet") : QString());
    update();
}

void CellEdit::paintEvent(QPaintEvent* event) {
    {
        QPainter painter(this);
        painter.fillRect(rect(), Theme::current().color(Token::Page));
    }
    QLineEdit::paintEvent(event);
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const Look& look = Theme::current().look();
    const double width = look.px(2);
    painter.setPen(look.pen(m_unreadable ? Token::Error : Token::Focus, 2));
    painter.drawRoundedRect(QRectF(rect()).adjusted(width / 2, width / 2, -width / 2, -width / 2), look.px(3),
                            look.px(3));
}

void CellEdit::offer(Search search) {
    m_search = std::move(search);
    m_names = new QStringListModel(this);
    m_completer = new QCompleter(m_names, this);
    m_completer->setCompletionMode(QCompleter::UnfilteredPopupCompletion);
    m_completer->setMaxVisibleItems(10);
    setCompleter(m_completer);
    connect(this, &QLineEdit::textEdited, this, [this](const QString& text) {
        chosen.reset();
        showOffers(text);
    });
    connect(m_completer, qOverload<const QString&>(&QCompleter::activated), this, &CellEdit::choose);
}

void CellEdit::showOffers(const QString& text) {
    if (!m_search) return;
    m_offers.clear();
    QStringList names;
    for (const auto* ingredient : m_search(text)) {
        m_offers.emplace_back(fromCore(ingredient->name), ingredient->id);
        names << m_offers.back().first;
    }
    m_names->setStringList(names);
    if (names.isEmpty()) {
        m_completer->popup()->hide();
        return;
    }
    m_completer->setCompletionPrefix(text);
    m_completer->complete();
}

bool CellEdit::offersShown() const {
    return m_completer != nullptr && m_completer->popup()->isVisible();
}

void CellEdit::choose(const QString& name) {
    const auto found = std::find_if(m_offers.begin(), m_offers.end(),
                                    [&](const auto& offer) { return offer.first == name; });
    if (found == m_offers.end()) return;
    chosen = found->second;
    Q_EMIT ingredientChosen(name);
}

} // namespace stillroom::ui
