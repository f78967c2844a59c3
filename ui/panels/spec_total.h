#pragma once

#include "ui/models/sheet_row.h"

#include <QWidget>

namespace stillroom::ui {

class SpecTable;

// The row under the lines: what was poured and the sums of the columns, aligned with them.
class SpecTotal : public QWidget {
    Q_OBJECT

  public:
    explicit SpecTotal(const SpecTable& table, QWidget* parent = nullptr);
    void show(const SheetTotal& total);
    using QWidget::show;
    QSize sizeHint() const override;

  protected:
    void paintEvent(QPaintEvent* event) override;

  private:
    const SpecTable& m_table;
    SheetTotal m_total;
};

} // namespace stillroom::ui
