#pragma once

#include "core/larder/unit_cost.h"

#include <string>
#include <string_view>
#include <vector>

namespace stillroom::larder {

// "2026-11-02", a day that exists (Gregorian calendar).
bool isCivilDate(std::string_view text);

// The price that held on a day: of the newest pack dated on or before it, of those the last given. A pack
// without a date held before all dated ones. nullptr: none held yet, or `day` is no date.
const Pack* packOn(const std::vector<Pack>& packs, std::string_view day);

// One step in what a unit cost, between two packs that followed each other.
struct PriceStep {
    std::string day; // from which the new price held
    CostRate before;
    CostRate after;
};
// Steps between packs of the same usable unit and currency, in the order of days. A larger pack at the same
// price per unit is no step; packs that state no usable price are left out.
std::vector<PriceStep> priceSteps(const std::vector<Pack>& packs, const PurchaseTerms& terms = {});
// Relative change of a unit's price, 0.1 for a tenth more. nullopt when it was free before.
std::optional<double> relativeChange(const PriceStep& step);

// What one major unit of `from` was in `to` on a day.
struct ExchangeRate {
    quantity::Currency from;
    quantity::Currency to;
    quantity::Rational perUnit = 1; // above 0
    std::string on;
    friend bool operator==(const ExchangeRate&, const ExchangeRate&) = default;
};

// How many of `to` one of `from` was on a day: by the newest rate dated on or before it, in its own direction
// or, when only that is known or it is newer, the other way round. nullopt: no such rate.
std::optional<quantity::Rational> exchangeOn(const quantity::Currency& from, const quantity::Currency& to,
                                             const std::vector<ExchangeRate>& rates, std::string_view day);
// In another currency by the newest rate dated on or before the day, in its own direction or, when only that
// is known, the other way round. CurrencyDiffers: no such rate. Half to even, rounded once.
Costed<quantity::Cost> converted(quantity::Cost cost, const quantity::Currency& from,
                                 const quantity::Currency& to, const std::vector<ExchangeRate>& rates,
                                 std::string_view day);

} // namespace stillroom::larder
