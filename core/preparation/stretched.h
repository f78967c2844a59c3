#pragma once

#include "core/preparation/preparation.h"
#include "core/preparation/targets.h"

namespace stillroom::preparation {

// A juice stretched with acid and water, beside the fresh juice it stands in for (needs, 15).
struct Stretched {
    std::size_t juice = 0;        // its line
    double juiceGPer100Ml = 0;    // as citric, as the larder has it
    double madeGPer100Ml = 0;     // as citric, in what came out
    double byPeelRulePercent = 0; // acid over water and juice, as the rule of the peel counts it
    double timesAsSour = 1;       // made over juice
    bool atLeast = false;         // more acid may be in it: a part does not state its own
};
// nullopt: there is not one sour juice, an acid by the gram and water in it, each of an exact amount.
std::optional<Stretched> stretchedOf(const spec::Spec& spec, const spec::Bindings& bindings,
                                     const Made& made);

} // namespace stillroom::preparation
