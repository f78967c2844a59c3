#pragma once

#include "core/store/book.h"
#include "core/store/workbook.h"

// Internal to core/store.
namespace stillroom::store {

// Drinks and their drafts.
class DrinkRepository {
  public:
    explicit DrinkRepository(Book& book) : m_book(book) {}

    void add(const history::Drink& drink);
    std::optional<history::Drink> find(base::DrinkId id) const;
    std::vector<history::Drink> preparations() const; // not binned, oldest first
    // Each group of fields that differs from the stored drink is written; false when none did.
    bool save(const history::Drink& drink);

    history::Draft addDraft(base::DrinkId drink, std::optional<base::RevisionId> basedOn,
                            const spec::Spec& spec, const std::string& name = {});
    std::optional<history::Draft> draft(base::DraftId id) const;
    std::vector<history::Draft> draftsOf(base::DrinkId drink) const; // not binned; set aside ones last
    // Each throws NotFound, and writes nothing where it stands so already.
    void renameDraft(base::DraftId draft, const std::string& name);
    void setDraftAside(base::DraftId draft, bool aside);
    void binDraft(base::DraftId draft, bool binned);
    std::vector<history::Drink> binnedDrinks() const;
    std::vector<history::Draft> binnedDrafts() const; // of drinks that are not binned
    // False, and nothing written, when the stored spec is the same.
    bool saveSpec(base::DraftId draft, const spec::Spec& spec);
    void setBasedOn(base::DraftId draft, base::RevisionId revision);

    // In no order. A drink without revisions has no strength yet; its newest draft stands in `draft`.
    struct Listed {
        DrinkSummary summary;
        base::DraftId draft;
        std::int64_t draftVersion = 0;
    };
    std::vector<Listed> list() const;

  private:
    void requireDraft(base::DraftId draft) const;
    std::vector<history::Draft> draftsFrom(Query& query) const;
    Book& m_book;
};

} // namespace stillroom::store
