#pragma once

#include "core/tasting/panel_sheets.h"

#include <string>
#include <vector>

// What stands on paper and on the screen beside the cups. Knows codes and never products.
namespace stillroom::tasting {

struct SheetWords {
    std::string question;
    std::vector<std::string> steps; // how to go about it, in order
    // What each mark means, lowest first, where marks are asked for; empty where one cup is chosen or all are
    // ranked. Only marks that have words of their own.
    struct Anchor {
        int mark = 0;
        std::string words;
        friend bool operator==(const Anchor&, const Anchor&) = default;
    };
    std::vector<Anchor> anchors;
    std::vector<Anchor> likingAnchors; // just about right asks for liking too
    friend bool operator==(const SheetWords&, const SheetWords&) = default;
};
SheetWords inWords(const TasterSheet& sheet);

// For whoever pours: what keeps a session fair and its tasters well. Cautions come last and are always there.
std::vector<std::string> pouringAdvice(const Panel& panel);

// The nine words of the scale of liking (Peryam & Pilgrim 1957), 1 first.
const std::vector<std::string>& likingWords();

} // namespace stillroom::tasting
