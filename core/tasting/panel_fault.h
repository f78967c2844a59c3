#pragma once

#include "core/tasting/panel.h"

namespace stillroom::tasting {

// What keeps a panel's JSON from being one, and where: for whoever wrote it by hand.
struct PanelFault {
    std::optional<PanelError> error;   // none: it is not the JSON of a panel at all
    std::optional<std::size_t> taster; // whose serving or answer it is, in the design's order
    std::optional<int> code;           // of the cup
    friend bool operator==(const PanelFault&, const PanelFault&) = default;
};
// nullopt: nothing is wrong with it.
std::optional<PanelFault> panelFault(std::string_view json);
// "the answer of MK names cup 417, which was not before that taster". English.
std::string inWords(const PanelFault& fault, const std::vector<std::string>& tasters);

} // namespace stillroom::tasting
