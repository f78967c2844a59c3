#pragma once

#include "core/spec/evaluate.h"

#include <tl/expected.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::preparation {

// What stays the same when one thing is poured for another.
enum class Keep : std::uint8_t { Sugar, Sweetness, Ethanol, Acid };

// As worked out, to 0.01 ml or g; or on the marks of what the house measures with: the jigger's in the
// measure of the line (spec/jigger_step.h; finer ones where a mark would be off by more than a tenth), the
// scale's for what is weighed.
enum class Amounts : std::uint8_t { Exact, AsMeasured };

enum class SubstituteProblem : std::uint8_t {
    NoSuchLine,
    NoSuchIngredient,
    NoAmount,      // the line states none, or one that cannot be turned into ml or g
    FactUnknown,   // nobody knows how much sugar (or alcohol, or acid) one of the two holds
    NothingToKeep, // one of the two holds none
    TooLarge,
};
std::string_view substituteProblemId(SubstituteProblem problem);

struct Change {
    spec::Quantity quantity = spec::Quantity::Volume;
    spec::Reading before, after;
};

// Of the whole drink. Unknown is never none: a stand-in that states nothing may hold any of them.
struct AllergenChange {
    std::vector<std::string> gained, lost; // of the EU list
    bool notStated = false;                // the stand-in states none of its allergens
    bool wasNotStated = false;             // neither did what it stands for
    friend bool operator==(const AllergenChange&, const AllergenChange&) = default;
};

struct Substitution {
    spec::Spec spec;             // the line replaced, and the water made up right behind it
    double amount = 0;           // of the replacement, ml or g, before it is put on a mark
    double waterAddedG = 0;      // that the old one brought and the new one lacks
    double waterTooMuchG = 0;    // or the other way round: nothing takes it out again
    double waterLackingG = 0;    // too little for a mark: not made up
    std::vector<Change> changes; // served readings that differ, per serve
    AllergenChange allergens;
};

// By sugar mass, by the sucrose that tastes as sweet (physics/sweetness.h), by alcohol, or by acid counted as
// citric. Water is made up to the mass that the old line brought.
tl::expected<Substitution, SubstituteProblem>
substituted(const spec::Spec& spec, std::size_t line, base::IngredientId replacement, Keep keep,
            const larder::Larder& larder, const spec::HouseRules& rules, Amounts amounts = Amounts::Exact,
            double scaleStepG = 0.1);

// What may stand in for a line: sweet for sweet, strong for strong, a liqueur for a liqueur, sour for sour.
// Those of the same group first, own things before the handbook's, then by name. Each with what can be kept.
struct StandIn {
    base::IngredientId ingredient;
    std::vector<Keep> keeps; // the first is what one most likely means
};
// Empty: the line is neither sweet nor strong nor sour, its facts are unknown, or there is nothing else of
// its sort.
std::vector<StandIn> standInsFor(const spec::Spec& spec, std::size_t line, const larder::Larder& larder,
                                 const spec::HouseRules& rules);

} // namespace stillroom::preparation
