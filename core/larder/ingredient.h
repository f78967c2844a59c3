#pragma once

#include "core/base/id.h"
#include "core/larder/facts.h"
#include "core/larder/pack_unit.h"
#include "core/quantity/money.h"
#include "core/quantity/rational.h"

#include <optional>
#include <string>
#include <vector>

namespace stillroom::larder {

// Kind: what a line asks for ("London dry gin"). Bottle: one product the house pours. Preparation: made
// here; its facts come from core/preparation.
enum class IngredientSort : std::uint8_t { Kind, Bottle, Preparation };

// What was paid, and for how much. `forMl` or `forG` is the size of the pack.
struct Pack {
    base::PackId id;
    quantity::Money price;
    std::optional<double> forMl;
    std::optional<double> forG;
    std::optional<double> forPieces;   // limes, eggs: price per piece
    std::string pricedOn;              // civil date "2026-11-02", empty when not stated
    std::string supplier = {};         // as the house calls them
    quantity::Rational taxPercent = 0; // the price includes this much tax that comes back; 0: none
    friend bool operator==(const Pack&, const Pack&) = default;
};

// Where one purchase gives several things: lime juice and lime peel are got from limes, and the limes are
// paid for once. What is got so has no packs of its own.
struct GotFrom {
    base::IngredientId of; // "lime"
    PackUnit ofUnit = PackUnit::Piece;
    PackUnit unit = PackUnit::Ml;      // of this ingredient
    quantity::Rational perUnit = 1;    // got from one of `ofUnit`: 30 ml of juice from one lime; above 0
    quantity::Rational priceShare = 1; // of what the purchase cost: 1 for the juice, 0 for the peel
    friend bool operator==(const GotFrom&, const GotFrom&) = default;
};

enum class OnShelf : std::uint8_t { NotSaid, Have, Low, Out };
std::string_view onShelfId(OnShelf state); // "have"; stable, enters files
std::optional<OnShelf> onShelfFromId(std::string_view id);

// What stands on the shelf, as somebody last looked.
struct Stock {
    OnShelf state = OnShelf::NotSaid;
    std::optional<double> amount; // in `unit`; none: nobody counted
    PackUnit unit = PackUnit::Ml;
    bool off = false;      // off the menu until further notice, whatever stands there
    std::string countedOn; // civil date; empty: not said
    friend bool operator==(const Stock&, const Stock&) = default;
};

// What was made or bought on a date, where it differs from what its kind usually is: its measured figures
// stand instead of the ingredient's while it is the one in use.
struct Lot {
    base::LotId id;
    base::IngredientId ingredient;
    std::optional<base::RevisionId> madeFrom; // of a preparation
    std::string on;                           // civil date
    std::string useBy;                        // civil date; empty: by the keeping time
    std::optional<Fact> abvPercent, sugarGPerL, acidGPerL, densityKgPerM3;
    std::optional<double> gotMl; // what came out of it
    std::string note;
    bool usedUp = false;
    friend bool operator==(const Lot&, const Lot&) = default;
};

struct Ingredient {
    base::IngredientId id;
    IngredientSort sort = IngredientSort::Kind;
    std::string name;
    std::vector<std::string> aliases;
    std::optional<base::IngredientId> kind;        // of a bottle: the kind it is poured for
    std::optional<base::IngredientId> houseBottle; // of a kind: the bottle the house pours, if chosen
    std::optional<base::DrinkId> madeBy;           // of a preparation: its own drafts and revisions
    FactState facts;
    std::vector<Pack> packs;            // newest price last
    std::string handbookId;             // "gin_london" when it stands in the handbook, else empty
    std::string maker;                  // maker, origin: the house's own words
    quantity::Rational usableShare = 1; // of what is bought: 17/20 when 15 % is trimmed, spilt, poured away
    std::optional<GotFrom> gotFrom;
    Stock stock;
    std::optional<int> keepDays;         // the house's own rule; none: keeping.h
    std::optional<base::LotId> lotInUse; // its measured figures stand instead of these facts
    friend bool operator==(const Ingredient&, const Ingredient&) = default;
};

} // namespace stillroom::larder
