#pragma once

#include "core/store/book.h"
#include "core/tasting/tasting.h"

#include <optional>
#include <string>
#include <vector>

// Internal to core/store.
namespace stillroom::store {

// What a tasting says, as JSON with sorted keys: its hash is stored beside it and compared by check().
std::string canonicalTasting(const tasting::Tasting& tasting);

class TastingRepository {
  public:
    explicit TastingRepository(Book& book) : m_book(book) {}

    base::PersonId addPerson(const std::string& name, const std::string& initials);
    void renamePerson(base::PersonId person, const std::string& name, const std::string& initials);
    std::vector<tasting::Person> people() const; // in the order they came

    void insert(const tasting::Tasting& tasting);
    std::optional<tasting::Tasting> find(base::TastingId id) const;
    std::vector<tasting::Tasting> ofRevision(base::RevisionId revision) const; // without amended ones
    std::vector<tasting::Tasting> ofDrink(base::DrinkId drink) const; // likewise, of all its revisions
    std::vector<tasting::Tasting> measured() const; // something of them was; amended ones left out
    // With the hash stored beside it.
    std::optional<std::pair<tasting::Tasting, std::string>> withHash(base::TastingId id) const;
    // Every one, amended ones too, likewise.
    std::vector<std::pair<tasting::Tasting, std::string>> allWithHashes() const;

  private:
    Book& m_book;
};

} // namespace stillroom::store
