#pragma once

#include "core/larder/larder.h"
#include "core/preparation/nesting.h"

#include <map>
#include <set>
#include <vector>

// What the shelf lets somebody make now, what is one short, and what a purchase brings.
namespace stillroom::preparation {

// How a wish for an ingredient is met.
enum class Standing : std::uint8_t {
    There,  // on the shelf, itself or a bottle of its kind, or a lot of it that is not used up
    Low,    // likewise, and little of it
    Got,    // from what is there: juice of the limes on the shelf
    Made,   // its own inputs are all there
    NotHad, // out, or nobody said
    Off,    // off the menu until further notice, whatever stands there
};

struct Met {
    Standing standing = Standing::NotHad;
    bool nobodySaid = false;            // NotHad, and its stock was never entered
    std::set<base::IngredientId> lacks; // what to buy for it; empty when it is met. Off things lack
    // themselves, what the larder does not know lacks the null id.
    friend bool operator==(const Met&, const Met&) = default;
};

struct DrinkReach {
    std::vector<int> missing;           // lines that nothing meets, in order
    std::set<base::IngredientId> lacks; // what to buy for them; a preparation lacks its inputs
    std::set<base::IngredientId> off;   // of those, what is off
    std::set<base::IngredientId> low;   // met, but with little left
    std::set<base::IngredientId> toMake;
    std::vector<int> unknownLines;   // name nothing the larder knows
    std::vector<int> garnishMissing; // a drink is within reach without its garnish
    bool within() const { return missing.empty() && unknownLines.empty(); }
    bool oneShort() const { return unknownLines.empty() && lacks.size() == 1 && off.empty(); }
};

// One shelf, asked about many drinks. Answers for an ingredient are kept, so each thread takes its own.
// - A kind is met by itself, by the house's bottle or by any bottle of it; a bottle by itself alone. Where
//   none is there and the house's bottle is off, the kind is off with it.
// - "or": the alternative that lacks least. Optional lines and lines to taste are not asked for; water and
// ice
//   always stand there.
// - Amounts: what was counted as nothing is out. Whether enough is there for many is the shopping list's.
class Reach {
  public:
    Reach(const larder::Larder& larder, const Specs& preparations);
    const Met& of(base::IngredientId ingredient) const;
    DrinkReach of(const spec::Spec& spec) const;

  private:
    Met find(base::IngredientId id, std::vector<base::IngredientId>& path) const;
    Met made(base::IngredientId id, std::vector<base::IngredientId>& path) const;
    Met ofLine(const spec::Line& line, std::vector<base::IngredientId>& path) const;

    larder::Larder m_larder;
    const Specs& m_preparations;
    std::map<base::IngredientId, std::vector<base::IngredientId>> m_bottles; // by kind
    mutable std::map<base::IngredientId, Met> m_known;
};

// What one purchase alone brings within reach.
struct Purchase {
    base::IngredientId ingredient;
    std::vector<std::size_t> opens; // drinks that lack nothing else, by index
    std::vector<std::size_t> helps; // drinks that lack it and more
};
// Most drinks opened first, then most helped. What is off is for no purchase to mend.
std::vector<Purchase> purchases(const std::vector<DrinkReach>& drinks);

// What is off and what fell with it: drinks that lack it.
struct Fallen {
    base::IngredientId off;
    std::vector<std::size_t> drinks;
};
std::vector<Fallen> fallen(const larder::Larder& larder, const std::vector<DrinkReach>& drinks);

} // namespace stillroom::preparation
