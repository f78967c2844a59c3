#pragma once

#include "core/history/diff.h"
#include "core/history/fact_swap.h"
#include "core/history/what_changed.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

// Several specs beside each other, all read against one of them, the base.
namespace stillroom::history {

// What amounts are stated for. A small drink and a large one are compared per 100 ml; a long and a short
// one per standard drink.
enum class Per : std::uint8_t { Serve, HundredMl, StandardDrink };

// Extensive readings, each stage by its own volume or standard drinks; strength and the like as they are.
// A bound stays one: cost 1.00 in at least 80 ml is at most 1.25 per 100 ml. Without alcohol there is
// nothing per standard drink.
spec::Readings scaled(const spec::Readings& readings, Per per);

// What is poured for a line, in ml or g (or pieces and the like), for one serve or for what `per` names of
// the drink as served. nullopt: no amount, or nothing certain to scale by.
struct PouredSize {
    double value = 0; // the middle of a range
    quantity::Measure measure = quantity::Measure::Ml;
    bool estimate = false; // scaled by a reading that is one
};
std::optional<PouredSize> pouredPer(const spec::Spec& spec, std::size_t line, const spec::Readings& readings,
                                    Per per, const quantity::HouseMeasures& measures);

// One ingredient across the columns.
struct AlignedLine {
    std::vector<int> line; // by column, index into its lines; −1: not in it
    std::vector<std::optional<LineDifference>> differences; // against the base; none for the base itself
};
// Base lines in their order, additions where they stand; the same addition in two columns is one row.
std::vector<AlignedLine> alignLines(const std::vector<const spec::Spec*>& columns, std::size_t base,
                                    const quantity::HouseMeasures& measures);

// Ids that one list has and the other lacks: allergens, cautions. In the order of their lists.
struct GainedLost {
    std::vector<std::string> gained, lost;
    bool isEmpty() const { return gained.empty() && lost.empty(); }
};
GainedLost gainedLost(const std::vector<std::string>& base, const std::vector<std::string>& other);

// A table as text for people: padded columns between bars, numbers to the right where a whole column is
// numbers. Every row has as many cells as the first, the heading.
std::string asMarkdown(const std::vector<std::vector<std::string>>& rows);
// Tab-separated, one line a row; tabs and line ends inside a cell become spaces.
std::string asTabbed(const std::vector<std::vector<std::string>>& rows);

} // namespace stillroom::history
