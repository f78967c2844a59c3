#pragma once

#include "core/preparation/ratio.h"
#include "core/spec/evaluate.h"

#include <optional>

// The ratio that a preparation's own lines are written in, with its basis: a ratio without one is two syrups.
namespace stillroom::preparation {

struct SpecRatio {
    std::size_t sweet = 0, water = 0;  // lines
    double sweetParts = 1;             // to one of water
    std::optional<RatioBasis> basis{}; // none: written in parts, and nobody said of what
};
// Of a spec with one line of sugar (or honey, or another syrup) and one of water, both of an exact amount.
// The measure of the sweet line is the basis. nullopt: no such two, or more of either.
std::optional<SpecRatio> ratioOf(const spec::Spec& spec, const spec::Bindings& bindings);

// The same ratio by the other basis: the numbers stay, millilitres become grams or grams millilitres. Parts
// become 100 g or 100 ml each.
spec::Spec withBasis(const spec::Spec& spec, const SpecRatio& ratio, RatioBasis basis,
                     const spec::HouseRules& rules);

// What either basis comes to, all the steps included. nullopt where the sugar is not known.
struct BasisOutcome {
    std::optional<double> brix, sugarGPerL;
};
struct BasisOutcomes {
    BasisOutcome byWeight, byCup;
};
BasisOutcomes outcomesOf(const spec::Spec& spec, const SpecRatio& ratio, const larder::Larder& larder,
                         const spec::HouseRules& rules);

} // namespace stillroom::preparation
