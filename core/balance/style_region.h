#pragma once

#include "core/spec/reading.h"
#include "core/spec/spec.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stillroom::balance {

struct Range {
    double low = 0;
    double high = 0;
    bool stated = true; // false: the source gives none, and there is nothing to draw or to hold to
    bool holds(double value) const { return value >= low && value <= high; }
    friend bool operator==(const Range&, const Range&) = default;
};

// Where drinks of a style usually sit. resources/handbook/styles.json, from the structure table there.
struct StyleRegion {
    std::string id;   // "shaken_sour"
    std::string name; // "shaken sours"
    Range sugar;      // g/100 ml as served
    Range acid;       // g/100 ml as citric
    Range strength;   // % vol
    Range dilution;   // over the volume before ice
    std::string source;
    bool fromMemory = false; // not read in its source: said wherever it is shown
};

const std::vector<StyleRegion>& styleRegions();
// nullopt: not a list of styles, or not a whole one.
std::optional<std::vector<StyleRegion>> styleRegionsFromJson(std::string_view json);
// By id; nullptr: no such style.
const StyleRegion* styleRegion(std::string_view id);
// The style a spec belongs to by technique and by what it holds; nullptr: none fits. Topped, sparkling and
// hot drinks, built ones with juice, and shaken ones without acid (or whose acid is not known) are in none of
// the published styles.
const StyleRegion* styleOf(const spec::Spec& spec, const spec::Readings& readings);
// "Softer than shaken sours usually are: acid 0.73, they run 0.76 to 0.94." Empty when nothing is surely
// outside: a reading that may still lie inside is not held against a drink. English.
std::string placementSentence(const StyleRegion& region, const spec::Readings& readings);

} // namespace stillroom::balance
