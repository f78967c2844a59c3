#pragma once

#include "core/spec/more_readings.h"

#include <string>
#include <vector>

// How far a reading may stray because its facts do: every fact that states a range (lime acid 46 to 70 g/l)
// and every house measure that does (a barspoon of 2.5 to 5 ml) is put at its low and its high end, one at a
// time, the rest at their usual values. What they move adds in quadrature, upward and downward apart: first
// order, the facts taken as independent of each other; a liquid poured on several lines moves as one.
// What the spec itself leaves open (ranges, missing facts) is in the reading's bound, not here.
namespace stillroom::spec {

struct SpreadSource {
    std::vector<int> lines; // those it acts on, in order; empty: the method
    std::string fact;       // key of larder::factKeys(), "measure:barspoon", "count", "rinse", "dilution"
    std::string source;     // who states the range
    double low = 0, typical = 0, high = 0; // of the fact
    double atLow = 0, atHigh = 0;          // the reading with it there

    double moves() const; // the larger of the two
    double central = 0;   // the reading with everything usual
};

struct Spread {
    Reading reading;          // as evaluated
    double low = 0, high = 0; // around the central value
    double central = 0;
    std::vector<SpreadSource> sources; // what moves it most first; those that move it not at all are left out
    bool applies = false;              // false: not applicable, or nothing to read
};

struct SpreadAsk {
    // A predicted dilution may be 0.1 off (physics/dilution.h), or by what the bench's own measurements
    // spread (one standard deviation, from two on).
    bool dilution = false;
};

Spread spread(const Spec& spec, const Bindings& bindings, Quantity quantity, Stage stage,
              const SpreadAsk& ask = {});
Spread spread(const Spec& spec, const Bindings& bindings, More more, Stage stage, const SpreadAsk& ask = {});

} // namespace stillroom::spec
