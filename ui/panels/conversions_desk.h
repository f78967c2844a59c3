#pragma once

#include "core/physics/conversions/conversions.h"

#include <QWidget>

class QFrame;
class QLabel;
class QLineEdit;
class QListWidget;
class QPushButton;
class QScrollArea;

namespace stillroom::ui {

class ConversionForm;
class ValueRows;

// The sums people do beside a recipe: pick one, fill in what is known, read the rest with its source. By
// keyboard: type to filter, Down and Enter to choose, Enter from field to field, Esc to leave.
class ConversionsDesk : public QWidget {
    Q_OBJECT

  public:
    explicit ConversionsDesk(QWidget* parent = nullptr);

    void choose(std::string_view id);
    const physics::Conversion& chosen() const { return *m_chosen; }
    ConversionForm& form() { return *m_form; }
    QLineEdit& filter() { return *m_filter; }
    QListWidget& list() { return *m_list; }
    QString resultText(std::string_view key) const; // "≈ 79.86", empty when there is none
    QString asText() const;                         // what Copy puts on the clipboard
    void copy() const;

  Q_SIGNALS:
    void closed();

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void changeEvent(QEvent* event) override;

  private:
    QWidget* makeSide();
    QWidget* makeSheet();
    void applyFilter();
    void stepInList(int direction);
    void toFirstField();
    void onChosen();
    void compute();
    void showValues();
    void dress();

    const physics::Conversion* m_chosen = nullptr;
    physics::Converted m_result;
    QLineEdit* m_filter;
    QListWidget* m_list;
    QLabel* m_none;
    QLabel* m_title;
    ConversionForm* m_form;
    ValueRows* m_values;
    QLabel* m_wanted;
    QLabel* m_remarks;
    QLabel* m_source;
    QLabel* m_limits;
    QPushButton* m_copy;
    QScrollArea* m_scroll;
    QWidget* m_side;
};

} // namespace stillroom::ui
