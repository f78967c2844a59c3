#pragma once

#include "core/larder/ingredient.h"
#include "core/larder/written_name.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace stillroom::larder {

struct NameHit {
    base::IngredientId id;
    bool isName = false; // the ingredient's own name rather than an alias
    friend bool operator==(const NameHit&, const NameHit&) = default;
};

// How well an ingredient's name covers a written one and the other way round, by weight of the words.
struct NameScore {
    base::IngredientId id;
    double score = 0; // 0…1
    bool isName = false;
};

// Every name and alias of a set of ingredients, ready to be looked up exactly, by its words, and roughly.
class NameIndex {
  public:
    void add(const Ingredient& ingredient);
    void remove(const Ingredient& ingredient); // as it was when added

    const std::vector<NameHit>& exact(std::string_view folded) const;
    const std::vector<NameHit>& byKey(std::string_view key) const;
    const std::vector<NameHit>& byCompact(std::string_view compact) const;

    bool knowsWord(std::string_view stem) const;
    // The nearest known word for a misspelt one; empty when none is near enough.
    std::string nearestWord(std::string_view stem) const;
    // Best first; only those that could be meant.
    std::vector<NameScore> scored(const std::vector<std::string>& words, std::string_view head) const;
    // As typed: every typed word begins a word of the name. Worst-case linear in the names.
    std::vector<NameScore> beginning(const std::vector<std::string>& typedWords) const;
    // The same, a typed word of four letters or more may be misspelt.
    std::vector<NameScore> beginningRoughly(const std::vector<std::string>& typedWords) const;

  private:
    struct Entry {
        base::IngredientId id;
        bool isName = false;
        bool dead = false;
        std::uint32_t head = 0;
        std::vector<std::uint32_t> words; // stems, numbered
        std::vector<std::string> folded;  // the words as written, for search
    };
    using Hits = std::unordered_map<std::string, std::vector<NameHit>>;

    std::uint32_t numberOf(const std::string& stem);
    double weight(std::uint32_t word) const;
    double scoreOf(const Entry& entry, const std::vector<std::string>& words, std::string_view head) const;
    void addName(base::IngredientId id, std::string_view name, bool isName);

    std::vector<Entry> m_entries;
    Hits m_exact;
    Hits m_byKey;
    Hits m_byCompact;
    std::unordered_map<std::string, std::uint32_t> m_wordNumbers;
    std::vector<std::string> m_words;
    std::vector<std::vector<std::uint32_t>> m_entriesOf; // by word number
};

// Words that tell one sort of a thing from another without changing what it is: colour, age, sweetness.
bool isDescriptor(std::string_view stem);

} // namespace stillroom::larder
