#pragma once

#include "core/store/book.h"
#include "core/store/workbook.h"

// Internal to core/store.
namespace stillroom::store {

// Revisions, the fact states and the house measures they were computed with. All append-only.
class RevisionRepository {
  public:
    explicit RevisionRepository(Book& book) : m_book(book) {}

    std::optional<history::Revision> find(base::RevisionId id) const;
    std::vector<history::Revision> ofDrink(base::DrinkId drink) const; // parents before children
    // The one a house-made ingredient is poured from: the house revision, else the last kept.
    std::optional<base::RevisionId> inUse(base::DrinkId drink) const;
    // Throws NotFound. Writes nothing where it stands so already.
    void setAside(base::RevisionId revision, bool aside, const std::string& why);
    std::vector<SetAside> setAsideOf(base::DrinkId drink) const;
    int nextNumber(base::DrinkId drink) const;
    // The states it names must be stored already.
    void insert(const history::Revision& revision);
    // The strength and the spec's hash that lists read stand beside a revision, outside its content: do they
    // say what its readings and its spec say?
    bool listedAsRead(const history::Revision& revision) const;

    // Of the revisions whose dilution somebody measured: by an index, without reading the others. Of those of
    // one drink that carry the same measurement along, the first.
    std::vector<spec::Spec> measuredSpecs() const;

    void addState(const larder::FactState& state); // once per content
    std::optional<larder::FactState> state(const std::string& hash) const;

  private:
    history::Revision read(const Query& row) const;
    history::RevisionFacts factsOf(std::int64_t row) const;
    std::int64_t measuresRow(const quantity::HouseMeasures& measures);
    // nullptr when they cannot be read.
    const quantity::HouseMeasures* measuresOf(std::int64_t row, const std::string& hash) const;
    Book& m_book;
    // House measures change a few times in a book's life: the last ones read or written are kept at hand.
    // Known by hash, since a row that was rolled back may come again with other content.
    mutable std::string m_measuresHash;
    mutable quantity::HouseMeasures m_measures;
};

} // namespace stillroom::store
