#pragma once

#include "core/history/search_words.h"
#include "core/store/drink_figures.h"
#include "core/store/search_repository.h"

#include <functional>
#include <unordered_map>

// Internal to core/store: from a request to an answer. Holds the vocabulary and what drinks are listed with,
// so that a key costs the index's look-ups alone.
namespace stillroom::store {

class Finder {
  public:
    explicit Finder(SearchRepository& repository) : m_repository(repository) {}

    using FiguresOf = std::function<DrinkFigures(base::DrinkId)>;
    // Reads nothing anew: the caller has done so. `figuresOf` is asked once for each drink that a filter
    // wants.
    SearchAnswer search(const SearchRequest& request, int atMost, const FiguresOf& figuresOf);

    void wasRead(std::int64_t drink, const std::vector<std::string>& words);
    void forgetFigures() { m_figures.clear(); } // prices, facts or rules have changed
    void forgetAll();

  private:
    struct Known {
        SearchRepository::Listed listed;
        std::size_t place = 0; // by name
    };
    struct Found {
        std::int64_t row = 0;
        int tier = 0;
        std::size_t place = 0;
    };
    void learn();
    std::vector<Found> found(const std::vector<history::WantedWord>& words) const;
    bool isListedRight(const SearchFilters& filters, const SearchRepository::Listed& listed) const;
    SearchHit hit(const Found& found, const std::vector<history::WantedWord>& words) const;

    SearchRepository& m_repository;
    std::optional<history::Vocabulary> m_vocabulary;
    std::optional<std::unordered_map<std::int64_t, Known>> m_known;
    std::unordered_map<std::int64_t, DrinkFigures> m_figures;
};

} // namespace stillroom::store
