#pragma once

#include "core/store/workbook.h"
#include "ui/text/words.h"

#include <QObject>

#include <memory>
#include <vector>

namespace stillroom::ui {

class LarderEdit;

// One open workbook: the only place of the window that writes to it. Holds what every panel reads (the
// shelf, the larder, the settings) and says when one of them is another.
class WorkbookSession : public QObject {
    Q_OBJECT

  public:
    // The clock outlives the session.
    WorkbookSession(std::unique_ptr<store::Workbook> book, const base::Clock& clock,
                    QObject* parent = nullptr);
    ~WorkbookSession() override;

    store::Workbook& book() { return *m_book; }
    const store::Workbook& book() const { return *m_book; }
    const base::Clock& clock() const { return m_clock; }
    const store::BookSettings& settings() const { return m_settings; }
    const larder::Larder& larder() const { return m_larder; }
    // The settings' rules with this bench's own measurements: for drafts, not for revisions read as they
    // were.
    const spec::HouseRules& houseRules() const { return m_houseRules; }
    const std::vector<store::DrinkSummary>& shelf() const { return m_shelf; }
    const store::DrinkSummary* summary(base::DrinkId drink) const;
    QString title() const; // the book's name, else its file's
    exchange::ReadOptions readOptions() const;

    // Each of these throws StoreError and has then changed nothing.
    history::Draft addDrink(const history::Drink& drink, const spec::Spec& spec);
    void saveDrink(const history::Drink& drink);
    void saveSettings(const store::BookSettings& settings);
    void saveIngredient(const larder::Ingredient& ingredient);
    // All of them at once, brought back where they were in the bin; then those that go into it.
    // `lotsGone`: added and taken back.
    void saveIngredients(const std::vector<larder::Ingredient>& all,
                         const std::vector<base::IngredientId>& binned = {},
                         const std::vector<larder::Lot>& lots = {},
                         const std::vector<base::LotId>& lotsGone = {});
    // What was made; `inUse`: poured from now on, with its measured figures.
    void saveLot(const larder::Lot& lot, bool inUse);
    // The user's word on what a written name means; nullopt takes it back. Kept in the book and used for the
    // next line of that name; lines that stand keep what they were taken for, so nothing is read anew.
    void setNameMeaning(const std::string& written, std::optional<base::IngredientId> ingredient);
    std::optional<base::IngredientId> nameMeaning(const std::string& written) const;

    // The larder's edits on their way, with their undo steps; made when first asked for.
    LarderEdit& larderEdit();

    void reloadShelf();
    void reloadLarder();
    void reloadBench(); // a measured dilution was kept
    // What the open draft reads as, put on its shelf row without asking the book.
    void noteDraft(base::DrinkId drink, bool differs, const spec::Reading& servedStrength);

  Q_SIGNALS:
    void shelfReloaded();
    void shelfRowChanged(base::DrinkId drink);
    void larderChanged();
    void settingsChanged();
    void benchChanged();

  private:
    std::unique_ptr<store::Workbook> m_book;
    const base::Clock& m_clock;
    store::BookSettings m_settings;
    larder::Larder m_larder;
    spec::HouseRules m_houseRules;
    std::vector<store::DrinkSummary> m_shelf;
    std::unique_ptr<LarderEdit> m_larderEdit; // goes before the book does
};

} // namespace stillroom::ui
