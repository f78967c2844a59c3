#pragma once

#include "core/larder/larder.h"
#include "core/store/book.h"

#include <optional>
#include <string>
#include <vector>

// Internal to core/store.
namespace stillroom::store {

// The book's own kinds, bottles and preparations, their prices, and the names people have settled.
class LarderRepository {
  public:
    explicit LarderRepository(Book& book) : m_book(book) {}

    // Packs in use now, or, with `atMs`, those that were in use at that moment.
    std::vector<larder::Ingredient> all(std::optional<std::int64_t> atMs = std::nullopt) const;
    std::vector<larder::Ingredient>
    binned(std::optional<std::int64_t> atMs = std::nullopt) const; // taken out of the larder
    void bin(base::IngredientId id, bool binned);
    std::optional<larder::Ingredient> find(base::IngredientId id) const;
    // Writes each group of fields that differs; the state of its facts must be stored already.
    void save(const larder::Ingredient& ingredient);

    void remember(const std::string& folded, base::IngredientId ingredient);
    void forget(const std::string& folded);
    std::vector<std::pair<std::string, base::IngredientId>> remembered() const;

  private:
    std::vector<larder::Ingredient> listed(bool binned, std::optional<std::int64_t> atMs) const;
    larder::Ingredient read(const Query& row) const;
    void readTerms(const Query& row, larder::Ingredient& ingredient) const;
    quantity::Rational exact(const std::string& text, const std::string& of) const;
    std::vector<larder::Pack> packsOf(base::IngredientId id, std::optional<std::int64_t> atMs) const;
    void insert(const larder::Ingredient& ingredient);
    void update(const larder::Ingredient& ingredient, const larder::Ingredient& stored);
    void updateTerms(const larder::Ingredient& ingredient, const larder::Ingredient& stored);
    void updateShelf(const larder::Ingredient& ingredient, const larder::Ingredient& stored);
    void savePacks(const larder::Ingredient& ingredient, const std::vector<larder::Pack>& stored);
    Book& m_book;
};

} // namespace stillroom::store
