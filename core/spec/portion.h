#pragma once

#include "core/spec/bindings.h"

namespace stillroom::spec {

// How far a written amount can be turned into something to add up.
enum class Sizing : std::uint8_t {
    Sized,
    Unstated,   // no amount: nothing is known but that there is some
    NoSize,     // "2 stars anise": an amount, but nobody knows how large one is
    NoDensity,  // a dry good by volume whose bulk density is unknown
    Solid,      // fruit and the like: an amount, but nobody knows how much of it is drunk
    Negligible, // ice; leaves, sprigs, slices; a stick that does not dissolve
};

// An amount in the units of its ingredient's facts: ml of a liquid, g of a dry good.
struct Portion {
    Sizing sizing = Sizing::Negligible;
    double units = 0;
    double pouredMl = 0;
};

// The number of measures as written, multiplier included; `high` takes the upper end of a range.
double amountOf(const Measured& measured, bool high) noexcept;
// What of a line is paid for: a garnish without an amount is one piece, as an estimate.
Measured paidFor(const Line& line);
bool isPaidByGuess(const Line& line) noexcept;
// Words beside the lines decorate the drink: not "none".
bool hasGarnishInWords(const Spec& spec) noexcept;
bool isRanged(const Measured& measured, Qualifier qualifier) noexcept;

Portion portionOf(const Measured& measured, double amount, const BoundLine& line, const Bindings::Data& data,
                  double partMl, std::uint8_t atLargest) noexcept;

// All of a solid, as if none of it were strained out.
Portion largestSolid(const Measured& measured, double amount, const BoundLine& line,
                     const Bindings::Data& data, double partMl) noexcept;

// Most that a portion without a size may be; for deciding which way a reading could move.
Portion largestPortion(Sizing sizing, double amount, const BoundLine& line, int serves) noexcept;

enum class Priced : std::uint8_t { Yes, No };
struct LineCost {
    Priced priced = Priced::No;
    std::int64_t millionths = 0;
};
// Exact and half to even where pack and amount are measured alike; through a density or a house's count
// otherwise, rounded once. What is not drunk is paid for as well: leaves, a stick, fruit by the piece.
LineCost costOf(const Measured& measured, bool high, const Portion& portion, const BoundLine& line,
                const Bindings::Data& data) noexcept;

} // namespace stillroom::spec
