#pragma once

#include "core/history/history.h"
#include "core/larder/ingredient.h"
#include "core/tasting/tasting.h"

#include <tl/expected.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace stillroom::exchange {

// A book's content as values, in the order it happened: what sample-data/ holds and what import applies.
// Lines are written as people write them and read by read_text.h, so that import is the code users use.
struct ScriptedTasting {
    std::string initials;
    base::Instant when;
    std::array<std::optional<int>, tasting::kScaleCount> scores{};
    std::string note;
    tasting::Verdict verdict = tasting::Verdict::None;
    std::string tryNext;
};
struct ScriptedRevision {
    std::string text;   // the whole spec as text: lines, then "Method:", "Glass:", "Garnish:"
    std::string reason; // empty: stays a draft, must be last
    base::Instant when;
    std::string basedOn; // number of an earlier revision, "" for the one before
    bool house = false;
    std::vector<ScriptedTasting> tastings;
};
struct ScriptedDrink {
    history::Drink drink;
    std::vector<ScriptedRevision> revisions;
};
struct ScriptedBook {
    std::string name;
    std::string currency;
    std::string zone;
    std::vector<tasting::Person> people;
    std::vector<larder::Ingredient> ingredients;
    std::vector<ScriptedDrink> drinks; // preparations first: drinks use them
};

// The error says which key of which drink could not be understood.
tl::expected<ScriptedBook, std::string> bookFromJson(std::string_view json);

} // namespace stillroom::exchange
