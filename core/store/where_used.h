#pragma once

#include "core/preparation/where_used.h"
#include "core/store/workbook.h"

#include <set>
#include <vector>

namespace stillroom::store {

// Where an ingredient is used: the one answer for the larder, a preparation's page and the command.
struct WhereUsed {
    // Every draft and revision, once each, that names it or what follows it. Nothing of a drink in the bin.
    std::vector<IngredientUse> places;
    std::vector<preparation::Use> by; // whose these are, once each, by the shortest way; direct ones first
};
// `touched`: what changes with it, as Followers::of or preparation::touchedBy has it.
WhereUsed whereUsed(const Workbook& book, base::IngredientId ingredient,
                    const std::set<base::IngredientId>& touched, const preparation::Followers& followers);

} // namespace stillroom::store
