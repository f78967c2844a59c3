#pragma once

#include "ui/models/readings_model.h"

#include <QTableView>

namespace stillroom::ui {

// The grid of readings: fixed columns, so that numbers hold still.
class ReadingsTable : public QTableView {
    Q_OBJECT

  public:
    explicit ReadingsTable(QWidget* parent = nullptr);
    ReadingsModel& readings() { return *m_model; }
    // Where the column of a stage stands, for what is drawn above it.
    QRectF stageBox(spec::Stage stage) const;

  Q_SIGNALS:
    void columnsMoved();

  protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    bool focusNextPrevChild(bool next) override { return QWidget::focusNextPrevChild(next); }

  private:
    void fit();

    ReadingsModel* m_model;
};

} // namespace stillroom::ui
