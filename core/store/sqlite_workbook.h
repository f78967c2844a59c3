#pragma once

#include "core/store/bench_rules.h"
#include "core/store/book.h"
#include "core/store/book_record.h"
#include "core/store/drink_repository.h"
#include "core/store/finder.h"
#include "core/store/holder.h"
#include "core/store/larder_repository.h"
#include "core/store/lot_repository.h"
#include "core/store/measured_tastings.h"
#include "core/store/opening.h"
#include "core/store/panel_repository.h"
#include "core/store/photo_repository.h"
#include "core/store/photos_taken_off.h"
#include "core/store/revision_repository.h"
#include "core/store/search_repository.h"
#include "core/store/settings_repository.h"
#include "core/store/tasting_repository.h"
#include "core/store/use_repository.h"
#include "core/store/workbook.h"

#include <mutex>
#include <set>
#include <unordered_map>

// Internal to core/store: the workbook itself. Its calls are written by subject: workbook.cpp,
// workbook_tries.cpp, workbook_panels.cpp (with photos), workbook_search.cpp.
namespace stillroom::store {

class SqliteWorkbook final : public Workbook,
                             public MeasuredTastings,
                             public RecordedBook,
                             public PhotosTakenOff {
  public:
    SqliteWorkbook(std::string path, OpenedFile file, base::BookId id, const base::Clock& clock)
        : m_path(std::move(path)),
          m_file(std::move(file)),
          m_book{*m_file.connection, id, clock} {
        if (!m_file.readOnly) m_note.emplace(m_path, clock.now());
    }
    ~SqliteWorkbook() override { m_file.connection.reset(); } // before the note goes

    const std::string& path() const override { return m_path; }
    OpenOutcome outcome() const override { return m_file.outcome; }
    bool isReadOnly() const override { return m_file.readOnly; }
    bool usesRollbackJournal() const override { return m_file.connection->journal() == Journal::Rollback; }
    std::optional<std::string> upgradeBackup() const override { return m_file.backup; }

    BookSettings settings() const override;
    std::vector<DrinkSummary> summaries() const override;
    std::optional<history::Drink> drink(base::DrinkId id) const override;
    std::vector<history::Draft> drafts(base::DrinkId drink) const override;
    std::optional<history::Draft> draft(base::DraftId id) const override;
    std::vector<history::Revision> revisions(base::DrinkId drink) const override;
    std::optional<history::Revision> revision(base::RevisionId id) const override;
    std::vector<tasting::Tasting> tastings(base::RevisionId revision) const override;
    std::vector<tasting::Tasting> tastingsOf(base::DrinkId drink) const override;
    std::optional<tasting::Tasting> findTasting(base::TastingId id) const override;
    std::vector<tasting::Tasting> measuredTastings() const override;
    std::vector<tasting::Person> people() const override;
    larder::Larder larder() const override;
    preparation::Specs preparations() const override;
    std::vector<preparation::Circle> circles() const override;
    std::optional<larder::FactState> factState(const std::string& hash) const override;
    larder::Larder larderOf(const history::Revision& revision) const override;
    spec::HouseRules rulesOf(const history::Revision& revision) const override;
    std::vector<larder::Ingredient> binnedIngredients() const override;
    std::vector<IngredientUse> usesOf(base::IngredientId ingredient) const override;
    std::vector<spec::Spec> measuredSpecs() const override;

    void saveSettings(const BookSettings& settings) override;
    history::Draft addDrink(const history::Drink& drink, const spec::Spec& spec) override;
    void saveDrink(const history::Drink& drink) override;
    void saveDraft(base::DraftId draft, const spec::Spec& spec) override;
    tl::expected<history::Revision, KeepRefusal> keep(base::DraftId draft,
                                                      const std::string& reason) override;
    base::PersonId addPerson(const std::string& name, const std::string& initials) override;
    void renamePerson(base::PersonId person, const std::string& name, const std::string& initials) override;
    void removePerson(base::PersonId person) override { renamePerson(person, {}, {}); }
    tasting::Tasting addTasting(const tasting::Tasting& tasting) override;
    void saveIngredient(const larder::Ingredient& ingredient) override { saveIngredients({ingredient}); }
    void saveIngredients(const std::vector<larder::Ingredient>& all) override;
    void binIngredient(base::IngredientId ingredient, bool binned) override;
    void saveLot(const larder::Lot& lot) override;
    void changeLarder(const LarderChange& change) override;
    void rememberName(const std::string& writtenName, base::IngredientId ingredient) override;
    void forgetName(const std::string& writtenName) override;
    void saveCopy(const std::string& path) const override;
    void flush() override;

    history::Draft branch(base::RevisionId from, const std::string& name) override;
    history::Draft addDraft(base::DrinkId drink, std::optional<base::RevisionId> basedOn,
                            const spec::Spec& spec, const std::string& name) override;
    void renameDraft(base::DraftId draft, const std::string& name) override;
    void setDraftAside(base::DraftId draft, bool aside) override;
    void binDraft(base::DraftId draft, bool binned) override;
    void setRevisionAside(base::RevisionId revision, bool aside, const std::string& why) override;
    std::vector<SetAside> setAside(base::DrinkId drink) const override;
    BinContents bin() const override;
    std::string proposedReason(base::DraftId draft) const override;

    tl::expected<AttachedPhoto, tasting::PhotoError> attachPhoto(const PhotoOf& of, const std::string& bytes,
                                                                 const std::string& caption) override;
    void hidePhoto(base::PhotoLinkId photo, bool hidden) override;
    std::vector<AttachedPhoto> photosOf(const PhotoOf& of) const override;
    std::vector<AttachedPhoto> takenOff(const PhotoOf& of) const override;
    std::optional<std::string> photoBytes(const std::string& hash) const override;
    PhotoTally photoTally() const override;

    tl::expected<base::PanelId, tasting::PanelError> addPanel(const std::string& name,
                                                              const tasting::Panel& panel) override;
    tl::expected<void, tasting::PanelError> startPouring(base::PanelId panel) override;
    tl::expected<void, tasting::PanelError> addAnswer(base::PanelId panel, base::PersonId taster,
                                                      const tasting::Answer& answer) override;
    tl::expected<void, tasting::PanelError> closePanel(base::PanelId panel) override;
    void renamePanel(base::PanelId panel, const std::string& name) override;
    void binPanel(base::PanelId panel, bool binned) override;
    std::vector<PanelSummary> panels() const override;
    std::vector<PanelSummary> panelsOf(base::RevisionId product) const override;
    std::optional<tasting::Panel> panel(base::PanelId panel) const override;

    SearchAnswer search(const SearchRequest& request, int atMost) override;
    int catchUpSearch(int drinks) override;
    void rebuildSearch() override;
    std::vector<std::string> tags() const override;
    std::vector<SavedSearch> savedSearches() const override;
    SavedSearch saveSearch(const SavedSearch& search) override;
    void removeSavedSearch(base::SavedSearchId search) override;

    BookRecord record() const override;
    void restore(const BookRecord& record) override;

  private:
    // The one door, with the refusals that come before it.
    template <class Work>
    auto change(std::string_view operation, Durability durability, Work&& work) {
        const std::lock_guard lock(m_mutex);
        if (m_file.readOnly)
            throw StoreError(StoreErrorKind::ReadOnly, 0, m_path,
                             std::string(operation) + ": the workbook is open for reading only");
        return m_book.connection.change(operation, durability, std::forward<Work>(work));
    }
    template <class Work>
    auto reading(std::string_view operation, Work&& work) const {
        const std::lock_guard lock(m_mutex);
        return m_book.connection.guarded(operation, std::forward<Work>(work));
    }
    void larderChanged() {
        m_larder.reset();
        if (!m_measuredIsKept) m_measured.reset();
        benchChanged();
    }
    void measuredChanged() {
        m_measured.reset();
        benchChanged();
    }
    void benchChanged() {
        m_draftRules.reset();
        m_draftStrengths.clear();
        m_scales.reset();
        m_finder.forgetFigures();
    }
    const spec::HouseRules& draftRules() const {
        if (!m_draftRules) m_draftRules = benchRules(*this, larder());
        return *m_draftRules;
    }
    template <class Step, class Write>
    tl::expected<void, tasting::PanelError> advance(base::PanelId id, std::string_view operation, Step&& step,
                                                    Write&& write);
    history::Revision revisionFor(const history::Draft& draft, const std::string& reason);
    void readDue(int atMost);
    DrinkFigures figuresOf(base::DrinkId id) const;
    void requireOwnMarks(const history::Drink& drink) const;
    void addFirstStates(const history::Revision& revision);
    void insertAndCompare(const history::Revision& revision);
    spec::Reading draftStrength(const DrinkRepository::Listed& listed) const;

    std::string m_path;
    std::optional<HolderNote> m_note;
    OpenedFile m_file;
    mutable std::recursive_mutex m_mutex;
    mutable Book m_book;
    DrinkRepository m_drinks{m_book};
    RevisionRepository m_revisions{m_book};
    LarderRepository m_ingredients{m_book};
    LotRepository m_lots{m_book};
    UseRepository m_uses{m_book};
    TastingRepository m_tastings{m_book};
    SettingsRepository m_settings{m_book};
    PhotoRepository m_photos{m_book};
    PanelRepository m_panels{m_book};
    SearchRepository m_searches{m_book};
    mutable Finder m_finder{m_searches};

    BookSettings settingsNow() const;
    void readAsMade(std::vector<DrinkRepository::Listed>& all) const;

    // Made when first asked for, dropped when something they come from changes.
    mutable std::optional<larder::Larder> m_larder;
    mutable preparation::Specs m_preparations;            // of m_larder
    mutable std::optional<spec::HouseRules> m_draftRules; // with what the bench measured
    mutable std::set<base::DraftId> m_draftsInLarder;     // preparations poured from a draft
    mutable std::optional<tasting::ScaleSet> m_scales;
    mutable std::optional<std::vector<spec::Spec>> m_measured; // what the bench measured
    mutable bool m_measuredIsKept = true;                      // no matter what the larder says today
    struct DraftStrength {
        std::int64_t version = 0;
        spec::Reading strength;
    };
    mutable std::unordered_map<base::DraftId, DraftStrength> m_draftStrengths;
};

} // namespace stillroom::store
