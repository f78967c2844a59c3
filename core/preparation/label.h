#pragma once

#include "core/preparation/keeping.h"
#include "core/preparation/preparation.h"
#include "core/spec/caution.h"

#include <optional>
#include <string>
#include <vector>

namespace stillroom::preparation {

// What a preparation's own ingredients, steps and result set off: as something that is kept, of its kind, at
// the strength and Brix that came out.
std::vector<spec::Caution> cautionsOf(std::string_view name, const spec::Spec& spec,
                                      const spec::Bindings& bindings, const Made& made);

// What stands on a bottle's label; words and dates are put in a person's own form where it is shown.
struct Label {
    std::string name;
    std::string madeOn;               // civil date; empty: not said
    std::optional<std::string> useBy; // civil date; nullopt: no limit, or nobody knows
    Keeping keeping;
    std::vector<std::string> allergens;
    bool allergensComplete = false; // false: an ingredient states nothing, so there may be more
    std::optional<larder::Fact> strengthPercent;
    // Danger, warn and allergen; left out: standing ones, and what says no more than `allergens` does.
    std::vector<spec::Caution> cautions;
    std::string deference; // local codes and licensed practice come first
};
Label labelOf(std::string_view name, const spec::Spec& spec, const spec::Bindings& bindings, const Made& made,
              std::string_view madeOn, const Keeping& keeping,
              const std::vector<std::string>& partsUseBy = {});

} // namespace stillroom::preparation
