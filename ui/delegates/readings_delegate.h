#pragma once

#include <QStyledItemDelegate>

namespace stillroom::ui {

class ReadingsDelegate : public QStyledItemDelegate {
    Q_OBJECT

  public:
    using QStyledItemDelegate::QStyledItemDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
};

} // namespace stillroom::ui
