#pragma once

#include "core/preparation/bringing.h"
#include "ui/panels/measuring/ways_page.h"

class QComboBox;

namespace stillroom::ui {

class DraftSession;
class IngredientButton;
class WorkbookSession;

// What to add to a preparation, or to so much of something, so that it comes to a target. The answer goes
// into the draft as lines or a step, into a new preparation, or away as text.
class TargetPage : public WaysPage {
    Q_OBJECT

  public:
    // `draft`: the preparation on the bench; nullptr: none is. Both outlive the page.
    TargetPage(WorkbookSession& book, DraftSession* draft, QWidget* parent = nullptr);

    void chooseIngredient(std::optional<base::IngredientId> ingredient); // as the person would
    void setInHand(std::optional<base::IngredientId> ingredient);        // what one may have meant
    void chooseTarget(std::string_view id);
    QComboBox& what() { return *m_what; }
    IngredientButton& of() { return *m_of; }
    IngredientButton& like() { return *m_like; }
    IngredientButton& with() { return *m_with; }
    QPushButton& take() { return *m_take; }
    QPushButton& copyButton() { return *m_copy; }
    QString asText() const;

  Q_SIGNALS:
    void draftAsked(const stillroom::spec::Spec& spec, const QString& what);
    void preparationAsked(const QString& name, const stillroom::spec::Spec& spec);
    void said(const QString& words);

  private:
    bool ofDraft() const;
    void onWay(int row);
    void offerBases();
    void compute();
    void showBrought();
    std::vector<ValueRows::Row> rowsOf(const preparation::Brought& brought) const;
    std::vector<ValueRows::Row> partsOf(const preparation::DoseLine& dose) const;
    QString detailOf(const preparation::Brought& brought) const;
    QString nameOfBase() const;
    void askTake();
    void copy();

    WorkbookSession& m_book;
    DraftSession* m_draft;
    QWidget* m_whatRow;
    QComboBox* m_what;
    IngredientButton* m_of;
    IngredientButton* m_like;
    IngredientButton* m_with;
    QPushButton* m_take;
    QPushButton* m_copy;
    preparation::Bringing m_bringing; // for this base at this house
    std::optional<base::IngredientId> m_inHand;
    bool m_picked = false; // the person chose what is brought there
    preparation::BringAsk m_ask;
    std::optional<preparation::Brought> m_brought;
};

} // namespace stillroom::ui
