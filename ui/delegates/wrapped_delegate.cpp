#include "ui/delegates/wrapped_delegate.h"

#include "ui/delegates/paint_text.h"
#include "ui/plots/plot_text.h"
#include "ui/theme/theme.h"

#include <QApplication>
#include <QListView>
#include <QScrollBar>

#include <cmath>

namespace stillroom::ui {

namespace {

constexpr double kSide = 4;
constexpr double kAbove = 3;

Type typeOf(const QModelIndex& index) {
    const QVariant type = index.data(WrappedTypeRole);
    return type.isValid() ? static_cast<Type>(type.toInt()) : Type::Control;
}

// A figure and its sign stay together.
QString shownText(const QModelIndex& index) {
    return index.data().toString().replace(QStringLiteral(" %"), QStringLiteral("\u00a0%"));
}

bool isNumber(const QModelIndex& index) {
    return static_cast<Qt::Alignment>(index.data(Qt::TextAlignmentRole).toInt()).testFlag(Qt::AlignRight);
}

} // namespace

WrappedDelegate::WrappedDelegate(int mostLines, QObject* parent)
    : QStyledItemDelegate(parent),
      m_mostLines(mostLines) {}

int WrappedDelegate::heightFor(const QModelIndex& index, int width) const {
    const auto& look = Theme::current().look();
    const Type type = typeOf(index);
    const QString text = shownText(index);
    const double room = width - 2 * look.px(kSide);
    // Most fit: they are measured, not laid out.
    const double height = isNumber(index) || textWidth(text, type, look) <= room
                              ? look.lineHeight(type)
                              : paragraphHeight(text, type, look, room, m_mostLines);
    return static_cast<int>(std::ceil(height + 2 * look.px(kAbove)));
}

QSize WrappedDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const auto* view = qobject_cast<const QAbstractItemView*>(option.widget);
    int width = option.rect.width();
    if (qobject_cast<const QListView*>(view) != nullptr) {
        // As narrow as it gets: a scroll bar that comes later must not cost a text its last line.
        const auto* bar = view->verticalScrollBar();
        width = view->viewport()->width() - (bar->isVisible() ? 0 : bar->sizeHint().width());
    }
    return {width, heightFor(index, width)};
}

void WrappedDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                            const QModelIndex& index) const {
    QStyleOptionViewItem item = option;
    initStyleOption(&item, index);
    const bool list = qobject_cast<const QListView*>(item.widget) != nullptr;
    if (!list) item.state &= ~QStyle::State_HasFocus; // the row wears it
    item.text.clear();
    const auto* style = item.widget ? item.widget->style() : QApplication::style();
    style->drawControl(QStyle::CE_ItemViewItem, &item, painter, item.widget);
    const auto& look = Theme::current().look();
    const Type type = typeOf(index);
    const QVariant ink = index.data(WrappedInkRole);
    const Token token = ink.isValid() ? static_cast<Token>(ink.toInt()) : Token::Ink;
    const QString text = shownText(index);
    const QRectF box = QRectF(option.rect).adjusted(look.px(kSide), 0, -look.px(kSide), 0);
    painter->save();
    if (isNumber(index)) {
        paintText(*painter, box, text, look.font(type), look.color(token), Qt::AlignRight);
    } else if (textWidth(text, type, look) <= box.width()) {
        paintText(*painter, box, text, look.font(type), look.color(token));
    } else {
        const double height = paragraphHeight(text, type, look, box.width(), m_mostLines);
        drawParagraph(*painter, QPointF(box.left(), box.top() + (box.height() - height) / 2), box.width(),
                      text, type, token, look, m_mostLines);
    }
    painter->restore();
}

} // namespace stillroom::ui
