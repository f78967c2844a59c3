#pragma once

#include "core/quantity/measure.h"
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
    bool unit = false; // written in another measure, whatever became of the amount
    // With `amount`: no more than what the other measure rounds away. 3/4 floz is 22.18 ml; written as
    // 22.5 ml it is the same pour.
    bool measureOnly = false;
    bool substituted = false;       // another thing of its sort: dark rum, then amber rum
    bool place = false;             // role, optional, to taste, or the step before which it goes in
    bool note = false;              // qualifier, note or alternatives
    bool temperature = false;       // as poured
    bool fill = false;              // scant, heaping, small, large: more or less of it under one figure
    bool alternatives = false;      // what may stand in its place
    bool stated = false;            // the strength, or the size of one, that the line itself states
    int insteadOf = -1;             // of an added line: the removed one in whose place it stands; and back
    std::optional<double> relative; // (b - a) / a, where both can be brought to one measure and neither is 0
    // What is poured on either side, the middle of a range, in `measure`; where both are in one measure.
    std::optional<double> before, after;
    quantity::Measure measure = quantity::Measure::Ml; // ml, g, or a measure without a size
    // Something else goes into the drink, or elsewhere.
    bool changesDrink() const {
        return added || removed || renamed || place || stated || temperature || fill || alternatives ||
               (amount && !measureOnly);
    }
    friend bool operator==(const LineDifference&, const LineDifference&) = default;
};

struct SpecDifference {
    std::vector<LineDifference> lines; // in b's order, removed ones where they stood
    bool method = false, glass = false, garnish = false, serves = false;
    bool target = false; // what parts fill, or a preparation's measured yield
    bool steps = false;  // of a preparation
    bool isEmpty() const;
    friend bool operator==(const SpecDifference&, const SpecDifference&) = default;
};

// Writing an amount in another measure may move it by this share and is no other amount: the trade's 30 ml
// ounce is 1.44 % over the US fluid ounce of 29.5735 ml (computed).
inline constexpr double kRestatedShare = 0.015;

// Lines are matched by ingredient, then by likeness of name and role; order alone is "moved". The same
// amount in another measure (4.5 cl, 45 ml) is no difference: what counts is what goes into the drink.
SpecDifference difference(const spec::Spec& a, const spec::Spec& b, const quantity::HouseMeasures& measures);
// Seen from the other side: difference(b, a) is inverse(difference(a, b)).
SpecDifference inverse(const SpecDifference& difference);

// How like two written names are as ingredients: 1 the same, 0 not to be taken for one another.
double likeness(const spec::Line& a, const spec::Line& b);

// "lemon 22.5 → 20 ml; + orange bitters 2 dashes; shaken 12 s → 10 s": how a trail mark says it. English.
std::string inWords(const SpecDifference& difference, const spec::Spec& a, const spec::Spec& b);

} // namespace stillroom::history
