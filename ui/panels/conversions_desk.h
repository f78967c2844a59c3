#pragma once

#include "core/physics/conversions/conversions.h"
#include "ui/panels/form_page.h"

class QLineEdit;
class QPushButton;

namespace stillroom::ui {

// The sums people do beside a recipe: pick one, fill in what is known, read the rest with its source. By
// keyboard: type to filter, Down and Enter to choose, Enter from field to field, Esc to leave.
class ConversionsDesk : public FormPage {
    Q_OBJECT

  public:
    explicit ConversionsDesk(QWidget* parent = nullptr);

    void choose(std::string_view id);
    const physics::Conversion& chosen() const { return *m_chosen; }
    QLineEdit& filter() { return *m_filter; }
    QString resultText(std::string_view key) const; // "≈ 79.86", empty when there is none
    QString asText() const;                         // what Copy puts on the clipboard
    void copy() const;

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void dress() override;

  private:
    void makeSide();
    void makeSheet();
    void applyFilter();
    void stepInList(int direction);
    void onChosen();
    void compute();
    void showValues();

    const physics::Conversion* m_chosen = nullptr;
    physics::Converted m_result;
    QLineEdit* m_filter = nullptr;
    QLabel* m_none = nullptr;
    QLabel* m_wanted = nullptr;
    QLabel* m_remarks = nullptr;
    QLabel* m_source = nullptr;
    QLabel* m_limits = nullptr;
    QPushButton* m_copy = nullptr;
};

} // namespace stillroom::ui
