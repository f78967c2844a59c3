#pragma once

#include "ui/models/more_model.h"

#include <QTableView>

namespace stillroom::ui {

class ReadingsTable;

// The further readings, in the columns of the grid above them.
class MoreTable : public QTableView {
    Q_OBJECT

  public:
    explicit MoreTable(QWidget* parent = nullptr);
    MoreModel& further() { return *m_model; }
    void standUnder(const ReadingsTable& grid);
    // The row the keyboard stands on; the first reading before it was ever there.
    int readingRow() const;
    spec::Stage readingStage() const;
    QString readingText() const; // "−8.1 °C"

  Q_SIGNALS:
    void workingAsked();
    void cellMoved();

  protected:
    void changeEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void currentChanged(const QModelIndex& current, const QModelIndex& previous) override;
    bool focusNextPrevChild(bool next) override { return QWidget::focusNextPrevChild(next); }

  private:
    void fit();

    MoreModel* m_model;
};

} // namespace stillroom::ui
