#pragma once

#include "core/history/diff.h"
#include "core/history/fact_swap.h"
#include "core/spec/reading.h"

#include <optional>
#include <string>
#include <vector>

namespace stillroom::history {

enum class ThingKind : std::uint8_t {
    Line,
    Facts,
    Method,
    Glass,
    Garnish,
    Serves,
    Target,
    Steps,
    Temperature,
    GlassAge
};

// One variable of an experiment, named as a bartender would: "lemon juice", "lime juice for lemon juice",
// "the method".
struct ChangedThing {
    ThingKind kind = ThingKind::Line;
    std::string name;
    friend bool operator==(const ChangedThing&, const ChangedThing&) = default;
};

// What differs in the drink. Written elsewhere or in another measure, it is still the same drink; one thing
// for another is one change. A bottle and its amount are two, as are a line's amount and how warm it is
// poured.
std::vector<ChangedThing> changedThings(const SpecDifference& difference, const spec::Spec& a,
                                        const spec::Spec& b, const std::vector<FactSwap>& swaps = {});
// The one variable that changed between two scores; nullopt: none did, or several, and no score between
// them can be laid to one.
std::optional<ChangedThing> singleChange(const std::vector<ChangedThing>& things);

// "lemon 22.5 → 20 ml; syrup now 2:1": the difference and the facts in one; "no change". English.
std::string changesInWords(const SpecDifference& difference, const spec::Spec& a, const spec::Spec& b,
                           const std::vector<FactSwap>& swaps);

// By how much a reading moved, as it is shown (half the last digit is no move). nullopt: one of the two is
// unknown, or they are bounds of different kinds.
std::optional<double> readingChange(const spec::Reading& before, const spec::Reading& after,
                                    spec::Quantity quantity);
// What an edit did, at most `most` readings as served: strength and sugar : acid first, then what else a
// taster would notice.
std::vector<spec::Quantity> movedReadings(const spec::Readings& before, const spec::Readings& after,
                                          std::size_t most = 2);
// "18.4 → 19.1 % vol, sugar:acid 7.9 → 8.6"; empty: nothing moved. English.
std::string effectInWords(const spec::Readings& before, const spec::Readings& after);

} // namespace stillroom::history
