#pragma once

#include "core/preparation/bringing.h"

#include <QString>

namespace stillroom::ui {

// Why nothing can be brought there, as a sentence that says what to do.
QString bringProblemSentence(preparation::BringProblem problem);
QString acidName(physics::Substance acid); // "citric acid"
// "12.4 g citric acid"
QString doseText(const preparation::DoseLine& dose);
// "Add 32.8 g citric acid, powder and 20.6 g malic acid, powder", "Boil off 200 g of water".
QString broughtHeadline(const preparation::Brought& brought);
// Volumes of a batch: "125 ml", "1.25 l".
QString batchVolume(quantity::Volume volume);

} // namespace stillroom::ui
