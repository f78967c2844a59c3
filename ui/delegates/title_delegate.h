#pragma once

#include <QStyledItemDelegate>

namespace stillroom::ui {

// A title on as many lines as it needs, never cut short.
class TitleDelegate : public QStyledItemDelegate {
    Q_OBJECT

  public:
    using QStyledItemDelegate::QStyledItemDelegate;
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
};

} // namespace stillroom::ui
