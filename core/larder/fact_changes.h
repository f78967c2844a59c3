#pragma once

#include "core/larder/facts.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::larder {

// One figure of two states of the same thing. nullopt: not stated.
struct FigureChange {
    std::string_view key; // of factKeys()
    std::optional<Fact> before, after;
    // Only who says so, or when, differs.
    bool sameNumbers() const {
        return before && after && before->typical == after->typical && before->low == after->low &&
               before->high == after->high;
    }
};

// Anything else: shares as "sucrose 0.5", flags as "true", one word each.
struct WordsChange {
    std::string_view key; // "allergens", "tags", "group", "sugar_shares", "acid_shares", "dry"…
    std::optional<std::vector<std::string>> before, after; // nullopt: not stated
    friend bool operator==(const WordsChange&, const WordsChange&) = default;
};

// What an edit of the facts changed, in the order people read them.
struct FactChanges {
    std::vector<FigureChange> figures;
    std::vector<WordsChange> words;
    bool isEmpty() const { return figures.empty() && words.empty(); }
};
FactChanges factChanges(const FactState& before, const FactState& after);

} // namespace stillroom::larder
