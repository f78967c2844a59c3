#pragma once

#include "core/physics/freezing.h"
#include "core/spec/evaluate.h"

#include <array>
#include <optional>
#include <string_view>
#include <vector>

// What else can be read off a drink at a stage, on demand: nothing here is in the fast evaluation. Open
// questions become bounds as in temperatures(): ranges at both ends, missing facts at zero and at their
// largest, an open amount Unknown.
namespace stillroom::spec {

enum class More : std::uint8_t {
    FreezingOnset, // °C
    Ph,            // at 25 °C: between that of the acids alone and that of a juice well buffered
    Sweetness,     // g/100 ml, as sucrose; with published factors
    SweetnessLow,  // with the lowest of them
    SweetnessHigh, // and the highest
    // At most: nothing lost in pouring, shaking or blending. Of a carbonated batch what dissolves at the
    // pressure and temperature its method states ("2.4 bar at 4 °C"), else Unknown.
    Co2GPerL,
    Co2Volumes,      // the same in volumes of gas
    WaterActivity,   // at 25 °C; never the ground of a safety decision
    Caffeine,        // mg a serve, at least: lines that do not state any bring none
    ProofUs,         // 27 CFR 30.11
    ProofUk,         // Sikes, from memory
    Contraction,     // ml a serve: parts measured apart less the drink
    RelativeDensity, // 20/20 °C
    RefractiveIndex, // of sugar in water; not applicable from 0.5 % vol on
    Baume,           // heavier than water
};
inline constexpr std::size_t kMoreCount = 15;

struct MoreStage {
    std::array<Reading, kMoreCount> of{};
    Reading& operator[](More m) { return of[static_cast<std::size_t>(m)]; }
    const Reading& operator[](More m) const { return of[static_cast<std::size_t>(m)]; }
};

struct MoreReadings {
    std::array<MoreStage, kStageCount> stages{};
    const MoreStage& operator[](Stage s) const { return stages[static_cast<std::size_t>(s)]; }
};

MoreReadings moreReadings(const Spec& spec, const Bindings& bindings);
MoreStage moreReadings(const Spec& spec, const Bindings& bindings, Stage stage);

std::string_view moreId(More m); // "freezing_onset"
std::string_view moreUnit(More m);
int moreDecimals(More m);
std::string_view moreSource(More m); // formula and source, as the working names it
// What to say beside it, as a code: "juices_are_buffered", "upper_bound", "estimate_only". May be empty.
std::string_view moreNote(More m);

// How the whole spec as made stands in a freezer. nullopt outside -45…+40 °C, without water, or with a line
// of unknown amount or strength.
std::optional<physics::InFreezer> inFreezer(const Spec& spec, const Bindings& bindings, Stage stage,
                                            quantity::Temperature t);
// The strength at which it would just begin to freeze there, by taking water out or in. nullopt as above, and
// without ethanol or at 0 °C and above.
std::optional<quantity::Strength> strengthToStayLiquid(const Spec& spec, const Bindings& bindings,
                                                       Stage stage, quantity::Temperature t);
std::string_view coldStateId(physics::ColdState state); // "liquid", "slush", "solid": words without a source

// Per serve, by the list of larder/servings.h: those with a single figure.
struct StandardDrinks {
    std::string_view code; // "AU"
    std::string_view name; // "Australia"
    std::string_view called;
    double grams = 0;
    Reading count;
};
std::vector<StandardDrinks> standardDrinksByCountry(const Readings& readings);

// All that is shown together: the readings, how each stage stands in a freezer, the countries' drinks.
struct FurtherReadings {
    struct Cold {
        std::optional<physics::InFreezer> state;       // see inFreezer
        std::optional<quantity::Strength> staysLiquid; // see strengthToStayLiquid
        bool atMost = false;                           // sugar or acid is missing: more of it freezes less
    };
    MoreReadings more;
    quantity::Temperature freezer;
    std::array<Cold, kStageCount> cold;
    std::vector<StandardDrinks> countries;
};
inline constexpr quantity::Temperature kUsualFreezer = quantity::Temperature::fromCelsius(-18);
FurtherReadings furtherReadings(const Spec& spec, const Bindings& bindings, const Readings& readings,
                                quantity::Temperature freezer = kUsualFreezer);

} // namespace stillroom::spec
