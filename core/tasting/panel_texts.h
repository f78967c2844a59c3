#pragma once

#include "core/tasting/panel_report.h"
#include "core/tasting/panel_sheets.h"

#include <string>
#include <vector>

// A session as plain text, for the clipboard, for mail and for those who read by ear.
namespace stillroom::tasting {

std::string_view kindName(PanelKind kind);     // "Triangle"
std::string_view kindQuestion(PanelKind kind); // "Three cups, two alike: which is the odd one?"

struct PanelNames {
    std::string session;
    std::vector<std::string> products;      // in the design's order
    std::vector<std::string> tasters;       // likewise
    std::vector<std::string> cautions = {}; // for every sheet and the key: sheet_safety.h
};

// All sheets, one after the other. Codes, and never a product; the session's name stays out of it too, for it
// may name what is compared.
std::string sheetsText(const Panel& panel, const PanelNames& names);
// For the pourer's eyes alone.
std::string keyText(const Panel& panel, const PanelNames& names);
// What one taster said: "chose 417 (Ox Skerry r4), right", "no answer".
std::string answerText(PanelKind kind, const OpenedAnswer& answer, const PanelNames& names);
// Verdict, sentences and every answer. Empty until the panel is closed.
std::string resultText(const Panel& panel, const PanelNames& names);

} // namespace stillroom::tasting
