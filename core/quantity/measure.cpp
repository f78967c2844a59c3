#include "core/quantity/measure.h"

#include <array>
#include <cassert>
#include <cstddef>

namespace stillroom::quantity {

namespace {

constexpr std::size_t kMeasureCount = static_cast<std::size_t>(Measure::Part) + 1;
using Table = std::array<MeasureInfo, kMeasureCount>;

Rational fraction(std::int64_t numerator, std::int64_t denominator) {
    return *Rational::make(numerator, denominator); // constants below: none has a zero denominator
}

MeasureInfo volume(Measure m, std::string_view id, std::string_view shown, std::string_view plural,
                   Rational microlitres) {
    return {m, id, shown, plural, Dimension::Volume, false, microlitres, std::nullopt};
}

MeasureInfo mass(Measure m, std::string_view id, Rational micrograms) {
    return {m, id, id, id, Dimension::Mass, false, std::nullopt, micrograms};
}

MeasureInfo house(Measure m, std::string_view id, std::string_view plural, Dimension dimension) {
    return {m, id, id, plural, dimension, true, std::nullopt, std::nullopt};
}

MeasureInfo counted(Measure m, std::string_view id, std::string_view plural) {
    return {m, id, id, plural, Dimension::Count, false, std::nullopt, std::nullopt};
}

// US liquid measures: the gallon is 231 cubic inches (NIST Handbook 44, Appendix C) and the inch
// 25.4 mm exactly, hence 3,785,411.784 µl. Imperial: the gallon is 4.546 09 l exactly (UK Weights and
// Measures Act 1985, Schedule 1). The pound is 453.592 37 g exactly and its ounce a sixteenth.
// Metric spoons of 5 and 15 ml and the 250 ml cup are kitchen and labelling practice (from memory:
// 21 CFR 101.9, AS 1325), the Australian tablespoon of 20 ml likewise (from memory: AS 1325).
Table madeTable() {
    using M = Measure;
    const auto usGallonOver = [](std::int64_t parts) { return fraction(3'785'411'784, 1000 * parts); };
    const auto imperialGallonOver = [](std::int64_t parts) { return fraction(4'546'090, parts); };
    const auto kMass = Dimension::Mass;
    const auto kVolume = Dimension::Volume;
    return {{
        volume(M::Ml, "ml", "ml", "ml", 1'000),
        volume(M::Cl, "cl", "cl", "cl", 10'000),
        volume(M::Dl, "dl", "dl", "dl", 100'000),
        volume(M::L, "l", "l", "l", 1'000'000),
        volume(M::FlozUs, "floz_us", "floz", "floz", usGallonOver(128)),
        volume(M::FlozImp, "floz_imp", "imp floz", "imp floz", imperialGallonOver(160)),
        volume(M::TspUs, "tsp", "tsp", "tsp", usGallonOver(768)),
        volume(M::TspMetric, "tsp_metric", "tsp (5 ml)", "tsp (5 ml)", 5'000),
        volume(M::TbspUs, "tbsp", "tbsp", "tbsp", usGallonOver(256)),
        volume(M::TbspMetric, "tbsp_metric", "tbsp (15 ml)", "tbsp (15 ml)", 15'000),
        volume(M::TbspAu, "tbsp_au", "tbsp (20 ml)", "tbsp (20 ml)", 20'000),
        house(M::Dessertspoon, "dessertspoon", "dessertspoons", kVolume),
        volume(M::CupUs, "cup", "cup", "cups", usGallonOver(16)),
        volume(M::CupMetric, "cup_metric", "cup (250 ml)", "cups (250 ml)", 250'000),
        volume(M::GillUs, "gill", "gill", "gills", usGallonOver(32)),
        volume(M::GillImp, "gill_imp", "imp gill", "imp gills", imperialGallonOver(32)),
        volume(M::PintUs, "pint", "pint", "pints", usGallonOver(8)),
        volume(M::PintImp, "pint_imp", "imp pint", "imp pints", imperialGallonOver(8)),
        volume(M::QuartUs, "quart", "quart", "quarts", usGallonOver(4)),
        volume(M::QuartImp, "quart_imp", "imp quart", "imp quarts", imperialGallonOver(4)),
        volume(M::GallonUs, "gallon", "gallon", "gallons", usGallonOver(1)),
        volume(M::GallonImp, "gallon_imp", "imp gallon", "imp gallons", imperialGallonOver(1)),
        house(M::Barspoon, "barspoon", "barspoons", kVolume),
        house(M::Dash, "dash", "dashes", kVolume),
        house(M::Drop, "drop", "drops", kVolume),
        house(M::Dropper, "dropper", "droppers", kVolume),
        house(M::Spray, "spray", "sprays", kVolume),
        house(M::Splash, "splash", "splashes", kVolume),
        house(M::Shot, "shot", "shots", kVolume),
        house(M::Jigger, "jigger", "jiggers", kVolume),
        house(M::Pony, "pony", "ponies", kVolume),
        house(M::Wineglass, "wineglass", "wineglasses", kVolume),
        house(M::Pinch, "pinch", "pinches", kMass),
        house(M::Handful, "handful", "handfuls", kMass),
        house(M::Scoop, "scoop", "scoops", kMass),
        mass(M::Mg, "mg", 1'000),
        mass(M::G, "g", 1'000'000),
        mass(M::Kg, "kg", 1'000'000'000),
        {M::OzMass, "oz_mass", "oz (weight)", "oz (weight)", kMass, false, std::nullopt,
         fraction(453'592'370, 16)},
        mass(M::Lb, "lb", 453'592'370),
        counted(M::Piece, "piece", "pieces"),
        counted(M::Leaf, "leaf", "leaves"),
        counted(M::Sprig, "sprig", "sprigs"),
        counted(M::Slice, "slice", "slices"),
        counted(M::Wedge, "wedge", "wedges"),
        counted(M::Cube, "cube", "cubes"),
        counted(M::Sheet, "sheet", "sheets"),
        counted(M::Bottle, "bottle", "bottles"),
        counted(M::Can, "can", "cans"),
        {M::Part, "part", "part", "parts", Dimension::Part, false, std::nullopt, std::nullopt},
    }};
}

const Table& table() {
    static const Table made = madeTable();
    return made;
}

} // namespace

std::span<const MeasureInfo> measures() {
    return table();
}

const MeasureInfo& measureInfo(Measure measure) {
    const auto index = static_cast<std::size_t>(measure);
    assert(index < kMeasureCount);
    return table()[index < kMeasureCount ? index : 0];
}

std::optional<Measure> measureFromId(std::string_view id) {
    for (const MeasureInfo& info : table())
        if (info.id == id) return info.measure;
    return std::nullopt;
}

} // namespace stillroom::quantity
