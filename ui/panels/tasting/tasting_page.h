#pragma once

#include "ui/panels/tasting/tasting_form.h"
#include "ui/panels/tasting/tasting_sheet.h"

#include <QWidget>

class QBoxLayout;
class QFrame;
class QLabel;
class QScrollArea;

namespace stillroom::ui {

class TastingList;

// Where a kept revision is tasted: the entry, and beside it (or below, in a narrow window) what was said
// before. Ctrl Enter saves from anywhere; a tasting chosen in the list is corrected in the entry.
class TastingPage : public QWidget {
    Q_OBJECT

  public:
    explicit TastingPage(QWidget* parent = nullptr);

    // Clears the entry and puts the keyboard on the first thing that is not known.
    void setSheet(const TastingSheet& sheet);
    TastingInput input() const { return m_form->input(); }
    void setInput(const TastingInput& input) { m_form->setInput(input); }
    bool holdsUnsaved() const { return m_form->holdsUnsaved(); }
    void showError(const QString& fact, const QString& consequence, const QString& act = {}) {
        m_form->showError(fact, consequence, act);
    }
    void startEntry() { m_form->startEntry(); }
    // As read anew: the entry stays as it is.
    void setTastings(const std::vector<TastingEntry>& tastings);
    // What it said stands in the entry; saved, it takes its place.
    void correct(std::size_t tasting);

    TastingForm& form() { return *m_form; }
    TastingList& list() { return *m_list; }

  Q_SIGNALS:
    void saveRequested(const stillroom::ui::TastingInput& input);
    void closed();
    void photosAsked(stillroom::base::TastingId tasting);

  protected:
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void dress();
    void place();
    QString aboutText() const;

    TastingSheet m_sheet;
    QLabel* m_title;
    QLabel* m_about;
    QBoxLayout* m_body;
    QBoxLayout* m_head;
    QFrame* m_divide;
    TastingForm* m_form;
    TastingList* m_list;
    QScrollArea* m_scroll;
};

} // namespace stillroom::ui
