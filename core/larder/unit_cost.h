#pragma once

#include "core/larder/ingredient.h"
#include "core/larder/pack_unit.h"
#include "core/quantity/money.h"
#include "core/quantity/rational.h"

#include <tl/expected.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::larder {

enum class CostProblem : std::uint8_t {
    NoSize,        // the pack says for how much the price is paid in no unit, or in more than one
    SizeNotAbove0, // "for 0 ml"
    SizeTooLarge,  // above a million litres, kilograms or pieces: a slip of the pen
    NegativePrice,
    YieldNotAbove0, // nothing usable comes out of it
    YieldAbove1,    // more comes out than was bought
    BadTax,         // below zero
    BadShares,      // by-products' shares below zero, or not 1 together
    UnitsDiffer,    // asked in g, priced in ml, and no density known
    CurrencyDiffers,
    TooLarge, // does not fit an int64 of millionths
    NoPrice,  // no pack held on the day, and it is got from nothing that has one
    Cycle,    // got from itself
};
std::string_view costProblemId(CostProblem problem);

template <class T>
using Costed = tl::expected<T, CostProblem>;

// How a purchase becomes what is poured, and what of its price is a cost.
struct PurchaseTerms {
    quantity::Rational usableShare =
        1; // of what was bought: 17/20 when 15 % is trimmed, spilt or poured away
    // Where another unit comes out than went in: ml of juice got from one lime, per piece bought.
    std::optional<quantity::Rational> yieldPerUnit;
    std::optional<PackUnit> yieldUnit;
    friend bool operator==(const PurchaseTerms&, const PurchaseTerms&) = default;
};

// An exact price per usable unit: `price` is paid for `usable` of `unit`, less the tax in it. Nothing is
// rounded before an amount is asked for.
struct CostRate {
    quantity::Money price;
    quantity::Rational usable = 1; // above 0
    quantity::Rational priceShare =
        1; // what of the price counts: 100/120 without 20 % tax, a by-product's share
    PackUnit unit = PackUnit::Ml;
    friend bool operator==(const CostRate&, const CostRate&) = default;
};

Costed<CostRate> costRate(const Pack& pack, const PurchaseTerms& terms = {});

// Millionths of a major unit, half to even, rounded once.
Costed<quantity::Cost> costOfAmount(const CostRate& rate, const quantity::Rational& amount);
// The same with a density for what is priced by mass and poured by volume, or the other way round.
Costed<quantity::Cost> costOfAmount(const CostRate& rate, const quantity::Rational& amount, PackUnit unit,
                                    std::optional<quantity::Rational> densityGPerMl);

// g in ml and ml in g, where a density says how; UnitsDiffer where none does.
Costed<quantity::Rational> amountInUnit(const quantity::Rational& amount, PackUnit from, PackUnit to,
                                        const std::optional<quantity::Rational>& densityGPerMl);

// One purchase that gives several things (a lime: juice and peel) is paid for once: each takes its share, and
// the shares are whole together to the last millionth (the largest remainders take what rounding left).
Costed<std::vector<quantity::Cost>> splitCost(quantity::Cost whole,
                                              const std::vector<quantity::Rational>& shares);

// The exact decimal that a stored size is: 0.7 is 7/10. nullopt: not finite, or with more digits than fit.
std::optional<quantity::Rational> exactOf(double value);

} // namespace stillroom::larder
