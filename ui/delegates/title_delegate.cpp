#include "ui/delegates/title_delegate.h"

#include "ui/theme/theme.h"

#include <QApplication>
#include <QListView>
#include <QPainter>
#include <QScrollBar>

namespace stillroom::ui {

namespace {

int side() {
    return Theme::current().pxInt(8);
}
int above() {
    return Theme::current().pxInt(4);
}

} // namespace

QSize TitleDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const auto* view = qobject_cast<const QListView*>(option.widget);
    // As narrow as it gets: a scroll bar that comes later must not cost a title its last line.
    const int bar =
        view && !view->verticalScrollBar()->isVisible() ? view->verticalScrollBar()->sizeHint().width() : 0;
    const int width = (view ? view->viewport()->width() : option.rect.width()) - bar;
    const QRect room(0, 0, width - 2 * side(), 1000);
    const QRect text =
        option.fontMetrics.boundingRect(room, Qt::TextWordWrap, index.data(Qt::DisplayRole).toString());
    return {width, text.height() + 2 * above()};
}

void TitleDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const {
    QStyleOptionViewItem item = option;
    initStyleOption(&item, index);
    const QString text = item.text;
    item.text.clear();
    const auto* style = item.widget ? item.widget->style() : QApplication::style();
    style->drawControl(QStyle::CE_ItemViewItem, &item, painter, item.widget);
    painter->save();
    painter->setFont(item.font);
    painter->setPen(Theme::current().color(Token::Ink));
    painter->drawText(item.rect.adjusted(side(), above(), -side(), -above()), Qt::TextWordWrap, text);
    painter->restore();
}

} // namespace stillroom::ui
