#pragma once

#include "ui/theme/look.h"

#include <QStyledItemDelegate>

namespace stillroom::ui {

// What a model says of a cell beside its text: ints of Type and Token. Without them: Control, Ink.
enum WrappedRole { WrappedTypeRole = Qt::UserRole + 40, WrappedInkRole };

// A cell whose text goes on below itself where the column is too narrow, at the line height of its type.
// Numbers, aligned to the right, stay on one line. The view wears the focus, not the cell.
class WrappedDelegate : public QStyledItemDelegate {
    Q_OBJECT

  public:
    // `mostLines`: the last of them ends in "…" where there is more; 0: no end.
    explicit WrappedDelegate(int mostLines, QObject* parent = nullptr);
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;
    // Of a cell so wide, in pixels.
    int heightFor(const QModelIndex& index, int width) const;

  private:
    int m_mostLines;
};

} // namespace stillroom::ui
