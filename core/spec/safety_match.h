#pragma once

#include "core/larder/facts.h"
#include "core/spec/safety_rules.h"

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::spec {

// A drink reduced to what can set a caution off.
struct SafetyLine {
    std::string words;                        // the name and what was written
    const larder::FactState* facts = nullptr; // of what is poured; nullptr: unknown
    bool fromHandbook = false;                // then the handbook's own tags speak for it
};

// Where a value surely lies; an end nobody knows is infinite.
struct KnownRange {
    double low;
    double high;
};

struct SafetyView {
    std::vector<SafetyLine> lines;
    std::string methodText;              // method and garnish, as written
    std::string garnish;                 // what decorates without being a line can harm as well
    std::vector<std::string> techniques; // chosen rather than written, as ids of the rules
    // Of one serve, by the names in the rules; nullopt: unknown, never fires.
    std::function<std::optional<KnownRange>(std::string_view quantity)> quantity;
    CautionContext context;
};

// Classes of the EU list that words tell of: in the garnish, the method, and the lines whose place in `lines`
// is in `unstated`. Each once, in no order.
std::vector<std::string> allergensSaid(const SafetyView& view, const std::vector<int>& unstated,
                                       const SafetyRules& rules);

// Tags that stay true of whatever the thing goes into: of the words of its lines and garnish, of allergens
// and dangers that its method and steps name, and that there is dairy or egg within. Sorted, each once.
std::vector<std::string> tagsPassedOn(const SafetyView& view, const SafetyRules& rules);

// In the order in which they are shown.
std::vector<Caution> firedCautions(const SafetyView& view, const SafetyRules& rules);

} // namespace stillroom::spec
