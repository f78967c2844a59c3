// What a measure word comes to once it is read: which sort of measure it is, and whose.
#include "core/exchange/measure_words.h"

namespace stillroom::exchange {

using quantity::Measure;
using W = UnitWord;

bool isContainer(UnitWord word) {
    return word == W::Bottle || word == W::Can;
}

bool isCounted(UnitWord word) {
    switch (word) {
    case W::Dash:
    case W::Drop:
    case W::Dropper:
    case W::Spray:
    case W::Splash:
    case W::Piece:
    case W::Leaf:
    case W::Slice:
    case W::Wedge:
    case W::Sprig:
    case W::Cube:
    case W::Sheet:
    case W::Pinch:
    case W::Handful:
    case W::Scoop:
    case W::Shot:
    case W::Bottle:
    case W::Can:
        return true;
    default:
        return false;
    }
}

bool isVolume(UnitWord word) {
    switch (word) {
    case W::Ml:
    case W::Cl:
    case W::Dl:
    case W::L:
    case W::Ounce:
    case W::FluidOunce:
    case W::Tsp:
    case W::Tbsp:
    case W::TspMetric:
    case W::TbspMetric:
    case W::Cup:
    case W::CupMetric:
    case W::Pint:
    case W::Quart:
    case W::Gallon:
    case W::Gill:
        return true;
    default:
        return false;
    }
}

bool isStrong(UnitWord word) {
    switch (word) {
    case W::Can:
    case W::Piece:
    case W::Shot:
    case W::Unsized:
    case W::Part:
        return false;
    default:
        return true;
    }
}

std::string_view unitId(Measure measure) {
    switch (measure) {
    case Measure::TspMetric:
        return "tsp";
    case Measure::TbspMetric:
    case Measure::TbspAu:
        return "tbsp";
    case Measure::CupMetric:
        return "cup";
    case Measure::GillImp:
        return "gill";
    case Measure::PintImp:
        return "pint";
    case Measure::QuartImp:
        return "quart";
    case Measure::GallonImp:
        return "gallon";
    default:
        return quantity::measureInfo(measure).id;
    }
}

std::optional<Measure> measureOf(const UnitRead& unit, bool solid, const ReadOptions& options) {
    const bool british = options.imperial || options.region == "UK";
    const bool imperial =
        unit.system == UnitSystem::Imperial || (unit.system == UnitSystem::Unsaid && british);
    const bool metric =
        unit.system == UnitSystem::Metric ||
        (unit.system != UnitSystem::Us && (british || options.region == "AU" || options.region == "metric"));
    const bool australian = unit.system == UnitSystem::Unsaid && options.region == "AU";
    switch (unit.word) {
    case W::Ml:
        return Measure::Ml;
    case W::Cl:
        return Measure::Cl;
    case W::Dl:
        return Measure::Dl;
    case W::L:
        return Measure::L;
    case W::Ounce:
        // a country named with the ounce says that it is poured
        if (solid && unit.system == UnitSystem::Unsaid) return Measure::OzMass;
        return imperial ? Measure::FlozImp : Measure::FlozUs;
    case W::FluidOunce:
        return imperial ? Measure::FlozImp : Measure::FlozUs;
    case W::Tsp:
        return metric ? Measure::TspMetric : Measure::TspUs;
    case W::Tbsp:
        if (australian) return Measure::TbspAu;
        return metric ? Measure::TbspMetric : Measure::TbspUs;
    case W::TspMetric:
        return Measure::TspMetric;
    case W::TbspMetric:
        return Measure::TbspMetric;
    case W::Dessertspoon:
        return Measure::Dessertspoon;
    case W::Barspoon:
        return Measure::Barspoon;
    case W::Dash:
        return Measure::Dash;
    case W::Drop:
        return Measure::Drop;
    case W::Dropper:
        return Measure::Dropper;
    case W::Spray:
        return Measure::Spray;
    case W::Splash:
        return Measure::Splash;
    case W::Part:
        return Measure::Part;
    case W::Piece:
        return Measure::Piece;
    case W::Leaf:
        return Measure::Leaf;
    case W::Slice:
        return Measure::Slice;
    case W::Wedge:
        return Measure::Wedge;
    case W::Sprig:
        return Measure::Sprig;
    case W::Cube:
        return Measure::Cube;
    case W::Sheet:
        return Measure::Sheet;
    case W::Pinch:
        return Measure::Pinch;
    case W::Handful:
        return Measure::Handful;
    case W::Scoop:
        return Measure::Scoop;
    case W::Shot:
        return Measure::Shot;
    case W::Bottle:
        return Measure::Bottle;
    case W::Can:
        return Measure::Can;
    case W::Cup:
        return metric ? Measure::CupMetric : Measure::CupUs;
    case W::CupMetric:
        return Measure::CupMetric;
    case W::Pint:
        return imperial ? Measure::PintImp : Measure::PintUs;
    case W::Quart:
        return imperial ? Measure::QuartImp : Measure::QuartUs;
    case W::Gallon:
        return imperial ? Measure::GallonImp : Measure::GallonUs;
    case W::Gill:
        return imperial ? Measure::GillImp : Measure::GillUs;
    case W::Jigger:
        return Measure::Jigger;
    case W::Pony:
        return Measure::Pony;
    case W::Wineglass:
        return Measure::Wineglass;
    case W::Mg:
        return Measure::Mg;
    case W::G:
        return Measure::G;
    case W::Kg:
        return Measure::Kg;
    case W::Lb:
        return Measure::Lb;
    case W::Unsized:
        return std::nullopt;
    }
    return std::nullopt;
}

} // namespace stillroom::exchange
