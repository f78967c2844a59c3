#pragma once

#include "core/preparation/measuring.h"

#include <QString>

namespace stillroom::ui {

class Desk;

// Writes what was measured, as one step of the larder's undo. False: it could not be written, the desk has
// told why, and nothing changed.
bool keepMeasured(Desk& desk, const preparation::MeasuredKeep& keep, const QString& what);

} // namespace stillroom::ui
