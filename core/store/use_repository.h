#pragma once

#include "core/store/book.h"
#include "core/store/workbook.h"

#include <set>
#include <string>

// Internal to core/store.
namespace stillroom::store {

// Which drafts and revisions name an ingredient, by index. What it knows of drafts is derived from their
// specs and kept beside them.
class UseRepository {
  public:
    explicit UseRepository(Book& book) : m_book(book) {}

    void note(base::DraftId draft, const spec::Spec& spec); // writes only when other things are named
    std::vector<IngredientUse> of(base::IngredientId ingredient) const;
    // Does what stands beside a draft agree with its spec?
    bool agrees(base::DraftId draft, const spec::Spec& spec) const;

  private:
    std::set<std::string> noted(base::DraftId draft) const;
    Book& m_book;
};

} // namespace stillroom::store
