#pragma once

#include "core/tasting/circumstances.h"
#include "core/tasting/scales.h"

#include <QString>

#include <vector>

namespace stillroom::ui {

// What the ends of a kind of scale mean: "0 nothing of it … 15 all one can imagine".
QString scaleKindHint(tasting::ScaleKind kind);
QString scaleKindName(tasting::ScaleKind kind); // "fifteen points"
// What one mark says in words: "a bit over", "like slightly"; empty on fifteen points.
QString scoreWord(tasting::ScaleKind kind, int value);
// "sweet 11, honey a bit over": in the order of the scales given.
QString scoresInWords(const tasting::Scores& scores, const std::vector<tasting::ScaleDefinition>& scales);

// "4 min in the glass, the back bar; 112 ml, 108 g, −1.5 °C, refractometer 14.2"; empty: nothing was said.
QString circumstancesInWords(const tasting::Circumstances& circumstances);
QString circumstanceProblem(tasting::CircumstanceError error); // one sentence

} // namespace stillroom::ui
