#pragma once

#include "core/preparation/edit_impact.h"
#include "core/store/edit_subjects.h"
#include "core/store/stock_board.h"

#include <nlohmann/json_fwd.hpp>

#include <iosfwd>
#include <vector>

namespace stillroom::headless {

// What an edit of the larder would do to the drinks of a book and their drafts.
struct BookImpact {
    std::vector<store::EditSubject> subjects; // by preparation::Impact::subject
    preparation::EditImpact found;
};
BookImpact impactOn(const store::Workbook& book, const store::StockBoard& board,
                    const larder::Ingredient& edited);

nlohmann::ordered_json impactJson(const BookImpact& impact, const store::StockBoard& board);
void writeImpact(std::ostream& out, const BookImpact& impact, const store::StockBoard& board);

} // namespace stillroom::headless
