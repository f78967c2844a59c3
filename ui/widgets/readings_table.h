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
    // The cell the keyboard stands on, as a reading: the served one beside a name, a unit or a difference.
    int readingRow() const;
    spec::Stage readingStage() const;
    QString readingText() const; // "21.9 % vol"

  Q_SIGNALS:
    void columnsMoved();
    void workingAsked();
    void cellMoved();

  protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;
    bool focusNextPrevChild(bool next) override { return QWidget::focusNextPrevChild(next); }

  private:
    void fit();

    ReadingsModel* m_model;
};

} // namespace stillroom::ui
