#pragma once

#include "core/larder/ingredient.h"

#include <QDialog>

class QLabel;
class QPushButton;

namespace stillroom::ui {

class NumberEdit;

// What the label says: the facts whose lack shows as a gap, and what a pack costs. An empty field stays
// unknown; nothing is ever taken for zero.
class FactsDialog : public QDialog {
    Q_OBJECT

  public:
    FactsDialog(const larder::Ingredient& ingredient, quantity::Currency currency, QWidget* parent = nullptr);

    NumberEdit& strength() { return *m_strength; }
    NumberEdit& sugar() { return *m_sugar; }
    NumberEdit& acid() { return *m_acid; }
    NumberEdit& density() { return *m_density; }
    QString note() const; // what stands under the fields
    NumberEdit& price() { return *m_price; }
    NumberEdit& packMl() { return *m_packMl; }

  Q_SIGNALS:
    void saveAsked(const stillroom::larder::Ingredient& ingredient);

  private:
    void save();
    void check();
    larder::FactState written() const; // as the fields stand

    larder::Ingredient m_ingredient;
    quantity::Currency m_currency;
    NumberEdit* m_strength;
    NumberEdit* m_sugar;
    NumberEdit* m_acid;
    NumberEdit* m_density;
    NumberEdit* m_price;
    NumberEdit* m_packMl;
    QPushButton* m_save;
    QLabel* m_note;
};

} // namespace stillroom::ui
