#pragma once

#include "core/larder/larder.h"
#include "core/preparation/impact.h"
#include "core/preparation/nesting.h"

#include <atomic>
#include <optional>
#include <set>
#include <vector>

// An edit of the larder that nobody has accepted yet, and what it would do to a whole book.
namespace stillroom::preparation {

// The ingredients as they would be saved together.
using LarderEdit = std::vector<larder::Ingredient>;

// The larder as it would stand, with everything made of the edited things worked out again.
// Lots that are edited with them lend their measured figures, also those of what is made here.
larder::Larder withEdit(larder::Larder larder, const LarderEdit& edit, const Specs& preparations,
                        const spec::HouseRules& rules, const std::vector<larder::Lot>& lots = {});
// What would have to be looked at: the edited things, and all that follows from them before or after.
std::set<base::IngredientId> touchedBy(const larder::Larder& before, const LarderEdit& edit,
                                       const Specs& preparations, const std::vector<larder::Lot>& lots = {});

// A preparation whose own facts or cost move.
struct MadeChange {
    base::IngredientId ingredient;
    larder::FactState before, after;
    // Of 100 ml, 100 g or a piece in the book's currency; nullopt: unknown.
    std::optional<double> costBefore, costAfter;
};

struct EditImpact {
    Impacts drinks; // subjects as given
    std::vector<MadeChange> made;
    // Of the ingredient that was edited first, likewise.
    std::optional<double> costBefore, costAfter;
};

// Reads every subject with the larder as it stands and as it would stand. Complete unless cancelled.
EditImpact editImpact(const Side& now, const LarderEdit& edit, const Specs& preparations,
                      const std::vector<ImpactSubject>& subjects, const std::atomic<bool>* cancel = nullptr,
                      const std::vector<larder::Lot>& lots = {});

} // namespace stillroom::preparation
