#pragma once

#include "ui/panels/larder/larder_list_model.h"

#include <QWidget>

class QCheckBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QTableView;

namespace stillroom::ui {

class LarderEdit;

// The list on the left of the larder: filtered with "/", walked with the arrows.
class LarderList : public QWidget {
    Q_OBJECT

  public:
    explicit LarderList(QWidget* parent = nullptr);

    void setEdit(LarderEdit* edit);
    QLineEdit& filterField() { return *m_filter; }
    QTableView& table() { return *m_table; }
    LarderListModel& model() { return *m_model; }
    QCheckBox& handbook() { return *m_handbook; }
    void focusFilter();
    bool toNextDoubt(); // down the list; false: none further
    // Where a filter hides it, the filter goes.
    void reveal(base::IngredientId ingredient);

  Q_SIGNALS:
    void chosen(base::IngredientId ingredient);
    void newAsked();
    void binAsked();
    void left(); // Enter: on to the ingredient

  protected:
    void changeEvent(QEvent* event) override;
    bool eventFilter(QObject* object, QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    void restoreCurrent();
    void showEmptiness();
    void fitColumns();
    void dress();

    LarderListModel* m_model;
    QLineEdit* m_filter;
    QCheckBox* m_handbook;
    QPushButton* m_new;
    QTableView* m_table;
    QLabel* m_empty;
    LarderEdit* m_edit = nullptr;
    bool m_placing = false;
};

} // namespace stillroom::ui
