#pragma once

#include "core/base/id.h"
#include "core/larder/facts.h"
#include "core/quantity/money.h"

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
    std::optional<double> forPieces; // limes, eggs: price per piece
    std::string pricedOn;            // civil date "2026-11-02", empty when not stated
    friend bool operator==(const Pack&, const Pack&) = default;
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
    std::vector<Pack> packs; // newest price last
    std::string handbookId;  // "gin_london" when it stands in the handbook, else empty
    friend bool operator==(const Ingredient&, const Ingredient&) = default;
};

} // namespace stillroom::larder
