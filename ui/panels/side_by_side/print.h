#pragma once

#include "ui/panels/side_by_side/side_table.h"

class QPagedPaintDevice;

namespace stillroom::ui {

// The columns on paper, in light ink, broken between rows; what it comes to, allergens and cautions behind
// them. Returns the number of pages; 0: the device takes no painting.
int printSideBySide(QPagedPaintDevice& device, const SideBySideValues& values, bool onlyDifferences);

} // namespace stillroom::ui
