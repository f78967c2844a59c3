#pragma once

#include "core/exchange/larder_json.h"
#include "core/larder/larder.h"

#include <nlohmann/json_fwd.hpp>
#include <tl/expected.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace stillroom::exchange {

// One ingredient as people write it in JSON, for `--larder FILE` and for books in sample-data/:
//
//     {"name": "London dry gin, 47 %",            required
//      "sort": "kind" | "bottle",                 default "kind"
//      "kind": "London dry gin",                  of a bottle: the kind it is poured for
//      "aliases": ["dry gin"],
//      "abv_percent": 47, "sugar_g_per_l": 0, "acid_g_per_l": 0, "density_kg_per_m3": 940,
//      "basis": "label" | "measured" | "assumed", what the four figures rest on; default "label"
//      "source": "…",                             who says them, in words; default: the basis
//      "allergens": ["milk"],                     ids of safety.json; [] means: none; absent: not stated
//      "tags": ["raw_egg"], "group": "spirit",
//      "facts": { … },                            instead of the four figures, allergens, tags and group:
//                                                 the whole state as FactState::canonicalJson() writes it
//      "maker": "…", "usable_share": "17/20", "keep_days": 7,
//      "price": …, "got_from": …, "stock": …, "lots": [ … ]}            larder_json.h
//
// In a book with ids (book_json.h) also "id", "kind_id", "pours" (the bottle of a kind), "got_from_id",
// "made_by" (a drink: what is made here, of sort "preparation"), "handbook_id", "binned" and "lot_in_use".
//
// A key that is absent or null is unknown, never zero. A key not named here is an error, so that a
// misspelt "abv" is not a silent gap.
struct WrittenIngredient {
    // id, kind and houseBottle are null but in a book with ids: names are matched on import.
    larder::Ingredient ingredient;
    std::string kindName;
    std::string gotFromName;
    bool statesFacts = false; // at least one of the four figures, or the whole state
    bool wholeState = false;  // "facts": nothing of the kind's is kept beside it
    std::vector<WrittenLot> lots;
    bool binned = false;
    std::vector<WrittenPack> paid; // of a book with ids, instead of ingredient.packs: all there ever were
    friend bool operator==(const WrittenIngredient&, const WrittenIngredient&) = default;
};

tl::expected<WrittenIngredient, std::string> ingredientFromJson(const nlohmann::json& json);

// The same again. Set wholeState to lose nothing of an ingredient's facts.
nlohmann::json ingredientJson(const WrittenIngredient& written);
std::string ingredientText(const WrittenIngredient& written); // in one line

// {"ingredients": [ … ]}: the file of `--larder`.
tl::expected<std::vector<WrittenIngredient>, std::string> larderFileFromJson(std::string_view text);

// Each entry takes the place of the handbook's kind of that name, whole: what the entry does not state is
// unknown afterwards. What kind of thing it is (group, caution tags, dry or liquid) stays, because an
// entry of numbers does not contradict it.
void putOver(larder::Larder& larder, const std::vector<WrittenIngredient>& entries);

} // namespace stillroom::exchange
