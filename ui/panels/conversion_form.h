#pragma once

#include "core/exchange/conversion_entry.h"
#include "core/physics/conversions/conversions.h"

#include <QStringList>
#include <QWidget>

#include <vector>

class QLabel;
class QLineEdit;
class QComboBox;

namespace stillroom::ui {

// The fields of one conversion. Of inputs that stand for each other the ones typed last count: typing into
// one clears the oldest. What is wrong is said under the field it is about; what follows from the others
// stands in the empty fields, quietly.
class ConversionForm : public QWidget {
    Q_OBJECT

  public:
    explicit ConversionForm(QWidget* parent = nullptr);

    void setConversion(const physics::Conversion& conversion);
    exchange::TypedEntries entries() const;
    void fill(const exchange::TypedEntries& entries); // of fields it has; tells nobody
    using Outcome = tl::expected<physics::Converted, physics::ConversionProblem>;
    void showOutcome(const Outcome& outcome);

    QWidget* field(std::string_view key) const; // nullptr: no such input
    QWidget* firstField() const;
    QString problemAt(std::string_view key) const; // empty: nothing wrong there
    bool isEmpty() const;
    QStringList written() const; // "Strength at 20 °C: 40 % vol", of what is filled in

  Q_SIGNALS:
    void edited();

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    struct Row {
        const physics::ConversionInput* input;
        QLabel* label;
        QLineEdit* edit;   // or
        QComboBox* choice; // for a word
        QLabel* unit;
        QLabel* problem;
        QWidget* widget() const;
    };

    void onTyped(std::size_t row);
    void dress();
    const Row* row(std::string_view key) const;

    const physics::Conversion* m_conversion = nullptr;
    QWidget* m_body = nullptr;
    std::vector<Row> m_rows;
    std::vector<QLabel*> m_headings;
    std::vector<std::size_t> m_typed; // OneOf rows in the order they were typed
};

} // namespace stillroom::ui
