#pragma once

#include "core/history/search_words.h"
#include "core/store/drink_figures.h"
#include "core/store/search_repository.h"

#include <functional>
#include <unordered_map>

// Internal to core/store: from a request to an answer. Holds the vocabulary, what drinks are listed with and
// what filters ask for, so that a key costs the index's look-ups alone. All of it is learnt bit by bit: a
// search learns a little and says what it could not know, warm() learns the rest.
namespace stillroom::store {

class Finder {
  public:
    explicit Finder(SearchRepository& repository) : m_repository(repository) {}

    using FiguresOf = std::function<DrinkFigures(base::DrinkId)>;
    // Reads nothing anew: the caller has done so. `figuresOf` is asked of a few drinks that a filter wants
    // and nobody has asked of yet; the others count as unread and are not among the hits.
    SearchAnswer search(const SearchRequest& request, int atMost, const FiguresOf& figuresOf);
    // The list of drinks, then a stretch of the vocabulary, then the figures of so many drinks, whichever is
    // the first to be missing. Returns how much is left; 0: nothing.
    int warm(int drinks, const FiguresOf& figuresOf);

    void wasRead(std::int64_t drink, const std::vector<std::string>& words);
    void forgetFigures() { m_figures.clear(); } // prices, facts or rules have changed
    void forgetAll();

  private:
    struct Found {
        std::int64_t row = 0;
        int tier = 0;
        std::size_t place = 0; // by name
    };
    void list();
    void readWords();
    bool hasAllWords() const { return m_wordsAreRead; }
    std::vector<Found> found(const std::vector<history::WantedWord>& words) const;
    bool isListedRight(const SearchFilters& filters, const SearchRepository::Listed& listed) const;
    SearchHit hit(const Found& found, const std::vector<history::WantedWord>& words) const;

    SearchRepository& m_repository;
    std::vector<SearchRepository::Listed> m_listed; // by name
    std::unordered_map<std::int64_t, std::size_t> m_places;
    bool m_isListed = false;
    std::vector<std::int64_t> m_toList; // read again since

    history::Vocabulary m_vocabulary;
    std::string m_lastWord; // read of the index so far
    bool m_wordsAreRead = false;

    std::unordered_map<std::int64_t, DrinkFigures> m_figures;
};

} // namespace stillroom::store
