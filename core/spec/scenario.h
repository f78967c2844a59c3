#pragma once

#include "core/quantity/fraction.h"
#include "core/spec/bindings.h"
#include "core/spec/portion.h"

#include <array>
#include <cstdint>

// One pass over a spec with every open question answered one way. Evaluation is one such pass when nothing
// is open, and the envelope of several when something is.
namespace stillroom::spec {

// Ranged lines whose two ends are tried in every combination.
inline constexpr int kCornerLines = 6;

struct Scenario {
    std::uint8_t factsAtLargest = 0; // of FactBit: unknown facts at their largest, else left out
    std::uint32_t rangesHigh = 0; // bit i: the i-th ranged line at its upper end; the last bit: all further
    bool unstatedLarge = false;   // amounts nobody stated at their largest, else left out
    bool iceLarge = false;        // water of an unknown method at its most, else none
};

// Lines that lack something, as bits for Reading::gapLines, apart for mixed lines and all lines.
struct OpenLines {
    std::uint64_t strength = 0, sugar = 0, acid = 0, price = 0, amount = 0;
};

// What the pass met on its way.
struct Questions {
    std::uint8_t unknownFacts = 0;
    int ranged = 0;
    OpenLines mixed, all;
    bool assumedMixed = false, assumedAll = false;
    bool pricedMixed = false, pricedAll = false; // some line has a price
    bool countedMixed = false, countedAll = false;
    bool guessedCost = false; // a garnish without an amount was taken for a piece
    bool partsWithoutTarget = false;
    bool measuredBesideParts = false;
    bool unknownIce = false;

    bool none() const {
        return unknownFacts == 0 && ranged == 0 && all.amount == 0 && all.price == 0 && !partsWithoutTarget &&
               !unknownIce;
    }
};

struct StageSums {
    Totals totals;
    double pouredMl = 0;
    std::int64_t costMillionths = 0;
};

// Where the water of a method came from.
enum class WaterBasis : std::uint8_t {
    None,    // no method, or one that adds none
    Curve,   // published curve
    Fixed,   // one figure for the technique
    Balance, // heat balance with ice
    AllIce,  // blended with weighed ice, all of which is drunk
    Typed,
    Measured,
    UnknownIce, // ice without a technique
};

struct Pass {
    std::array<StageSums, 3> stages; // whole, in the order of Stage
    double volumeMl[3] = {};
    double dilution = 0;
    bool waterApplies = false; // some method is known, even if it adds none
    bool waterEstimate = false;
    WaterBasis waterBasis = WaterBasis::None;
    double benchFactor = 1; // by which this bench's own measurements moved the prediction
    bool calibrated = false;
    double chilledC = 0; // of a heat balance: where it ended
    double allIceG = 0;  // of AllIce, whole
    Questions questions;
};

Pass pass(const Spec& spec, const Bindings::Data& data, const Scenario& scenario) noexcept;

// The ratio a method is predicted to add to a mix of this strength; 0 where no method is known.
double predictedDilution(const Spec& spec, quantity::Strength before) noexcept;

// Told of every line that stays in the drink: its index and how much, in the units of its facts.
class LineListener {
  public:
    virtual ~LineListener() = default;
    virtual void stays(std::size_t line, double units) = 0;
    // Of every line that is poured, garnishes with a price too: ml, and what it costs.
    virtual void pours(std::size_t /*line*/, double /*ml*/, std::int64_t /*millionths*/) {}
};
Pass pass(const Spec& spec, const Bindings::Data& data, const Scenario& scenario, LineListener* listener);

// The masses of a stage in one scenario, whole, by substance. Facts taken at their largest are of unknown
// kind: sucrose, citric acid.
physics::Composition stageComposition(const Spec& spec, const Bindings::Data& data, const Scenario& scenario,
                                      Stage stage);

} // namespace stillroom::spec
