#pragma once

#include "core/physics/composition.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace stillroom::larder {

enum class SourceKind : std::uint8_t { Label, Measured, Handbook, Assumed };

std::string_view sourceKindId(SourceKind kind); // "label"; stable, enters files
std::optional<SourceKind> sourceKindFromId(std::string_view id);
std::string_view substanceId(physics::Substance substance); // "sucrose"; stable, enters files
std::optional<physics::Substance> substanceFromId(std::string_view id);

// One number known about an ingredient: its usual value, how far it may stray, and who says so.
struct Fact {
    double typical = 0;
    double low = 0; // equal to typical when the source gives no range
    double high = 0;
    SourceKind sourceKind = SourceKind::Assumed;
    std::string source;  // "USDA SR26, NDB 09160", "label", "assumed"
    std::string on = {}; // civil date the figure was read or measured; empty: not said
    // A figure without a range, as a label states it.
    static Fact single(double value, SourceKind kind, std::string source) {
        return {value, value, value, kind, std::move(source), {}};
    }
    friend bool operator==(const Fact&, const Fact&) = default;
};

// Shares of the sugar (or acid) by species, by mass, summing to 1. Empty: all sucrose, all citric.
struct Shares {
    std::vector<std::pair<physics::Substance, double>> parts;
    friend bool operator==(const Shares&, const Shares&) = default;
};

// A tag of a fact state whose `allergens` are some but perhaps not all: an ingredient of a preparation did
// not state its own. Reads as unknown beside the known ones.
inline constexpr auto kAllergensIncomplete = "allergens_incomplete";

// Everything known about one kind, bottle or preparation at one time. Immutable once stored; known by the
// hash of its canonical JSON. A missing fact is nullopt: never zero.
struct FactState {
    std::optional<Fact> abvPercent;     // % vol at 20 °C
    std::optional<Fact> sugarGPerL;     // mono- and disaccharides
    std::optional<Fact> acidGPerL;      // titratable, as anhydrous citric acid
    std::optional<Fact> densityKgPerM3; // at 20 °C; for solids the density of the poured (bulk) solid
    std::optional<Fact> fatGPerL;
    std::optional<Fact> proteinGPerL;
    std::optional<Fact> carbohydrateGPerL; // other than sugars and acids
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
    // Whatever is absent or has its default is left out, so that a fact added by a later program leaves the
    // hashes of earlier states as they are.
    std::string canonicalJson() const;
    std::string hash() const; // SHA-256 of canonicalJson(), hex
    // The state again, exactly. nullopt: not JSON, a key this program does not know, a number that is not a
    // finite decimal string, low above typical or typical above high.
    static std::optional<FactState> fromCanonicalJson(std::string_view json);
};

// The facts of a state by their key in files ("abv_percent"), in the order people read them.
struct FactKey {
    std::string_view id;
    std::optional<Fact> FactState::*member;
};
const std::vector<FactKey>& factKeys();

} // namespace stillroom::larder
