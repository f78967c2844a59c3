#pragma once

#include "core/physics/composition.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::larder {

enum class SourceKind : std::uint8_t { Label, Measured, Handbook, Assumed };

// One number known about an ingredient: its usual value, how far it may stray, and who says so.
struct Fact {
    double typical = 0;
    double low = 0; // equal to typical when the source gives no range
    double high = 0;
    SourceKind sourceKind = SourceKind::Assumed;
    std::string source; // "USDA SR26, NDB 09160", "label", "assumed"
    friend bool operator==(const Fact&, const Fact&) = default;
};

// Shares of the sugar (or acid) by species, by mass, summing to 1. Default: all sucrose, all citric.
struct Shares {
    std::vector<std::pair<physics::Substance, double>> parts;
    friend bool operator==(const Shares&, const Shares&) = default;
};

// Everything known about one kind, bottle or preparation at one time. Immutable once stored; known by the
// hash of its canonical JSON. A missing fact is nullopt: never zero.
struct FactState {
    std::optional<Fact> abvPercent;     // % vol at 20 °C
    std::optional<Fact> sugarGPerL;     // mono- and disaccharides; for solids, see massFraction below
    std::optional<Fact> acidGPerL;      // titratable, as anhydrous citric acid
    std::optional<Fact> densityKgPerM3; // at 20 °C; for solids the density of the poured (bulk) solid
    std::optional<Fact> fatGPerL;
    std::optional<Fact> proteinGPerL;
    std::optional<Fact> carbohydrateGPerL; // other than sugars
    std::optional<Fact> otherSolidsGPerL;
    std::optional<Fact> saltGPerL;
    std::optional<Fact> caffeineMgPerL;
    std::optional<Fact> co2GPerL;
    Shares sugarShares;
    Shares acidShares;
    // A dry good (sugar, salt, spice): the figures above are then g per kg of it, not per litre, and it
    // has no alcohol. It enters a drink dissolved, at its substances' apparent volumes.
    bool dry = false;
    bool soluble = true;     // dry goods only: a cinnamon stick is not
    bool carbonated = false; // added last, never shaken
    // nullopt = not stated: shown as unknown, never as none.
    std::optional<std::vector<std::string>> allergens; // ids of the EU list in resources/handbook/safety.json
    std::vector<std::string> tags;                     // caution triggers, sorted
    std::string group; // "spirit", "liqueur", "juice"…: kinds of safety.json and the shelf

    friend bool operator==(const FactState&, const FactState&) = default;

    // Sorted keys, amounts as strings, no local ids: what the hash is taken of and what a book stores.
    std::string canonicalJson() const;
    std::string hash() const; // SHA-256 of canonicalJson(), hex
    static std::optional<FactState> fromCanonicalJson(std::string_view json);
};

} // namespace stillroom::larder
