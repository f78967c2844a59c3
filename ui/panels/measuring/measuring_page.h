#pragma once

#include "core/preparation/measuring.h"
#include "ui/panels/measuring/ways_page.h"

namespace stillroom::ui {

class DraftSession;
class IngredientButton;
class WorkbookSession;

// A fact found at the bench: with scale, refractometer, hydrometer, burette or squeezer. Result and band
// stand as figures are typed; what is kept is a fact "measured here" with its day and figures.
class MeasuringPage : public WaysPage {
    Q_OBJECT

  public:
    // `draft`: whose water a shake is; may be null. All outlive the page.
    MeasuringPage(WorkbookSession& book, DraftSession* draft, QWidget* parent = nullptr);

    void chooseIngredient(std::optional<base::IngredientId> ingredient);
    std::optional<base::IngredientId> ingredient() const; // whose fact it becomes
    void chooseMeasuring(std::string_view id);
    IngredientButton& of() { return *m_of; }
    QPushButton& keep() { return *m_keep; }
    QPushButton& back() { return *m_back; }
    QPushButton& toTasting() { return *m_toTasting; }
    // There is a kept revision that the drink as weighed could be tasted as.
    void setTastingOffered(bool offered);
    void refresh(); // the larder or the draft is another

  Q_SIGNALS:
    void keepAsked(const stillroom::preparation::MeasuredKeep& keep, const QString& what);
    void dilutionAsked(const stillroom::spec::DilutionEntry& entry);
    void tastingAsked(stillroom::quantity::Mass served);
    void takeBackAsked();

  private:
    void onWay(int row);
    void compute();
    void askKeep();
    void showFound(const physics::Converted& found);
    QString whatStands() const;
    QString whyNotKept() const;
    QString shakeDetail();

    WorkbookSession& m_book;
    DraftSession* m_draft;
    IngredientButton* m_of;
    QPushButton* m_keep;
    QPushButton* m_back;
    QPushButton* m_toTasting;
    bool m_tastingOffered = false;
    preparation::Measuring m_measuring; // of this ingredient at this house
    physics::ConversionValues m_values; // of the last outcome that held
    bool m_found = false;
};

} // namespace stillroom::ui
