#pragma once

#include "core/larder/larder.h"
#include "core/larder/price_history.h"

#include <string_view>
#include <vector>

namespace stillroom::larder {

// In which currency and on which civil date a cost is asked; an empty day: the newest price there is.
struct PriceQuestion {
    quantity::Currency currency;
    std::string_view day = {};
    const std::vector<ExchangeRate>* rates = nullptr; // nullptr: none
};

// Why an ingredient has no cost, and whose fault it is: the limes of a juice, say.
struct CostFault {
    CostProblem problem = CostProblem::NoPrice;
    base::IngredientId at;
    quantity::Currency currency{}; // the pack's, of CurrencyDiffers
    friend bool operator==(const CostFault&, const CostFault&) = default;
};

struct PricedRate {
    CostRate rate;               // in the asked currency, whatever the pack was paid in
    double majorPerUnit = 0;     // the same for one unit, for sums that go through a density
    const Pack* pack = nullptr;  // what was paid
    base::IngredientId bought;   // whose pack it is
    quantity::Currency paidIn{}; // the pack's
};

// What a usable unit of an ingredient costs: its own pack of the day, less the tax that comes back, over the
// share of it that is used; without a pack of its own, from the purchase it is got from, to any depth, at its
// share of the price. Sizes count to the thousandth of a ml and the millionth of a gram.
// Named: what is got from itself (Cycle), shares of one purchase above 1 together (BadShares), a purchase
// counted in a unit it is not sold in (UnitsDiffer), a pack in another currency without a rate of the day.
tl::expected<PricedRate, CostFault> rateOn(const Larder& larder, const Ingredient& ingredient,
                                           const PriceQuestion& question);

// The pack that held on a day; with an empty day the newest of all. An undated one that was added last is
// newer than those with a date.
const Pack* packAsked(const std::vector<Pack>& packs, std::string_view day);

// Purchases whose by-products do not take all of the price or take more than it: below 1 a part of what was
// paid is in no drink's cost, above 1 some is charged twice.
struct ShareFault {
    base::IngredientId purchase;
    quantity::Rational shares;
    std::vector<base::IngredientId> takers;
};
std::vector<ShareFault> shareFaults(const Larder& larder);

} // namespace stillroom::larder
