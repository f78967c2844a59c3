#pragma once

#include "core/spec/reading.h"
#include "core/spec/spec.h"

#include <optional>
#include <string>
#include <vector>

namespace stillroom::balance {

struct Range {
    double low = 0;
    double high = 0;
    bool holds(double value) const { return value >= low && value <= high; }
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
// The style a spec belongs to by technique and by what it holds (egg white, acid, topped); nullptr: none
// fits.
const StyleRegion* styleOf(const spec::Spec& spec, const spec::Readings& readings);
// "Softer than shaken sours usually are: acid 0.73, they run 0.76 to 0.94." Empty when all is inside.
// English.
std::string placementSentence(const StyleRegion& region, const spec::Readings& readings);

} // namespace stillroom::balance
