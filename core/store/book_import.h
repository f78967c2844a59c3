#pragma once

#include "core/base/clock.h"
#include "core/exchange/book_json.h"
#include "core/store/workbook.h"

#include <functional>

namespace stillroom::store {

// A clock that import sets to each thing's own time. Unset, it tells the system's.
class BookClock final : public base::Clock {
  public:
    base::Instant now() const override { return m_set ? *m_set : base::SystemClock().now(); }
    void set(const base::Instant& instant) { m_set = instant; }
    void release() { m_set.reset(); }

  private:
    std::optional<base::Instant> m_set;
};

// Puts a scripted book into a workbook that was opened with `clock`, through the same calls and the same
// reading of text that a person's own work goes through: people, ingredients, then each drink's revisions,
// tastings and last draft, at their own times. A book with ids is put in as it was kept instead, all or
// nothing, and only into a workbook that holds none of it. Throws StoreError, or std::runtime_error naming
// the drink and line that could not be read; what stood before stays, and so does what was already put in.
void importBook(Workbook& workbook, BookClock& clock, const exchange::ScriptedBook& book);

// A new workbook with the book in it, and what `more` adds; nothing is left at the path when that fails.
// Throws likewise.
void createBook(const std::string& path, const exchange::ScriptedBook& book,
                const std::function<void(Workbook&, BookClock&)>& more = {});

} // namespace stillroom::store
