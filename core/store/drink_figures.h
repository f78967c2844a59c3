#pragma once

#include "core/larder/larder.h"
#include "core/preparation/nesting.h"
#include "core/spec/evaluate.h"
#include "core/store/search_of_book.h"

#include <set>

// Internal to core/store: what a search filters by, of one drink as it stands.
namespace stillroom::store {

struct DrinkFigures {
    std::set<SearchState> states;
    spec::Reading strength, cost;       // as served, of one serve
    quantity::Currency currency;        // of the cost
    std::string style;                  // "" where it is in none
    std::set<base::IngredientId> names; // of its lines, and of the lines of what is made here, at any depth
    std::vector<std::string> allergens; // of both lists
    bool allergensComplete = false;
    std::set<std::string> tooMuchOf; // ids of scales
};

// What a spec with these readings comes to; the states and what tasters said are the caller's.
DrinkFigures figuresOf(const spec::Spec& spec, const spec::Readings& readings, const larder::Larder& larder,
                       const preparation::Specs& preparations, const spec::HouseRules& rules);

// Wants anything of `figures`: what a drink is listed with (form, day, bin) is not among them.
bool needsFigures(const SearchFilters& filters);
bool passes(const SearchFilters& filters, const DrinkFigures& figures);

} // namespace stillroom::store
