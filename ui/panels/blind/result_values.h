#pragma once

#include "core/tasting/panel_texts.h"
#include "ui/plots/chance_plot.h"

#include <optional>

namespace stillroom::ui {

// A closed session's numbers, made ready for its drawing; nullopt where it has no such drawing.
std::optional<ChanceValues> chanceValues(const tasting::PanelResult& result,
                                         const tasting::PanelNames& names);
std::optional<ProductScaleValues> productScaleValues(const tasting::PanelResult& result,
                                                     const tasting::PanelNames& names);

} // namespace stillroom::ui
