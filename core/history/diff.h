#pragma once

#include "core/spec/spec.h"

#include <optional>
#include <string>
#include <vector>

namespace stillroom::history {

// One row of a comparison. Flags combine ("amount+renamed"); a missing side is -1.
struct LineDifference {
    int a = -1; // index into the first spec's lines
    int b = -1;
    bool same = false, amount = false, renamed = false, moved = false, added = false, removed = false;
    bool unit = false;              // written in another measure, whatever became of the amount
    bool place = false;             // role, optional or to taste: whether and where it enters the drink
    bool note = false;              // qualifier, note or alternatives
    std::optional<double> relative; // (b - a) / a, where both can be brought to one measure
    friend bool operator==(const LineDifference&, const LineDifference&) = default;
};

struct SpecDifference {
    std::vector<LineDifference> lines; // in b's order, removed ones where they stood
    bool method = false, glass = false, garnish = false, serves = false;
    bool target = false; // what parts fill, or a preparation's measured yield
    bool isEmpty() const;
};

// Lines are matched by ingredient, then by likeness of name; order alone is "moved". The same amount in
// another measure (4.5 cl, 45 ml) is no difference: what counts is what goes into the drink.
SpecDifference difference(const spec::Spec& a, const spec::Spec& b, const quantity::HouseMeasures& measures);

// How like two written names are as ingredients: 1 the same, 0 not to be taken for one another.
double likeness(const spec::Line& a, const spec::Line& b);

// "lemon 22.5 → 20 ml; + orange bitters 2 dashes; shaken 12 s → 10 s": how a trail mark says it. English.
std::string inWords(const SpecDifference& difference, const spec::Spec& a, const spec::Spec& b);

} // namespace stillroom::history
