#pragma once

#include "core/larder/facts.h"
#include "core/physics/composition.h"

#include <array>
#include <cstdint>

namespace stillroom::spec {

// What evaluation adds up: everything that grows with the amount of a line. A volume follows from these by
// the mixture model of core/physics; nothing else of a composition is needed for a reading.
struct Totals {
    double ethanolG = 0;
    double waterG = 0;
    double sugarG = 0;
    double soluteMl = 0; // apparent volume of what is neither ethanol, water nor sugar
    double acidG = 0;    // titratable, as anhydrous citric acid
    double massG = 0;
    double kj = 0;
    double kcal = 0;

    void addScaled(const Totals& other, double factor) noexcept {
        ethanolG += factor * other.ethanolG;
        waterG += factor * other.waterG;
        sugarG += factor * other.sugarG;
        soluteMl += factor * other.soluteMl;
        acidG += factor * other.acidG;
        massG += factor * other.massG;
        kj += factor * other.kj;
        kcal += factor * other.kcal;
    }
};

Totals totalsOf(const physics::Composition& composition) noexcept;
// The terms that volumeMl adds, for showing the working.
struct VolumeOfTotals {
    double soluteMl = 0, ethanolWaterMl = 0, sugarMl = 0;
    double ethanolShare = 0;   // mass fraction in ethanol + water
    double densityKgPerM3 = 0; // of those two; 0 without them
};
VolumeOfTotals volumeTerms(const Totals& totals) noexcept;
// ml at 20 °C: the sums of physics::volumeAt20 over totals.
double volumeMl(const Totals& totals) noexcept;

// Facts that a reading may lack, as bits.
enum FactBit : std::uint8_t { kStrengthFact = 1, kSugarFact = 2, kAcidFact = 4 };
inline constexpr std::uint8_t kAllFacts = 7;

// The most that a fact nobody stated may plausibly be. They decide whether a missing fact can be seen in a
// reading, and nothing else.
inline constexpr double kLargestStrengthPercent = 100;
inline constexpr double kLargestSugarGPerL = 900; // a saturated syrup holds 890 at 20 °C (sucrose-water)
inline constexpr double kLargestAcidGPerL = 100;

// An ingredient's facts as masses per unit: per ml at 20 °C of a liquid, per gram of a dry good.
struct PreparedFacts {
    physics::Composition perUnit;     // unknown facts left out
    std::array<Totals, 8> totals{};   // by the set of unknown facts taken at their largest; [0]: left out
    std::uint8_t unknown = kAllFacts; // of FactBit
    bool dry = false;
    bool soluble = true;
    bool flavouring = false; // a dry good that does not dissolve and is not drunk by the spoon
    // Facts that a label or a measurement states and that cannot all be true, in kg/m³ and g/l; nullopt:
    // none.
    std::optional<std::array<double, 2>> contradiction;
    bool assumed = false;      // facts that cannot be true together were made to fit
    bool densityKnown = false; // stated, or worked out from any of the other facts
    bool plainWater = false;   // from the tap: a price nobody stated is below half a cent
    double bulkGPerMl = 0;     // of a dry good as spooned; 0: unknown
    double densityGPerMl = 1;  // of a liquid; water's where nothing is known
    double dissolvedMl = 0;    // of a gram of a dry good: what it adds to what is poured
};

// A strength, solutes and a density over-determine a liquid: by how much those of a label or a measurement
// miss each other. nullopt when they agree within 0.3 %, as well as the model is known (physics/mixture.h),
// when the three are not all stated, or when the density is the handbook's own typical one.
struct Contradiction {
    double statedKgPerM3 = 0;
    double computedKgPerM3 = 0; // of strength and solutes; 0 when they do not fit in a litre
    double asSugarGPerL = 0;    // the sugar more (or less) with which they would agree
    double offKgPerM3() const { return computedKgPerM3 > 0 ? statedKgPerM3 - computedKgPerM3 : 0; }
};
std::optional<Contradiction> contradictionIn(const larder::FactState& facts);

PreparedFacts prepare(const larder::FactState& facts);
const PreparedFacts& nothingKnown(); // a liquid of which only the amount is known

} // namespace stillroom::spec
