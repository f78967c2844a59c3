#include "core/exchange/stock_entry.h"

#include "core/base/text.h"
#include "core/exchange/read_text.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace stillroom::exchange {

namespace {

using larder::PackUnit;
using Problem = StockEntryProblem;

constexpr double kLargest = 1e9;
constexpr std::array<std::string_view, 13> kPackWords{"bottle",  "bottles", "pack", "packs", "box",
                                                      "boxes",   "can",     "cans", "crate", "crates",
                                                      "packets", "jar",     "jars"};

const larder::Pack* sizedPack(const larder::Ingredient& ingredient) {
    for (auto pack = ingredient.packs.rbegin(); pack != ingredient.packs.rend(); ++pack)
        if (pack->forMl || pack->forG || pack->forPieces) return &*pack;
    return nullptr;
}

StockEntry sizeOf(const larder::Pack& pack) {
    if (pack.forMl) return {*pack.forMl, PackUnit::Ml};
    if (pack.forG) return {*pack.forG, PackUnit::Gram};
    return {pack.forPieces.value_or(0), PackUnit::Piece};
}

PackUnit usualUnit(const larder::Ingredient& ingredient) {
    if (ingredient.stock.amount) return ingredient.stock.unit;
    if (const larder::Pack* pack = sizedPack(ingredient)) return sizeOf(*pack).unit;
    return ingredient.facts.dry ? PackUnit::Gram : PackUnit::Ml;
}

// Takes "bottles" off the end of "3 bottles".
bool takePackWord(std::string& text) {
    const std::size_t space = text.find_last_of(' ');
    if (space == std::string::npos) return false;
    const std::string word = base::fold(text.substr(space + 1));
    if (std::find(kPackWords.begin(), kPackWords.end(), word) == kPackWords.end()) return false;
    text = std::string(base::trimmed(text.substr(0, space)));
    return true;
}

tl::expected<StockEntry, Problem> within(StockEntry entry) {
    if (!std::isfinite(entry.amount) || entry.amount > kLargest) return tl::unexpected(Problem::TooLarge);
    return entry;
}

} // namespace

tl::expected<StockEntry, Problem> readStockAmount(std::string_view written,
                                                  const larder::Ingredient& ingredient) {
    std::string text(base::trimmed(written));
    const bool below = !text.empty() && (text.front() == '-' || text.rfind("\u2212", 0) == 0);
    if (below) return tl::unexpected(Problem::BelowZero);
    const bool packs = takePackWord(text);
    const auto measured = readAmount(text);
    if (!measured || measured->amount.kind != quantity::Amount::Kind::Exact)
        return tl::unexpected(Problem::NotAnAmount);
    const double number = measured->amount.low.toDouble() * measured->multiplier.toDouble();
    if (packs) {
        const larder::Pack* pack = sizedPack(ingredient);
        if (pack == nullptr || measured->measure) return tl::unexpected(Problem::NoPack);
        const StockEntry size = sizeOf(*pack);
        return within({number * size.amount, size.unit});
    }
    if (!measured->measure) return within({number, usualUnit(ingredient)});
    if (*measured->measure == quantity::Measure::Piece) return within({number, PackUnit::Piece});
    const auto& measures = quantity::HouseMeasures::defaults();
    if (const auto ml = measures.ml(*measured->measure)) return within({number * *ml, PackUnit::Ml});
    if (const auto grams = measures.grams(*measured->measure))
        return within({number * *grams, PackUnit::Gram});
    return tl::unexpected(Problem::UnitUnclear);
}

std::string stockAmountText(const larder::Stock& stock) {
    if (!stock.amount) return {};
    const auto shown = [](double value) { return base::shortestDecimal(std::round(value * 1e4) / 1e4); };
    switch (stock.unit) {
    case PackUnit::Piece:
        return shown(*stock.amount);
    case PackUnit::Gram:
        return *stock.amount >= 1000 ? shown(*stock.amount / 1000) + " kg" : shown(*stock.amount) + " g";
    case PackUnit::Ml:
        break;
    }
    return *stock.amount >= 1000 ? shown(*stock.amount / 1000) + " l" : shown(*stock.amount) + " ml";
}

} // namespace stillroom::exchange
