#pragma once

#include "ui/theme/marks.h"

#include <QString>
#include <QStyledItemDelegate>

#include <optional>
#include <vector>

namespace stillroom::ui {

// One thing of a list: its mark, its name in the hand, what is said beside and below it.
struct PickRow {
    std::optional<StateMark> mark;
    QString title;  // "r4", "with honey", "Quill Point"
    QString aside;  // "21 Nov"
    QString detail; // "lemon 22.5 → 20 ml"
    bool current = false;
};

// Draws rows in an item view whose items name their row.
class PickDelegate : public QStyledItemDelegate {
  public:
    static constexpr int kRowRole = Qt::UserRole;
    PickDelegate(const std::vector<PickRow>& rows, QObject* parent);

    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override;

  private:
    const std::vector<PickRow>& m_rows;
};
QString spokenRow(const PickRow& row); // for those who hear it

} // namespace stillroom::ui
