#pragma once

#include "core/larder/larder.h"
#include "core/store/workbook.h"

#include <QWidget>

#include <vector>

class QComboBox;
class QGridLayout;
class QLabel;
class QLineEdit;
class QPushButton;

namespace stillroom::ui {

class NamesEdit;
class NumberEdit;
class PickMany;
class WrapLabel;

// What a search asks of drinks beside words. What cannot be read is framed, said, and does not count.
class FilterForm : public QWidget {
    Q_OBJECT

  public:
    explicit FilterForm(QWidget* parent = nullptr);

    void setBook(const store::BookSettings& settings, const larder::Larder& larder);
    store::SearchFilters filters() const;
    void setFilters(const store::SearchFilters& filters);

    NumberEdit& strengthFrom() { return *m_strengthFrom; }
    NumberEdit& strengthTo() { return *m_strengthTo; }
    NamesEdit& with() { return *m_with; }
    PickMany& states() { return *m_states; }
    QComboBox& tooMuch() { return *m_tooMuch; }
    QLineEdit& changedFrom() { return *m_changedFrom; }
    QPushButton& clearing() { return *m_clear; }
    QWidget* lastStop() const;

  Q_SIGNALS:
    void changed();

  protected:
    void changeEvent(QEvent* event) override;

  private:
    void addRow(const QString& caption, QWidget* field, QWidget* buddy = nullptr);
    QWidget* range(QWidget* from, QWidget* to, QLabel* unit);
    void tell();
    void onChange();
    void dress();

    store::BookSettings m_settings;
    larder::Larder m_larder;
    QGridLayout* m_grid;
    std::vector<QLabel*> m_captions;
    QComboBox* m_form;
    PickMany* m_states;
    NumberEdit *m_strengthFrom, *m_strengthTo, *m_costFrom, *m_costTo;
    QLabel* m_currency;
    PickMany* m_styles;
    NamesEdit *m_with, *m_without;
    PickMany *m_allergens, *m_withoutAllergens;
    QLineEdit *m_changedFrom, *m_changedTo;
    QComboBox* m_tooMuch;
    WrapLabel* m_remark;
    QPushButton* m_clear;
    bool m_filling = false;
};

} // namespace stillroom::ui
