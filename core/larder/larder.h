#pragma once

#include "core/base/id.h"
#include "core/larder/ingredient.h"

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace stillroom::larder {

class Handbook; // handbook.h: the built-in kinds, as data

// How sure a written name was matched. Only Exact and Remembered are taken without a word; the rest is
// shown and can be changed.
enum class MatchQuality : std::uint8_t { None, Exact, Remembered, Close, Ambiguous };

struct NameMatch {
    MatchQuality quality = MatchQuality::None;
    // Null when None, and when Ambiguous without a first choice ("rum"): nothing is guessed. An Ambiguous
    // name with one ("simple syrup") may be read as that, marked, until somebody chooses.
    base::IngredientId ingredient;
    std::vector<base::IngredientId> alternatives; // best first; all the candidates when Ambiguous
    // % vol that the name itself states ("rum, 63 %", "151-proof rum"): it may differ from the kind's.
    std::optional<double> statedAbv;
};

// What can go in a drink: the workbook's own kinds, bottles and preparations over the handbook's kinds.
// A value: copied as a snapshot, never written to behind a reader's back.
class Larder {
  public:
    Larder();                        // the handbook alone
    static Larder withoutHandbook(); // for --larder FILE tests and adapters

    const Ingredient* find(base::IngredientId id) const; // nullptr when unknown
    // What is really poured: the house's bottle for a kind, else itself; with the figures of its lot in use.
    const Ingredient* poured(base::IngredientId id) const;
    // Tolerant of case, plurals, accents, "fresh", spelling, word order, "%": "Fresh Lime-Juice" finds lime
    // juice. Names that only differ so are Exact; a name that also states a strength, an age or a maker, is
    // misspelt, or says a little more or less than the ingredient's is Close. A name that several things
    // share is Ambiguous, never chosen silently; own ingredients of exactly that name come before all else.
    NameMatch match(std::string_view writtenName) const;
    // As typed: every word typed begins a word of the name, or nearly. Own ones and whole names first; under
    // three letters in the order of people's lists.
    std::vector<base::IngredientId> search(std::string_view text, std::size_t limit) const;
    // What is got from a purchase: the juice and the peel of limes.
    std::vector<const Ingredient*> gotFrom(base::IngredientId purchase) const;
    std::vector<const Ingredient*> all() const; // own ones first, then handbook kinds not overridden

    void put(Ingredient ingredient);                                    // adds or replaces by id
    void put(Lot lot);                                                  // adds or replaces by id
    bool isFromLot(base::IngredientId id) const;                        // poured with a lot's figures
    std::vector<Lot> lots(base::IngredientId ingredient) const;         // newest first
    void remember(std::string_view writtenName, base::IngredientId id); // the user's choice for a name
    const std::unordered_map<std::string, base::IngredientId>& remembered() const; // by folded name

  private:
    struct Data;
    explicit Larder(std::shared_ptr<Data> data);
    Data& ownData();              // a copy of its own, when others look at this one
    std::shared_ptr<Data> m_data; // copy on write
};

} // namespace stillroom::larder
