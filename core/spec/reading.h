#pragma once

#include "core/base/id.h"

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::spec {

// The moments at which a drink is read. Held is a curve over minutes and comes from core/physics later.
enum class Stage : std::uint8_t { Measured, Mixed, Served };
inline constexpr std::size_t kStageCount = 3;

enum class Quantity : std::uint8_t {
    PouredVolume, // ml, the plain sum of what was poured
    Volume,       // ml at 20 °C, contraction and dissolved solids included
    Strength,     // % vol at 20 °C
    Ethanol,      // g
    Sugar,        // g/100 ml
    Brix,         // g/100 g, true
    Acid,         // g/100 ml as citric
    SugarAcidRatio,
    Mass,        // g
    Density,     // kg/m³ at 20 °C
    Dilution,    // ratio: water added by the method over the volume of the mixed lines
    Temperature, // °C
    Cost,        // major units of the book's currency
    EnergyKj,
    EnergyKcal,
    StandardDrinks, // of Readings::standardDrinkGrams
};
inline constexpr std::size_t kQuantityCount = 16;

enum class Bound : std::uint8_t { Exact, AtLeast, AtMost, Between, Unknown, NotApplicable };

// `value` is the lower end for AtLeast and Between, the upper for AtMost; `upper` only for Between.
struct Reading {
    double value = 0;
    double upper = 0;
    Bound bound = Bound::Unknown;
    bool estimate = false;      // outside a formula's range, or from an assumed figure
    std::uint64_t gapLines = 0; // bit i: line i lacks a fact this reading wants; bit 63: line 63 or later
    friend bool operator==(const Reading&, const Reading&) = default;
};

struct StageReadings {
    std::array<Reading, kQuantityCount> of{};
    Reading& operator[](Quantity q) { return of[static_cast<std::size_t>(q)]; }
    const Reading& operator[](Quantity q) const { return of[static_cast<std::size_t>(q)]; }
    friend bool operator==(const StageReadings&, const StageReadings&) = default;
};

// Per serve. For the whole, extensive quantities times `serves`.
struct Readings {
    std::array<StageReadings, kStageCount> stages{};
    double standardDrinkGrams = 10;
    int serves = 1;
    StageReadings& operator[](Stage s) { return stages[static_cast<std::size_t>(s)]; }
    const StageReadings& operator[](Stage s) const { return stages[static_cast<std::size_t>(s)]; }
    friend bool operator==(const Readings&, const Readings&) = default;
};

std::string_view stageId(Stage stage);            // "measured"
std::string_view quantityId(Quantity quantity);   // "sugar_acid_ratio": the keys of `read --json`
std::string_view quantityUnit(Quantity quantity); // "ml", "% vol", "g/100 ml"; "" for ratios
std::string_view boundId(Bound bound);            // "at_least"
int quantityDecimals(Quantity quantity); // decimals shown; half of the last one is what a gap must move
bool isExtensive(Quantity quantity);

// A fact that is missing, in codes; ui and headless make the words.
enum class GapCode : std::uint8_t {
    StrengthUnknown,
    SugarUnknown,
    AcidUnknown,
    DensityUnknown,
    PriceUnknown,
    PriceCurrency, // of a line's ingredient: in `detail`'s currency, and no rate of the day
    PriceUnit,     // bought in a unit that what is poured cannot be turned into
    PriceYield,    // nothing usable comes out of what is bought, or more than was bought
    PriceNegative,
    PriceWrong, // another problem with the purchase: its larder::costProblemId in `detail`
    AmountNotStated,
    MeasureHasNoSize, // "to top"; "1 handful"
    OptionalLeftOut,
    ToTasteLeftOut,
    IngredientUnknown, // nothing in the larder answers to the name
    DilutionUnknown,
    RinseByTheHouse,   // no amount: what the house finds stays in the glass is counted
    SolidShareUnknown, // fruit and the like: how much of it is drunk nobody knows
    GlassUnknown,
    PartTargetMissing,
    FactsContradict, // strength, sugar and density of a line's ingredient cannot all be true
};
std::string_view gapCodeId(GapCode code);

struct Gap {
    GapCode code = GapCode::IngredientUnknown;
    int line = -1;          // index into the spec's lines; -1: the whole spec
    std::string ingredient; // its name
    // Of FactsContradict: how much denser the ingredient is stated than the rest of its facts make it, and
    // the sugar, g per litre, that would account for it; both below zero when it is lighter. 0 and 0: it has
    // no room in a litre.
    double densityOffKgPerM3 = 0;
    double asSugarGPerL = 0;
    // PriceCurrency, PriceWrong: see there; another price: the purchase it lacks, where that is another
    // thing.
    std::string detail = {};
    friend bool operator==(const Gap&, const Gap&) = default;
};

} // namespace stillroom::spec
