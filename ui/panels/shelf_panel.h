#pragma once

#include "ui/models/shelf_model.h"

#include <QWidget>

class QLabel;
class QLineEdit;
class QListView;

namespace stillroom::ui {

// The drinks of the book, found by menu or by typing part of a name.
class ShelfPanel : public QWidget {
    Q_OBJECT

  public:
    explicit ShelfPanel(QWidget* parent = nullptr);

    void setBook(WorkbookSession* book);
    void setCurrent(base::DrinkId drink);
    void focusFilter();
    QListView& list() { return *m_list; }
    QLineEdit& filterField() { return *m_filter; }
    ShelfModel& model() { return *m_model; }

  Q_SIGNALS:
    void drinkChosen(base::DrinkId drink);

  protected:
    void paintEvent(QPaintEvent* event) override;
    void changeEvent(QEvent* event) override;
    bool eventFilter(QObject* object, QEvent* event) override;

  private:
    void restoreCurrent();
    void showEmptiness();
    void dress();

    ShelfModel* m_model;
    QLineEdit* m_filter;
    QListView* m_list;
    QLabel* m_empty;
    base::DrinkId m_current;
    bool m_placing = false;
};

} // namespace stillroom::ui
