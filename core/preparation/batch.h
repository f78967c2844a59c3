#pragma once

#include "core/preparation/preparation.h"

#include <optional>
#include <vector>

// A preparation made in another amount than it is written.
namespace stillroom::preparation {

// How many times the written batch; nullopt: not above zero, or nothing to go by.
std::optional<double> factorForOutput(const Made& made, quantity::Volume wanted);
std::optional<double> factorForOutput(const Made& made, quantity::Mass wanted);
// By the input there is, in the measure the line is written in.
std::optional<double> factorForInput(const spec::Spec& spec, std::size_t line, double have);

// Everything times `factor`: lines and what is stated of steps by weight or volume; minutes, shares and a
// pot's rate stay. Amounts are rounded to a thousandth of their measure. Not above zero or too large:
// nullopt.
std::optional<spec::Spec> scaledBatch(const spec::Spec& spec, double factor);

// A line of a batch as it is weighed out.
struct Weighing {
    std::size_t line = 0;
    quantity::Mass mass; // of this batch
    double error = 0;    // share of it that the scale's last digit may be off
};
// Of lines written by weight.
std::vector<Weighing> weighings(const spec::Spec& spec, double factor, quantity::Mass scaleStep);
// The smallest batch whose every line written by weight is weighed to `share` of it. nullopt: nothing in it
// is written by weight.
std::optional<double> smallestFactor(const spec::Spec& spec, quantity::Mass scaleStep, double share = 0.02);

} // namespace stillroom::preparation
