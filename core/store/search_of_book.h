#pragma once

#include "core/history/history.h"
#include "core/quantity/money.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::store {

// Any of what is listed; a drink may be several at once.
enum class SearchState : std::uint8_t {
    Draft,     // something in a draft is not kept
    Kept,      // has revisions
    House,     // one of them is in use
    Published, // readers have one of them
    Stale,     // and it is an earlier one than the bar pours
    SetAside,  // a draft or revision of it was set aside
    Binned,
};
std::string_view searchStateId(SearchState state);
std::optional<SearchState> searchStateFromId(std::string_view id);

// All that is set must hold. Numbers are those of the drink's current spec: the house revision, else the
// published one, else the last kept, else the newest draft; a reading that may lie inside or outside its
// bound does not count as inside.
struct SearchFilters {
    std::optional<history::DrinkForm> form;
    std::optional<double> strengthAtLeast, strengthAtMost;  // % vol at 20 °C as served
    std::optional<quantity::Money> costAtLeast, costAtMost; // a serve; only in the book's own currency
    std::vector<std::string> styles;                        // ids of balance::styleRegions(): any of them
    std::vector<base::IngredientId> with; // all of them named by the current spec, or poured for its kinds
    std::vector<base::IngredientId> without;
    std::vector<std::string> allergens;        // contains any of these (larder/allergens.h)
    std::vector<std::string> withoutAllergens; // surely none of these: unknown does not count as none
    std::vector<SearchState> states; // any of them; binned drinks are found only where Binned is among them
    std::optional<std::int64_t> changedFrom, changedBefore; // UTC ms of the last save, revision or tasting
    std::string tooMuchOf; // id of a scale: a tasting calls it too much ("sweet"), see saysTooMuch
    bool isEmpty() const { return *this == SearchFilters{}; }
    friend bool operator==(const SearchFilters&, const SearchFilters&) = default;
};

struct SearchRequest {
    std::string words; // as typed; all of them must be found, each as the beginning of a word
    SearchFilters filters;
    friend bool operator==(const SearchRequest&, const SearchRequest&) = default;

    std::string canonicalJson() const; // sorted keys; what is not set is left out
    static std::optional<SearchRequest> fromCanonicalJson(std::string_view text);
};

enum class SearchField : std::uint8_t { Name, Tags, Lines, Brief, Notes, Reason, Tasting, None };

struct TextSpan { // bytes of SearchHit::snippet
    std::size_t start = 0;
    std::size_t length = 0;
    friend bool operator==(const TextSpan&, const TextSpan&) = default;
};

struct SearchHit {
    base::DrinkId drink;
    std::string name;
    history::DrinkForm form = history::DrinkForm::Drink;
    bool binned = false;
    SearchField field = SearchField::None;    // where it was found first; None: by filters alone
    std::optional<base::RevisionId> revision; // Reason, Tasting: whose it is
    std::string snippet;                      // of that field, cut to about 120 code points
    std::vector<TextSpan> marks;              // the words found in it
    friend bool operator==(const SearchHit&, const SearchHit&) = default;
};

struct SearchWord {
    std::string typed;             // folded
    std::vector<std::string> read; // what it was taken for where the book has no such word
    friend bool operator==(const SearchWord&, const SearchWord&) = default;
};

struct SearchAnswer {
    // Name before tags, lines, brief, notes, reasons and tastings; then by name. Words under three letters
    // are not ranked: by name alone.
    std::vector<SearchHit> hits;
    int total = 0;                 // how many there are, more than were asked for
    std::vector<SearchWord> words; // the words that were looked for
    int unread = 0;                // drinks that are still to be read: the answer may lack some
};

struct SavedSearch {
    base::SavedSearchId id; // null: a new one
    std::string name;
    SearchRequest request;
    friend bool operator==(const SavedSearch&, const SavedSearch&) = default;
};

// Finding. The index is derived from the book and never the truth. Part of a Workbook, with its promises.
class SearchOfBook {
  public:
    virtual ~SearchOfBook() = default;

    // Reads a few drinks first, and never waits for many: after opening, or when prices or facts changed,
    // catchUpSearch() is to be called whenever there is time until it returns 0.
    virtual SearchAnswer search(const SearchRequest& request, int atMost = 50) = 0;
    // Reads so many drinks, or makes ready what keys ask for: some milliseconds. Returns how much is left.
    virtual int catchUpSearch(int drinks) = 0;
    virtual void rebuildSearch() = 0;                  // throws the index away and makes it anew, all of it
    virtual std::vector<std::string> tags() const = 0; // that drinks not in the bin have, in order

    virtual std::vector<SavedSearch> savedSearches() const = 0;    // in the order they were made
    virtual SavedSearch saveSearch(const SavedSearch& search) = 0; // a new one, or another name or request
    virtual void removeSavedSearch(base::SavedSearchId search) = 0;
};

} // namespace stillroom::store
