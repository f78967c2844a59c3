#pragma once

#include "core/history/history.h"
#include "core/larder/larder.h"
#include "core/preparation/nesting.h"
#include "core/spec/evaluate.h"
#include "core/store/drink_repository.h"
#include "core/store/larder_repository.h"
#include "core/store/lot_repository.h"
#include "core/store/revision_repository.h"

#include <optional>
#include <set>

// Internal to core/store: from what a book holds to a larder, and from a larder to what a revision pins.
namespace stillroom::store {

class LarderBuilder {
  public:
    LarderBuilder(const DrinkRepository& drinks, const RevisionRepository& revisions,
                  const LarderRepository& ingredients, const LotRepository& lots)
        : m_drinks(drinks),
          m_revisions(revisions),
          m_ingredients(ingredients),
          m_lots(lots) {}

    // The handbook under the book's own, with facts and cost of what is made here computed from its house
    // revision, else its last kept one, else its first draft. What is made of itself keeps the facts it was
    // stored with.
    larder::Larder build(const spec::HouseRules& rules);
    const std::set<base::DraftId>& draftsPoured() const { return m_draftsPoured; }
    const preparation::Specs& preparations() const { return m_specs; }

  private:
    void take(larder::Ingredient ingredient);
    std::optional<spec::Spec> specOf(base::DrinkId preparation);

    const DrinkRepository& m_drinks;
    const RevisionRepository& m_revisions;
    const LarderRepository& m_ingredients;
    const LotRepository& m_lots;
    std::set<base::DraftId> m_draftsPoured;
    larder::Larder m_larder;
    preparation::Specs m_specs;
};

// What a revision of this spec would record: the state poured for each line's ingredient, the bottle chosen
// for a kind, and the revision of what is made here.
history::RevisionFacts pinnedFacts(const spec::Spec& spec, const larder::Larder& larder,
                                   const RevisionRepository& revisions);

// The larder a revision was read with: every ingredient it names carries the state it pinned and pours the
// bottle it pinned, also one that is in the bin by now; everything has the prices of that day, so that juice
// costs what its limes did; what was made here costs what its pinned revision cost at those prices and the
// exchange rates of its day. Terms (what is got from a purchase, waste) are not recorded by day: they are
// today's. Everything else is as in `now`.
larder::Larder pinnedLarder(const history::Revision& revision, const larder::Larder& now,
                            const spec::HouseRules& rules, const RevisionRepository& revisions,
                            const LarderRepository& ingredients);

// What a revision is read again by: its measures and currency, and of the book's rates those of its day or
// before. No bench: its readings were kept with what its draft was seen with.
spec::HouseRules rulesThen(const history::Revision& revision, const spec::HouseRules& rules);

} // namespace stillroom::store
