#pragma once

#include "core/spec/calibration.h"

#include <QString>

namespace stillroom::ui {

// Where the water of a drink comes from: "predicted by the published curve", with "… moved by 3 of this
// bench's own measurements: ×1.08, spread 0.05" where they did. Of a measured one, `how` it was measured.
QString dilutionSourceWords(const spec::DilutionSource& source, const QString& how = {});

// The water in both bases in use, each by its name: "0.42 of the volume before ice (0.30 of the finished
// volume)".
QString dilutionRatioWords(double ratio);

} // namespace stillroom::ui
