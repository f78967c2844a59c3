#pragma once

#include "core/tasting/panel_plan.h"
#include "core/tasting/panel_result.h"

#include <string>
#include <vector>

namespace stillroom::tasting {

// The verdict as plain English sentences, the most important first, each with the number behind it.
// `names` are the products' names in their order; a missing one is called by its letter.
std::vector<std::string> inWords(const PanelResult& result, const std::vector<std::string>& names);

// What the session can show at best, said before pouring.
std::vector<std::string> inWords(const PanelPlan& plan);

} // namespace stillroom::tasting
