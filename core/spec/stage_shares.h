#pragma once

#include "core/spec/reading.h"

#include <optional>

namespace stillroom::spec {

// A stage's volume as alcohol, sugar and the rest, which is nearly all water: for drawing it as a column.
struct StageShares {
    std::optional<double> totalMl; // none: not known
    double alcoholMl = 0;          // of pure alcohol, at 20 °C
    double sugarMl = 0;            // what the dissolved sugar takes up
    bool sugarAtLeast = false;
};

StageShares stageShares(const StageReadings& stage);

} // namespace stillroom::spec
