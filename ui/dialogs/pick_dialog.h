#pragma once

#include "ui/delegates/pick_row.h"

#include <QDialog>

#include <vector>

class QLabel;
class QLineEdit;
class QListWidget;

namespace stillroom::ui {

// Choosing one of many by typing part of it: the arrows walk the list from the field, Enter takes.
class PickDialog : public QDialog {
    Q_OBJECT

  public:
    PickDialog(const QString& title, const QString& about, std::vector<PickRow> rows,
               QWidget* parent = nullptr);

    QLineEdit& filter() { return *m_filter; }
    QListWidget& list() { return *m_list; }
    int chosen() const; // index into the rows; −1: none
    void setRows(std::vector<PickRow> rows);

  Q_SIGNALS:
    void picked(int row);

  protected:
    bool eventFilter(QObject* object, QEvent* event) override;

  private:
    void fill();
    void take();

    std::vector<PickRow> m_rows;
    QLineEdit* m_filter;
    QListWidget* m_list;
    QLabel* m_nothing;
};

} // namespace stillroom::ui
