#pragma once

#include "core/preparation/part_dates.h"
#include "core/preparation/spec_ratio.h"
#include "ui/plots/keeping_ruler.h"
#include "ui/plots/label_drawing.h"
#include "ui/plots/stand_grid.h"
#include "ui/plots/step_bars_geometry.h"
#include "ui/session/draft_session.h"

// A preparation's reading as finished values and words for whoever shows them.
namespace stillroom::ui {

// Bars: the pan, every step, what is usable. The pan has nothing to edit.
StepBarsValues stepBarsOf(const DraftReading& now);
// Which step a bar stands for: the number of steps for the last, -1 for the pan.
int stepOfBar(const DraftReading& now, int bar);
int barOfStep(int step);

StandGridValues standGridOf(const DraftReading& now, const quantity::Currency& currency);
// The bottle that is read: when it was made and what stands on it, as civil dates.
struct BottleDays {
    std::string made;  // empty: nobody noted it
    std::string useBy; // empty: by the keeping time and the parts
    std::vector<preparation::PartDate> parts;
    std::string today;
};
KeepingValues keepingValuesOf(const DraftReading& now, const BottleDays& days);
LabelValues labelValuesOf(const DraftReading& now, const spec::Bindings& bindings, const BottleDays& days);
// "Ember syrup is past its day: use by 24 Nov. Nothing made of it keeps longer." Empty: none is.
QString pastPartsSentence(const spec::Spec& spec, const std::vector<preparation::PartDate>& past,
                          const std::string& today);
// "To stand in for 30 ml of plain 1:1 use 37 ml of this: the same 18.4 g of sugar, 7 ml more to pour."
QString standInSentence(const DraftReading& now);
// Of a juice stretched with acid and water: its acid, beside that of the juice. Empty for anything else.
QString stretchedSentence(const DraftReading& now, const spec::Bindings& bindings);
// "1:1 by weight: 50.0 °Bx. By cup it would be 46.0, with 10 % less sugar in the same pour."
QString ratioSentence(const preparation::SpecRatio& ratio, const preparation::BasisOutcomes& outcomes);
QString ratioText(double sweetParts); // "2:1", "1:1.5"
// "Yield measured, not predicted": for the status line and under the bars.
QString yieldSentence(const DraftReading& now);

} // namespace stillroom::ui
