#pragma once

#include "ui/plots/trail_geometry.h"

class QPainter;

namespace stillroom::ui {

// What stands at one place of the trail: the mark with everything said of it, or a folded run.
void paintTrailItem(QPainter& painter, const TrailItem& item, const TrailValues& values,
                    const TrailGeometry& geometry, const Look& look);

} // namespace stillroom::ui
