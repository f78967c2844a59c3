#include "ui/widgets/value_rows.h"

#include "ui/theme/theme.h"

#include <QApplication>
#include <QEvent>
#include <QHeaderView>
#include <QStyledItemDelegate>

namespace stillroom::ui {

namespace {

// Labels stand in the line of the form's own: without the margin a table cell has.
class LabelDelegate : public QStyledItemDelegate {
  public:
    using QStyledItemDelegate::QStyledItemDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option,
               const QModelIndex& index) const override {
        QStyleOptionViewItem shifted = option;
        const auto* style = option.widget ? option.widget->style() : QApplication::style();
        shifted.rect.adjust(-style->pixelMetric(QStyle::PM_FocusFrameHMargin, nullptr, option.widget) - 1, 0,
                            0, 0);
        QStyledItemDelegate::paint(painter, shifted, index);
    }
};

} // namespace

ValueRows::ValueRows(QWidget* parent) : QTableWidget(0, 3, parent) {
    setFrameShape(QFrame::NoFrame);
    setItemDelegateForColumn(0, new LabelDelegate(this));
    setShowGrid(false);
    horizontalHeader()->hide();
    verticalHeader()->hide();
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setSelectionBehavior(QAbstractItemView::SelectRows);
    setTabKeyNavigation(false);
    setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    dress();
}

void ValueRows::setRows(const std::vector<Row>& rows) {
    setRowCount(static_cast<int>(rows.size()));
    for (int i = 0; i < rowCount(); ++i) {
        const auto& row = rows[static_cast<std::size_t>(i)];
        const auto put = [&](int at, const QString& text, Qt::Alignment alignment) {
            auto* cell = new QTableWidgetItem(text);
            cell->setTextAlignment(alignment | Qt::AlignVCenter);
            setItem(i, at, cell);
        };
        put(0, row.label, Qt::AlignLeft);
        put(1, row.value, Qt::AlignRight);
        put(2, row.unit, Qt::AlignLeft);
    }
    setVisible(!rows.empty());
    dress();
}

QString ValueRows::asText() const {
    QStringList lines;
    for (int row = 0; row < rowCount(); ++row)
        lines << QString(item(row, 0)->text() + QStringLiteral(": ") + item(row, 1)->text() +
                         QLatin1Char(' ') + item(row, 2)->text())
                     .trimmed();
    return lines.join(QLatin1Char('\n'));
}

void ValueRows::dress() {
    const auto& theme = Theme::current();
    for (int row = 0; row < rowCount(); ++row) {
        setRowHeight(row, theme.pxInt(24));
        const bool part = item(row, 0)->text().startsWith(QLatin1Char(' ')); // of what stands above
        for (int column = 0; column < 3; ++column)
            item(row, column)
                ->setFont(theme.font(column != 1 ? Type::Control
                                     : part      ? Type::Reading
                                                 : Type::ReadingServed));
    }
    setColumnWidth(0, theme.pxInt(250));
    setColumnWidth(1, theme.pxInt(134));
    setColumnWidth(2, theme.pxInt(110));
    setFixedHeight(rowCount() * theme.pxInt(24) + 2);
}

void ValueRows::changeEvent(QEvent* event) {
    QTableWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
