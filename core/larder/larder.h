#pragma once

#include "core/base/id.h"
#include "core/larder/ingredient.h"

#include <memory>
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
    base::IngredientId ingredient;                // null when None
    std::vector<base::IngredientId> alternatives; // best first; the candidates when Ambiguous
};

// What can go in a drink: the workbook's own kinds, bottles and preparations over the handbook's kinds.
// A value: copied as a snapshot, never written to behind a reader's back.
class Larder {
  public:
    Larder();                        // the handbook alone
    static Larder withoutHandbook(); // for --larder FILE tests and adapters

    const Ingredient* find(base::IngredientId id) const; // nullptr when unknown
    // What is really poured: the house's bottle for a kind, else itself.
    const Ingredient* poured(base::IngredientId id) const;
    // Tolerant of case, plurals, accents, "fresh", spelling, word order, "%": "Fresh Lime-Juice" finds lime
    // juice.
    NameMatch match(std::string_view writtenName) const;
    std::vector<base::IngredientId> search(std::string_view text, std::size_t limit) const;
    std::vector<const Ingredient*> all() const; // own ones first, then handbook kinds not overridden

    void put(Ingredient ingredient);                                    // adds or replaces by id
    void remember(std::string_view writtenName, base::IngredientId id); // the user's choice for a name
    const std::unordered_map<std::string, base::IngredientId>& remembered() const; // by folded name

  private:
    struct Data;
    std::shared_ptr<Data> m_data; // copy on write
};

} // namespace stillroom::larder
