#pragma once

#include "core/spec/evaluate.h"

#include <tl/expected.hpp>

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace stillroom::preparation {

// What stays the same when one thing is poured for another.
enum class Keep : std::uint8_t { Sugar, Sweetness, Ethanol };

enum class SubstituteProblem : std::uint8_t {
    NoSuchLine,
    NoSuchIngredient,
    NoAmount,      // the line states none, or one that cannot be turned into ml or g
    FactUnknown,   // nobody knows how much sugar (or alcohol) one of the two holds
    NothingToKeep, // one of the two holds none
    TooLarge,
};
std::string_view substituteProblemId(SubstituteProblem problem);

struct Change {
    spec::Quantity quantity = spec::Quantity::Volume;
    spec::Reading before, after;
};

struct Substitution {
    spec::Spec spec;             // the line replaced, and the water made up right behind it
    double amount = 0;           // of the replacement, ml or g
    double waterAddedG = 0;      // that the old one brought and the new one lacks
    double waterTooMuchG = 0;    // or the other way round: nothing takes it out again
    std::vector<Change> changes; // served readings that differ, per serve
};

// By sugar mass, by the sucrose that tastes as sweet (physics/sweetness.h), or by alcohol. Amounts are
// rounded to 0.01 ml or g. Water is made up to the mass that the old line brought.
tl::expected<Substitution, SubstituteProblem> substituted(const spec::Spec& spec, std::size_t line,
                                                          base::IngredientId replacement, Keep keep,
                                                          const larder::Larder& larder,
                                                          const spec::HouseRules& rules);

} // namespace stillroom::preparation
