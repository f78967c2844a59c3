#pragma once

#include "core/larder/larder.h"

#include <QString>

namespace stillroom::ui {

// "Measured wins: drinks count the lot in use, made or bought 22 Nov: sugar 632 g/l (refractometer,
// strained)." Empty: no lot is in use, or nothing of it was measured.
QString measuredLotSentence(const larder::Larder& larder, base::IngredientId id, const std::string& today);

} // namespace stillroom::ui
