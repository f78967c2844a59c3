#pragma once

#include "core/quantity/rational.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace stillroom::quantity {

// How an amount was measured. The ids (`measureInfo(m).id`) are those of the reading corpus and enter
// files; fluid ounce and mass ounce are different measures and never share a symbol.
enum class Measure : std::uint8_t {
    Ml,
    Cl,
    Dl,
    L,
    FlozUs,
    FlozImp,
    TspUs,
    TspMetric,
    TbspUs,
    TbspMetric,
    TbspAu,
    Dessertspoon,
    CupUs,
    CupMetric,
    GillUs,
    GillImp,
    PintUs,
    PintImp,
    QuartUs,
    QuartImp,
    GallonUs,
    GallonImp,
    Barspoon,
    Dash,
    Drop,
    Dropper,
    Spray,
    Splash,
    Shot,
    Jigger,
    Pony,
    Wineglass, // house measures, volume
    Pinch,
    Handful,
    Scoop, // house measures, mass
    Mg,
    G,
    Kg,
    OzMass,
    Lb,
    Piece,
    Leaf,
    Sprig,
    Slice,
    Wedge,
    Cube,
    Sheet,
    Bottle,
    Can,
    Part,
};

enum class Dimension : std::uint8_t { Volume, Mass, Count, Part };

struct MeasureInfo {
    Measure measure;
    std::string_view id;     // "floz_us"; stable, enters files
    std::string_view shown;  // "floz"; what a person reads
    std::string_view plural; // "dashes"
    Dimension dimension;
    bool house; // its size is a setting of the workbook
    std::optional<Rational>
        exactMicrolitres; // exact by definition, in µl, for volumes that are not house measures
    std::optional<Rational> exactMicrograms; // likewise for masses
};

std::span<const MeasureInfo> measures();
const MeasureInfo& measureInfo(Measure measure);
// By id. "tsp", "tbsp", "cup", "gill", "pint", "quart", "gallon" are the US ones; the others carry
// their country: "tbsp_au", "pint_imp", "cup_metric".
std::optional<Measure> measureFromId(std::string_view id);

} // namespace stillroom::quantity
