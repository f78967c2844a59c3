#pragma once

#include "core/store/book.h"
#include "core/store/workbook.h"

// Internal to core/store.
namespace stillroom::store {

class SettingsRepository {
  public:
    explicit SettingsRepository(Book& book) : m_book(book) {}

    static base::BookId bookId(Connection& connection);
    void createBook(int readableFrom); // the one row of `book`
    BookSettings load() const;
    void save(const BookSettings& settings); // writes what differs

  private:
    std::optional<std::string> value(const char* name) const;
    void setValue(const char* name, const std::string& value);
    Book& m_book;
};

} // namespace stillroom::store
