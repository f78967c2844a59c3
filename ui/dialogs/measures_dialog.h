#pragma once

#include "core/store/workbook.h"

#include <QDialog>

#include <vector>

class QComboBox;
class QFormLayout;
class QLineEdit;
class QPushButton;

namespace stillroom::ui {

class NumberEdit;

// What this house means by a dash, a barspoon or an egg white; its currency, its standard drink, and whose
// ounces and spoons it reads. Kept with every revision from here on; earlier ones keep theirs.
class MeasuresDialog : public QDialog {
    Q_OBJECT

  public:
    explicit MeasuresDialog(const store::BookSettings& settings, QWidget* parent = nullptr);
    NumberEdit* fieldOf(quantity::Measure measure) const; // nullptr: not a house measure

  Q_SIGNALS:
    void saveAsked(const stillroom::store::BookSettings& settings);

  private:
    struct Field {
        quantity::HouseSize* size; // within m_settings
        NumberEdit* edit;
        double shown;
    };
    void addSection(QFormLayout& form, const QString& title);
    void addField(QFormLayout& form, const QString& name, const QString& unit, quantity::HouseSize& size);
    void save();
    void check();

    store::BookSettings m_settings;
    std::vector<Field> m_fields;
    std::vector<std::pair<quantity::Measure, NumberEdit*>> m_byMeasure;
    QLineEdit* m_name;
    QComboBox* m_region;
    QLineEdit* m_currency;
    NumberEdit* m_standardDrink;
    QPushButton* m_save;
};

} // namespace stillroom::ui
