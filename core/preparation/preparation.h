#pragma once

#include "core/larder/ingredient.h"
#include "core/preparation/process.h"
#include "core/quantity/mass.h"
#include "core/quantity/volume.h"
#include "core/spec/evaluate.h"

#include <optional>
#include <string>
#include <vector>

namespace stillroom::preparation {

// Why less came out than went in.
enum class Loss : std::uint8_t {
    Strained,   // part of the whole stayed behind in sieve, solids and pot: the rest is as strong
    BoiledDown, // water left, everything else stayed
};

// What was measured at the end, at 20 °C. Without it everything that went in comes out.
struct YieldEntry {
    std::optional<quantity::Volume> measured;
    Loss loss = Loss::Strained;
};

// A spec made in the stillroom, as an ingredient of others.
struct Made {
    larder::FactState facts;
    quantity::Volume yield; // the measured one wins; of a dry mixture 0
    quantity::Mass mass;    // of that yield
    bool yieldMeasured = false;
    std::optional<quantity::Cost> cost;      // of the whole; nullopt when a price is missing
    std::vector<std::string> knownAllergens; // also when others are not stated
    // Of one ml, in whole millionths, half to even; with a yield at most so large it is at least this.
    std::optional<quantity::Cost> costPerMl;
    bool yieldAtMost = false;              // a step loses something nobody measured or stated
    std::optional<StepProblem> yieldFault; // of the yield entry, which then counts for nothing
    double lostShare = 0; // of the mass that went in (fruit's water included), what did not come out
    std::optional<double> brix;
    AtLeast least;                    // of figures not known whole
    physics::Composition composition; // of the yield
    Process process;
};

// Lines enter and steps follow as process() says; the yield at the end wins over all of them.
// Masses are conserved: a yield above what went in is water nobody wrote down, one below it is a loss. A fact
// that a line lacks is a fact the result lacks. Allergens and tags are inherited from every line, drunk or
// strained, optional or not, and from what the words of lines, steps and garnish name; with one ingredient's
// unstated the known ones stay and the state carries larder::kAllergensIncomplete. Melt water counts only
// where the method names ice. nullopt when nothing in it has an amount.
std::optional<Made> make(const spec::Spec& spec, const spec::Bindings& bindings, const YieldEntry& yield);
std::optional<larder::FactState> factsOf(const spec::Spec& spec, const spec::Bindings& bindings,
                                         const YieldEntry& yield);
// The measured yield that a spec carries, as an entry.
YieldEntry yieldOf(const spec::Spec& spec);

// What it cost to make, so that drinks cost it per ml: a pack of the whole yield, or of as many (10 … 10,000)
// as it takes for a price in whole minor units to be right to a hundred-thousandth.
std::optional<larder::Pack> packOf(const Made& made, base::PackId id, quantity::Currency currency);

} // namespace stillroom::preparation
