#include "core/spec/stage_shares.h"

namespace stillroom::spec {

namespace {

// Apparent specific volume of sucrose at 20 °C and 10 g/100 g: CRC Handbook of Chemistry and Physics, 102nd
// ed., as in core/physics/solute_volumes.h. At 65 g/100 g it is 2 % more: not seen in a column.
constexpr double kSucroseMlPerG = 0.6168;

bool isNumber(const Reading& reading) {
    return reading.bound != Bound::Unknown && reading.bound != Bound::NotApplicable;
}

} // namespace

StageShares stageShares(const StageReadings& stage) {
    StageShares shares;
    const Reading& volume = stage[Quantity::Volume];
    if (!isNumber(volume)) return shares;
    shares.totalMl = volume.value;
    const Reading& strength = stage[Quantity::Strength];
    if (isNumber(strength)) shares.alcoholMl = volume.value * strength.value / 100;
    const Reading& sugar = stage[Quantity::Sugar];
    if (isNumber(sugar)) shares.sugarMl = volume.value * sugar.value / 100 * kSucroseMlPerG;
    shares.sugarAtLeast = sugar.bound == Bound::AtLeast;
    return shares;
}

} // namespace stillroom::spec
