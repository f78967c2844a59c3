#pragma once

#include "core/larder/ingredient.h"
#include "core/store/book.h"

#include <vector>

// Internal to core/store.
namespace stillroom::store {

class LotRepository {
  public:
    explicit LotRepository(Book& book) : m_book(book) {}

    std::vector<larder::Lot> all() const; // as added
    void save(const larder::Lot& lot);    // adds, or writes what differs
    // No ingredient pours from it any longer, and it is gone; one that a revision was kept with is used up.
    void takeBack(base::LotId lot);

  private:
    Book& m_book;
};

} // namespace stillroom::store
