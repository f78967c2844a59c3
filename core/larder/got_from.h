#pragma once

#include "core/larder/larder.h"

#include <optional>
#include <vector>

// What is got from a purchase, as somebody writes it down.
namespace stillroom::larder {

// Of the purchase's price, what those who are got from it have not taken yet, `except` left out: what the
// next one takes unless somebody says otherwise. Never below 0.
quantity::Rational shareLeft(const Larder& larder, base::IngredientId purchase, base::IngredientId except);
// The unit it was bought in last; nullopt: it has no pack with a size.
std::optional<PackUnit> soldIn(const Ingredient& purchase);

// 17/20 is used where 15 % is lost, and the other way round. nullopt: it does not fit.
std::optional<quantity::Rational> shareUsed(const quantity::Rational& lostPercent);
std::optional<quantity::Rational> percentLost(const quantity::Rational& usedShare);
// 1/2 is 50 %.
std::optional<quantity::Rational> shareOfPercent(const quantity::Rational& percent);
std::optional<quantity::Rational> percentOfShare(const quantity::Rational& share);

} // namespace stillroom::larder
