#include "core/spec/bounds.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace stillroom::spec {

namespace {

constexpr double kInfinity = std::numeric_limits<double>::infinity();

struct Extent {
    double low = kInfinity;
    double high = -kInfinity;
    void take(double value) noexcept {
        if (std::isnan(value)) return;
        low = std::min(low, value);
        high = std::max(high, value);
    }
    bool isEmpty() const noexcept { return low > high; }
};

// One reading over all scenarios, and over those where fewer questions are open.
struct Spread {
    Extent plain;  // ranges only
    Extent direct; // and the facts the reading is about
    Extent all;
};

using Spreads = std::array<std::array<Spread, kQuantityCount>, kStageCount>;

// Facts a reading is about; the others reach it through the volume model alone.
constexpr std::uint8_t directFacts(Quantity q) noexcept {
    switch (q) {
    case Quantity::Strength:
    case Quantity::Ethanol:
    case Quantity::StandardDrinks:
    case Quantity::Dilution:
        return kStrengthFact;
    case Quantity::Sugar:
    case Quantity::Brix:
        return kSugarFact;
    case Quantity::Acid:
        return kAcidFact;
    case Quantity::SugarAcidRatio:
        return kSugarFact | kAcidFact;
    case Quantity::Mass:
    case Quantity::Density:
    case Quantity::EnergyKj:
    case Quantity::EnergyKcal:
        return kStrengthFact | kSugarFact;
    default:
        return 0;
    }
}

// How much of a reading the volume model may carry before a missing fact makes it a bound: ethanol and
// water contract by at most 3.7 % (OIML R 22), and that is all a volume can lose.
constexpr double indirectShare(Quantity q) noexcept {
    return q == Quantity::Volume ? 0.04 : 0.02;
}

double halfLastDigit(Quantity q) noexcept {
    double half = 0.5;
    for (int i = 0; i < quantityDecimals(q); ++i)
        half /= 10;
    return half;
}

bool isConcentration(Quantity q) noexcept {
    return q == Quantity::Strength || q == Quantity::Sugar || q == Quantity::Brix || q == Quantity::Acid ||
           q == Quantity::SugarAcidRatio || q == Quantity::Density;
}

void takeScenarios(const Spec& spec, const Bindings::Data& data, const Questions& open,
                   Spreads& spreads) noexcept {
    const int serves = std::max(spec.serves, 1);
    const int corners = std::min(open.ranged, kCornerLines);
    const bool wide = open.ranged > kCornerLines;
    const std::uint32_t rangeSets = wide ? 2 : std::uint32_t{1} << corners;
    const int unstatedWays = open.all.amount != 0 ? 2 : 1;
    const int iceWays = open.unknownIce ? 2 : 1;
    for (std::uint32_t ranges = 0; ranges < rangeSets; ++ranges) {
        for (std::uint8_t facts = 0; facts <= kAllFacts; ++facts) {
            if ((facts & ~open.unknownFacts) != 0) continue;
            for (int ways = 0; ways < unstatedWays * iceWays; ++ways) {
                Scenario scenario;
                scenario.factsAtLargest = facts;
                scenario.rangesHigh = wide && ranges == 1 ? ~std::uint32_t{0} : ranges;
                scenario.unstatedLarge = unstatedWays == 2 && ways % 2 == 1;
                scenario.iceLarge = iceWays == 2 && ways / unstatedWays == 1;
                const RawStages raw =
                    rawReadings(pass(spec, data, scenario), serves, data.rules->standardDrinkGrams);
                const bool stated = !scenario.unstatedLarge && !scenario.iceLarge;
                for (std::size_t s = 0; s < kStageCount; ++s)
                    for (std::size_t q = 0; q < kQuantityCount; ++q) {
                        Spread& spread = spreads[s][q];
                        const auto beyond = facts & ~directFacts(static_cast<Quantity>(q));
                        spread.all.take(raw[s][q]);
                        if (beyond == 0) spread.direct.take(raw[s][q]);
                        if (facts == 0 && stated) spread.plain.take(raw[s][q]);
                    }
            }
        }
    }
}

// Concentrations when only all-low and all-high were tried: numerator and volume each at its own end.
void widen(const Spec& spec, const Pass& plain, Spreads& spreads) noexcept {
    for (auto& stage : spreads) {
        const Extent volume = stage[static_cast<std::size_t>(Quantity::Volume)].all;
        if (volume.isEmpty() || !(volume.low > 0)) continue;
        const double factor = volume.high / volume.low;
        for (std::size_t q = 0; q < kQuantityCount; ++q) {
            if (!isConcentration(static_cast<Quantity>(q))) continue;
            // Of sugar and acid neither is held by the volume of the other.
            const double stretch =
                static_cast<Quantity>(q) == Quantity::SugarAcidRatio ? factor * factor : factor;
            for (Extent* extent : {&stage[q].plain, &stage[q].direct, &stage[q].all}) {
                if (extent->isEmpty()) continue;
                extent->low /= stretch;
                extent->high *= stretch;
            }
        }
    }
    // The strength before ice is now wider than what was tried, and with it the water.
    const Spread& strength = spreads[0][static_cast<std::size_t>(Quantity::Strength)];
    for (std::size_t s = 1; s < kStageCount; ++s) {
        Spread& dilution = spreads[s][static_cast<std::size_t>(Quantity::Dilution)];
        if (dilution.plain.isEmpty() || strength.plain.isEmpty()) continue;
        if (plain.waterBasis == WaterBasis::AllIce)
            continue; // the ice is what it is, however strong the drink
        const auto take = [&spec, &plain](Extent& ratio, const Extent& percent) {
            for (const double end : {percent.low, percent.high})
                ratio.take(plain.benchFactor *
                           predictedDilution(spec, quantity::Strength::fromPercentVol(end)));
        };
        take(dilution.plain, strength.plain);
        take(dilution.direct, strength.direct);
        take(dilution.all, strength.all);
    }
}

std::uint64_t linesFor(Quantity q, const OpenLines& open, bool indirectToo) noexcept {
    if (q == Quantity::Cost) return open.price | open.amount;
    if (q == Quantity::PouredVolume) return open.amount;
    const std::uint8_t facts = indirectToo || q == Quantity::Volume ? kAllFacts : directFacts(q);
    std::uint64_t bits = open.amount;
    if ((facts & kStrengthFact) != 0) bits |= open.strength;
    if ((facts & kSugarFact) != 0) bits |= open.sugar;
    if ((facts & kAcidFact) != 0) bits |= open.acid;
    return bits;
}

// What the spread of one reading says about it.
void bound(Reading& reading, Quantity q, const Spread& spread, bool amountsOpen, std::uint64_t directLines,
           std::uint64_t allLines) noexcept {
    const double half = halfLastDigit(q);
    if (spread.plain.isEmpty()) {
        // Nothing to read without the open amounts. With them there may be.
        reading = {};
        reading.bound = spread.all.isEmpty() ? Bound::NotApplicable : Bound::Unknown;
        if (reading.bound == Bound::Unknown) reading.gapLines = allLines;
        return;
    }
    const double share = indirectShare(q) * std::max(std::abs(spread.plain.low), std::abs(spread.plain.high));
    const double moved = std::max(spread.direct.low - spread.all.low, spread.all.high - spread.direct.high);
    const bool indirectIsSmall = moved <= share;
    const Extent& whole = indirectIsSmall ? spread.direct : spread.all;
    const double below = spread.plain.low - whole.low;
    const double above = whole.high - spread.plain.high;
    if (below < half && above < half) {
        const bool ranged = spread.plain.high - spread.plain.low >= half;
        reading.bound = ranged ? Bound::Between : Bound::Exact;
        reading.value = ranged ? spread.plain.low : 0.5 * (spread.plain.low + spread.plain.high);
        reading.upper = ranged ? spread.plain.high : 0;
        if (moved >= half) {
            reading.estimate = true;
            reading.gapLines = allLines;
        }
        return;
    }
    reading.upper = 0;
    reading.gapLines = indirectIsSmall ? directLines : allLines;
    const bool bothWays = below >= half && above >= half;
    if (bothWays && (amountsOpen || q == Quantity::SugarAcidRatio)) {
        reading.value = 0;
        reading.bound = Bound::Unknown;
    } else if (below <= above) {
        reading.value = whole.low;
        reading.bound = Bound::AtLeast;
    } else {
        reading.value = whole.high;
        reading.bound = Bound::AtMost;
    }
}

void boundCost(Reading& reading, const Spread& spread, bool priced, bool counted,
               const OpenLines& open) noexcept {
    const double half = halfLastDigit(Quantity::Cost);
    reading.gapLines = open.price | open.amount;
    if (reading.gapLines != 0) {
        const bool nothingPriced = counted && !priced;
        reading.bound = nothingPriced ? Bound::Unknown : Bound::AtLeast;
        reading.value = nothingPriced ? 0 : spread.plain.low;
        return;
    }
    if (spread.plain.high - spread.plain.low < half) return;
    reading.bound = Bound::Between;
    reading.value = spread.plain.low;
    reading.upper = spread.plain.high;
}

std::uint64_t linesInParts(const Spec& spec) noexcept {
    std::uint64_t bits = 0;
    for (std::size_t i = 0; i < spec.lines.size(); ++i)
        if (spec.lines[i].poured.measure == quantity::Measure::Part)
            bits |= std::uint64_t{1} << std::min<std::size_t>(i, 63);
    return bits;
}

void leavePartsOpen(StageReadings& stage, bool measuredBeside, std::uint64_t parts) noexcept {
    for (std::size_t q = 0; q < kQuantityCount; ++q) {
        Reading& reading = stage.of[q];
        if (isExtensive(static_cast<Quantity>(q))) {
            reading.value = reading.upper = 0;
            reading.bound = Bound::Unknown;
            reading.gapLines |= parts;
        } else if (measuredBeside && reading.bound != Bound::NotApplicable) {
            reading.estimate = true;
        }
    }
}

} // namespace

