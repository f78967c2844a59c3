#pragma once

#include "core/base/id.h"
#include "core/quantity/amount.h"
#include "core/quantity/house_measures.h"
#include "core/quantity/measure.h"
#include "core/quantity/rational.h"
#include "core/spec/step.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace stillroom::spec {

// Where a line enters the drink.
enum class Role : std::uint8_t { Mixed, Topped, Floated, Rinse, Garnish };

enum class Qualifier : std::uint8_t { None, About, Scant, Heaping, Level, UpTo, Small, Large };

// An amount with its measure, as written: 3/4 floz_us; "2 × 25 ml" is 25 ml with multiplier 2.
struct Measured {
    quantity::Amount amount;
    std::optional<quantity::Measure> measure; // none: a bare number ("2 limes" reads as Piece)
    quantity::Rational multiplier = 1;
    friend bool operator==(const Measured&, const Measured&) = default;
};

// "or 20 ml aquafaba"
struct Alternative {
    Measured measured;
    std::string name;
    std::optional<base::IngredientId> ingredient;
    friend bool operator==(const Alternative&, const Alternative&) = default;
};

struct Line {
    std::string written; // verbatim
    std::string name;    // what it names, as read: "London dry gin"
    std::optional<base::IngredientId>
        ingredient; // what the larder took it for; none: a new kind, unknown facts
    Measured poured;
    std::optional<Measured> retained; // what stays in the drink, when not all of it (rinse, strained solid)
    Qualifier qualifier = Qualifier::None;
    bool juiceOf = false;  // "juice of half a lime": the count is of fruit, the drink gets juice
    bool optional = false; // out of the sums, named beside them
    bool toTaste = false;
    std::vector<Alternative> alternatives;
    Role role = Role::Mixed;
    std::string note;                   // everything else worth keeping
    std::optional<double> temperatureC; // as poured; none: by its words, or assumed (temperature.h)
    // What one of a measure without a legal size holds, where the line says so: "1 can (12 oz)". Instead of
    // the house's size; ignored beside a measure that has a size by law.
    std::optional<Measured> sizeStated;
    // Of a preparation: the step before which it goes in, counted from 0. Its number of steps or more: after
    // all.
    int beforeStep = 0;
    std::optional<double> abvStated; // % vol in the line's own words: instead of the kind's, not a bottle's
    friend bool operator==(const Line&, const Line&) = default;
};

enum class Technique : std::uint8_t {
    None,
    Build,
    Stir,
    Shake,
    Throw,
    Blend,
    WaterBath,
    Hot,
    Whip,
    Clarify,
    Carbonate
};

enum class DilutionOrigin : std::uint8_t { Predicted, Typed, Measured };

// Typed or measured water, always over the 20 °C volume of the mixed lines before it.
struct DilutionEntry {
    double ratio = 0;
    DilutionOrigin origin = DilutionOrigin::Typed;
    std::string how; // "weighed 121.4 g, then 176.0 g"
    friend bool operator==(const DilutionEntry&, const DilutionEntry&) = default;
};

// How the water of a method is predicted: by the published curves, or by the heat balance with ice.
enum class DilutionModel : std::uint8_t { Curve, Balance };

struct Method {
    std::string text; // the writer's words, verbatim
    Technique technique = Technique::None;
    bool dryShake = false; // shaken without ice first
    bool strained = true;
    std::optional<quantity::Rational> seconds;
    std::optional<DilutionEntry> dilution; // none: predicted from the technique
    std::string ice;                       // "120 g of wet cubes"
    int drinksPerShake = 1;                // changes the ice, not the recipe
    DilutionModel dilutionModel = DilutionModel::Curve;
    std::optional<double> iceGrams;    // of one shake, with the water on it; none: by `ice`, or enough
    std::optional<double> iceC;        // at most 0; none: 0 assumed
    std::optional<double> iceWetShare; // 0…1 of it is water already; none: dry
    std::string vessel;                // id in vessels.h; empty: takes no heat
    std::optional<double> vesselGrams; // weighed; none: the table's assumed mass
    std::optional<double> startC;      // of lines without their own; none: 20 assumed
    friend bool operator==(const Method&, const Method&) = default;
};

// What is needed to make a drink. A plain value: two specs are the same drink when they are equal.
struct Spec {
    std::vector<Line> lines;
    Method method;
    std::string glass;                  // as written: "low tumbler, over one 45 mm cube"
    std::string glassProfile;           // id in resources/handbook/glasses.json; empty: unknown profile
    std::string garnish;                // free text beside garnish lines
    int serves = 1;                     // readings are per serve, and whole
    std::optional<double> partTargetMl; // what one serve of a spec in parts shall measure before ice
    std::optional<double> yieldMl;      // of a preparation: what was measured after straining, at 20 °C
    std::optional<double> iceInGlassG;  // of one serve; none: by the words of `glass`
    std::optional<double> glassGrams;   // the glass on the scale; none: takes no heat
    bool preheatedGlass = false;
    std::vector<Step> steps; // of a preparation: what is done to it, in order
    friend bool operator==(const Spec&, const Spec&) = default;

    // Sorted keys, amounts as exact text: what is stored, hashed and exchanged.
    std::string canonicalJson() const;
    static std::optional<Spec> fromCanonicalJson(std::string_view json);
};

std::string_view roleId(Role role); // "mixed", "topped", "floated", "rinse", "garnish"
std::optional<Role> roleFromId(std::string_view id);
std::string_view techniqueId(Technique technique);
std::optional<Technique> techniqueFromId(std::string_view id);
std::string_view dilutionModelId(DilutionModel model); // "curve", "balance"
std::optional<DilutionModel> dilutionModelFromId(std::string_view id);
std::string_view qualifierId(Qualifier qualifier);
std::optional<Qualifier> qualifierFromId(std::string_view id);

} // namespace stillroom::spec
