#pragma once

#include "core/larder/price_history.h"
#include "core/store/book.h"

#include <vector>

// Internal to core/store.
namespace stillroom::store {

// What one currency was in another, by day.
class RateRepository {
  public:
    explicit RateRepository(Book& book) : m_book(book) {}

    std::vector<larder::ExchangeRate> all() const;             // oldest first
    void save(const std::vector<larder::ExchangeRate>& rates); // writes what differs; absent ones are marked

  private:
    Book& m_book;
};

} // namespace stillroom::store
