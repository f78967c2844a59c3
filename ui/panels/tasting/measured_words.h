#pragma once

#include "core/store/workbook.h"
#include "core/tasting/measured_drink.h"

#include <QString>

#include <memory>

namespace stillroom::ui {

// What a measurement of the revision on the page is held against.
struct MeasuredContext {
    spec::Spec spec;
    spec::Bindings bindings;
    std::optional<double> predicted; // dilution, before this bench's own measurements
    physics::Calibration bench;      // of this technique, so far
    tasting::TemperatureBench temperature;
};
// Throws StoreError.
std::shared_ptr<const MeasuredContext> measuredContext(const store::Workbook& book,
                                                       const history::Revision& revision);

// What was typed says this of the water and the temperature, and whether it counts for the bench. Nothing
// typed: what was measured so far; empty where nothing was.
QString measuredWords(const MeasuredContext& context, const tasting::Circumstances& circumstances);

} // namespace stillroom::ui
