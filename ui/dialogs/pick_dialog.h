#pragma once

#include "ui/theme/marks.h"

#include <QDialog>

#include <optional>
#include <vector>

class QLabel;
class QLineEdit;
class QListWidget;

namespace stillroom::ui {

// One thing to choose: its mark, its name in the hand, what is said beside and below it.
struct PickRow {
    std::optional<StateMark> mark;
    QString title;  // "r4", "with honey", "Quill Point"
    QString aside;  // "21 Nov"
    QString detail; // "lemon 22.5 → 20 ml"
    bool current = false;
};

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
