#pragma once

#include "core/quantity/volume.h"

#include <string>
#include <string_view>
#include <vector>

namespace stillroom::physics {

// A point of a glass's inner wall, in millimetres; straight between points.
struct ProfilePoint {
    double heightMm = 0; // above the lowest point of the bowl
    double radiusMm = 0;
    friend bool operator==(const ProfilePoint&, const ProfilePoint&) = default;
};

enum class GlassFoot : std::uint8_t { Flat, Stem, Handle };

// A glass as a stack of cone frusta: what it holds up to any height is exact.
struct GlassProfile {
    std::string id;
    std::string name;
    std::vector<std::string> aliases;
    GlassFoot foot = GlassFoot::Flat;
    double stemMm = 0;                    // how far the bowl stands above the table
    std::vector<ProfilePoint> points;     // bottom up, heights rising
    quantity::Volume serveLow, serveHigh; // what such a glass is usually poured
    std::string source;

    double rimHeightMm() const;
    quantity::Volume brim() const;
    quantity::Volume volumeTo(double heightMm) const; // clamped to bottom and rim
    double heightOf(quantity::Volume volume) const;   // clamped likewise
    double radiusAt(double heightMm) const;           // inner; 0 outside
};

// The built-in shapes, resources/handbook/glasses.json.
const std::vector<GlassProfile>& glassProfiles();
const GlassProfile* glassProfile(std::string_view id); // nullptr when there is none
// The shape a written glass names ("low tumbler, over one 45 mm cube"): the alias with most words found
// in it, the first one where two are as long. nullptr when no alias is in the text.
const GlassProfile* glassProfileFor(std::string_view written);

// Room that ice takes below the surface of a drink: floating ice displaces its own mass of liquid, so a
// drink over ice stands as high as drink and displaced volume together. `densityGPerMl` of the liquid.
quantity::Volume iceDisplacement(double iceGrams, double densityGPerMl);

} // namespace stillroom::physics
