#pragma once

#include "core/larder/larder.h"
#include "core/preparation/nesting.h"
#include "core/spec/evaluate.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace stillroom::preparation {

struct Wish {
    const spec::Spec* spec = nullptr; // the caller's
    double serves = 0;                // how many of them are wanted
};

struct ShoppingOptions {
    // More fruit than its usual yield asks for. A quarter: the standard deviation of juice got from a lime is
    // a quarter of its mean (USDA SR26, NDB 09160, 44 ± 11.03 g, n = 12); other fruit by the same rule, no
    // source.
    double fruitMargin = 0.25;
    bool useShelf = true; // take off what stands there
};

// So much of an ingredient, in one unit. Numbers of pieces are whole only once bought.
struct Quantum {
    double amount = 0;
    larder::PackUnit unit = larder::PackUnit::Ml;
    friend bool operator==(const Quantum&, const Quantum&) = default;
};

struct ShoppingItem {
    base::IngredientId ingredient;
    Quantum needed;          // of what is used, before the shelf
    double onShelf = 0;      // counted there and taken off, in the same unit
    double toBuy = 0;        // with what is trimmed away and the margin on fruit, less the shelf; same unit
    bool withMargin = false; // of fruit
    std::optional<larder::Pack> pack;     // the newest; none: no price or size on record
    std::int64_t packs = 0;               // whole ones
    std::optional<quantity::Money> price; // of those packs, tax included, as paid
    bool unitUnclear =
        false; // needed in a unit its pack cannot be counted in: the packs are for a person to say
};
struct SupplierGroup {
    std::string supplier; // empty: not said
    std::vector<ShoppingItem> items;
};
struct ToMake {
    base::IngredientId ingredient;
    Quantum needed;     // beside what stands on the shelf
    double batches = 0; // of its spec
};
struct ShoppingList {
    std::vector<SupplierGroup> groups; // by supplier's name, those not said last; items by name
    std::vector<ToMake> toMake;        // each before what it is made of
    std::vector<Quantum> covered;      // beside `coveredBy`: needed and on the shelf
    std::vector<base::IngredientId> coveredBy;
    std::vector<base::IngredientId> notCounted; // on the shelf, nobody said how much: taken for enough
    std::vector<base::IngredientId> off;        // needed, and off until further notice: nothing to buy
    // Wishes and their lines without an amount, or that name nothing known, and garnish in words; a
    // preparation's own lines stand with the wish -1.
    struct Open {
        int wish = 0;
        std::string name;
        friend bool operator==(const Open&, const Open&) = default;
    };
    std::vector<Open> open;
    std::map<quantity::Currency, std::int64_t> totals; // minor units
    std::optional<Circle> circle; // preparations made of themselves: taken for things to buy
};

// Everything the wishes need, counted down through preparations and through what is got from a purchase, less
// what stands on the shelf, in whole packs. One lime gives juice and peel: the greater of both wishes is
// bought, not their sum. Ranges count their upper end; optional lines and lines to taste nothing; garnish
// does.
ShoppingList shopping(const std::vector<Wish>& wishes, const larder::Larder& larder,
                      const Specs& preparations, const spec::HouseRules& rules,
                      const ShoppingOptions& options = {});

} // namespace stillroom::preparation
