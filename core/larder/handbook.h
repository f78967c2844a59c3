#pragma once

#include "core/larder/ingredient.h"

#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace stillroom::larder {

// A name that several kinds share ("simple syrup", "cider"): never chosen silently.
struct SharedName {
    std::string name;
    std::vector<base::IngredientId> kinds; // the house's first choice first, when it has one
    bool hasDefault = false;
    std::string note; // why they differ, in words for people; may be empty
};

// What a person may want to read about a kind beside its facts.
struct HandbookWords {
    std::string subgroup; // "gin"; empty when the group says enough
    std::string keeping;  // "2-4 weeks refrigerated"
    std::string note;
};

// The built-in kinds, from resources/handbook/ingredients.json (its "about" documents the format). Read once,
// at first use, by whichever thread comes first; never changed afterwards.
class Handbook {
  public:
    static const Handbook& builtIn();
    // For tests of the reader. nullopt: not a handbook; nothing is taken from a file that is only half right.
    static std::optional<Handbook> fromJson(std::string_view json);
    // A kind has the same id in every book.
    static base::IngredientId idOf(std::string_view handbookId);

    const std::vector<Ingredient>& kinds() const { return m_kinds; }
    const std::vector<SharedName>& sharedNames() const { return m_sharedNames; }
    const Ingredient* find(base::IngredientId id) const;
    const Ingredient* find(std::string_view handbookId) const { return find(idOf(handbookId)); }
    const HandbookWords& words(base::IngredientId id) const; // empty ones for an id it does not hold

  private:
    std::vector<Ingredient> m_kinds;
    std::vector<HandbookWords> m_words; // beside m_kinds
    std::vector<SharedName> m_sharedNames;
    std::unordered_map<base::IngredientId, std::size_t> m_byId;
};

} // namespace stillroom::larder
