#pragma once

#include "core/quantity/measure.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace stillroom::quantity {

// A size this house uses where no law fixes one, and how far others stray from it.
struct HouseSize {
    double typical = 0; // ml or g, as the key says
    double low = 0;
    double high = 0;
    std::string source; // "common practice, no source", "USDA SR26, NDB 01124", "this house"
    friend bool operator==(const HouseSize&, const HouseSize&) = default;
};

// The sizes of dash, barspoon, drop, egg white, sugar cube, juice per fruit… Settings of a workbook,
// recorded with every revision. Defaults: resources/handbook/measures.json.
struct HouseMeasures {
    std::map<Measure, HouseSize> volumesMl; // dash 0.92, barspoon 5, …
    std::map<Measure, HouseSize> massesG;   // pinch 0.36, scoop 65
    // What one counted thing gives, by folded name: "egg white" -> ml; "lime juice" -> ml per fruit;
    // and grams: "sugar cube" -> g. Keys are base::fold'ed.
    std::map<std::string, HouseSize, std::less<>> countMl;
    std::map<std::string, HouseSize, std::less<>> countG;
    HouseSize rinseRetainedMl; // what stays in a glass rinsed with an unstated amount

    friend bool operator==(const HouseMeasures&, const HouseMeasures&) = default;
    static const HouseMeasures& defaults();

    // The size in ml of one `measure`; nullopt when it is not a volume.
    std::optional<double> ml(Measure measure) const;
    std::optional<double> grams(Measure measure) const;

    std::string toJsonText() const; // canonical: sorted keys, numbers as decimal strings
    static std::optional<HouseMeasures> fromJsonText(std::string_view json);
};

} // namespace stillroom::quantity