void applyBounds(const Spec& spec, const Bindings::Data& data, const Pass& plain, const RawStages& raw,
                 Readings& readings) noexcept {
    const Questions& open = plain.questions;
    Spreads spreads;
    const bool onlyPrices =
        open.unknownFacts == 0 && open.ranged == 0 && open.all.amount == 0 && !open.unknownIce;
    if (!onlyPrices) takeScenarios(spec, data, open, spreads);
    if (open.ranged > kCornerLines) widen(spec, plain, spreads);
    for (std::size_t s = 0; s < kStageCount; ++s) {
        const bool served = s == static_cast<std::size_t>(Stage::Served);
        const OpenLines& lines = served ? open.all : open.mixed;
        StageReadings& stage = readings.stages[s];
        for (std::size_t i = 0; i < kQuantityCount; ++i) {
            const auto q = static_cast<Quantity>(i);
            if (q == Quantity::Temperature) continue;
            if (q == Quantity::Dilution && open.unknownIce && s > 0) {
                stage[q] = {};
                continue;
            }
            if (q == Quantity::Cost) {
                Spread cost = spreads[s][i];
                if (onlyPrices) cost.plain.take(raw[s][i]);
                boundCost(stage[q], cost, served ? open.pricedAll : open.pricedMixed,
                          served ? open.countedAll : open.countedMixed, lines);
            } else if (!onlyPrices) {
                bound(stage[q], q, spreads[s][i], lines.amount != 0, linesFor(q, lines, false),
                      linesFor(q, lines, true));
            }
        }
        if (open.partsWithoutTarget) leavePartsOpen(stage, open.measuredBesideParts, linesInParts(spec));
    }
}

} // namespace stillroom::spec
