#pragma once

#include "core/spec/more_readings.h"

#include <QString>

namespace stillroom::ui {

QString moreName(spec::More more);               // "Freezing begins"
QString moreNoteWords(spec::More more);          // what to know before using it; may be empty
QString coldStateName(physics::ColdState state); // "slush"

} // namespace stillroom::ui
