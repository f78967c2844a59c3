#pragma once

#include "core/history/search_words.h"
#include "core/store/book.h"
#include "core/store/search_of_book.h"

#include <set>
#include <utility>

// Internal to core/store.
namespace stillroom::store {

// What search reads of a drink, as it was written.
struct SearchText {
    using Said = std::pair<base::RevisionId, std::string>;
    std::string name, tags, lines, brief, notes; // one below the other where there are several
    std::vector<Said> reasons, tasted;           // each text once, of the latest revision it was said of
    base::Instant changed;
};

// The derived index: search_text, search_index and what is due to be read again.
class SearchRepository {
  public:
    explicit SearchRepository(Book& book) : m_book(book) {}

    std::vector<std::int64_t> due(int atMost) const; // rows of drinks
    int dueCount() const;
    // Reads a drink anew; gives the folded words that are in it now. Writes.
    std::vector<std::string> readAnew(std::int64_t drink);
    void forget(std::int64_t drink); // which is about to leave the file
    void throwAway();                // everything is due then; the caller reads it

    // Drinks whose indexed columns hold all of the words; `columns` as FTS5 names them, "" for all. In order.
    std::vector<std::int64_t> matching(const std::vector<history::WantedWord>& words,
                                       const std::string& columns) const;
    SearchText stored(std::int64_t drink) const;
    // Of the index, in order, beginning behind one of them ("": all).
    std::vector<history::Vocabulary::Word> wordsAfter(const std::string& word, std::size_t atMost) const;

    struct Listed {
        std::int64_t row = 0;
        base::DrinkId drink;
        std::string name, nameKey;
        history::DrinkForm form = history::DrinkForm::Drink;
        bool binned = false;
        std::int64_t changedMs = 0;
    };
    std::vector<Listed> listed() const; // drinks that were read, in no order
    std::optional<Listed> listed(std::int64_t drink) const;

    std::set<SearchState> statesOf(base::DrinkId drink) const;

    // Does the index say what the book says? Drinks that are due are left out. The names of those that
    // differ.
    std::vector<std::string> faults() const;

    std::vector<SavedSearch> saved() const;
    SavedSearch save(const SavedSearch& search);
    void removeSaved(base::SavedSearchId search);
    std::vector<std::string> tags() const;

  private:
    void writeIndex(const char* sql, std::int64_t drink, const SearchText& text,
                    std::set<std::string>* words = nullptr);
    void takeOutOfIndex(std::int64_t drink);
    SearchText present(std::int64_t drink) const; // from the book itself
    void addLines(const std::string& specJson, SearchText& text, std::vector<std::string>& seen) const;
    Book& m_book;
};

} // namespace stillroom::store
