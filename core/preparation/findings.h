#pragma once

#include "core/larder/consistency.h"
#include "core/larder/cost_of.h"
#include "core/larder/larder.h"
#include "core/preparation/nesting.h"
#include "core/spec/prepared_facts.h"

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

// What is wrong with an ingredient as somebody wrote it, or hard to believe.
namespace stillroom::preparation {

enum class FindingCode : std::uint8_t {
    NoName,
    FigureBelowZero,     // `key`, `stated`
    FigureAbovePossible, // above `limit`: 100 % vol, or more than a litre or a kilogram holds
    RangeUpsideDown,     // the low end above the usual value, or that above the high end
    DateUnreadable,      // of a fact (`key`), a pack (`pack`) or the stock (neither)
    StockBelowZero,
    Purchase,        // `problem`, of one `pack` or of the purchase as a whole
    MadeOfItself,    // `path`: each is made of, or poured for, the one before it
    PricedByTheGram, // priced in a unit that pours cannot be turned into, for want of a density
    Contradiction,   // strength, sugar and density
    Doubt,           // against its name: `doubt`
};

struct Finding {
    FindingCode code = FindingCode::NoName;
    bool refuses = false;   // it must not be saved so; else it may, and the drinks say what they lack
    std::string_view key{}; // of larder::factKeys()
    std::optional<std::size_t> pack{}; // index
    larder::CostProblem problem = larder::CostProblem::NoPrice;
    quantity::Currency currency{}; // the pack's, where no rate of the day turns it into the book's
    double stated = 0, limit = 0;
    std::optional<larder::FoundDoubt> doubt{};
    std::optional<spec::Contradiction> contradiction{};
    std::vector<base::IngredientId> path{};
};

// Of the ingredient as it stands in this larder. A price that nobody stated is a gap, not a finding.
std::vector<Finding> findings(const larder::Larder& larder, base::IngredientId ingredient,
                              const Specs& preparations, const larder::PriceQuestion& question);
bool refuses(const std::vector<Finding>& all); // any of them

// A pack of so many ml, g or pieces and more is a slip of the pen.
inline constexpr double kLargestPack = 1e9;
// Denser than crystal sugar (1,588 kg/m³ at 20 °C, CRC Handbook) no solute makes a litre.
inline constexpr double kMostPerLitreG = 1600;

} // namespace stillroom::preparation
