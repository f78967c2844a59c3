#pragma once

#include "core/spec/evaluate.h"
#include "core/tasting/panel.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

// What everyone who tastes has to know before the first cup, and nothing by which a cup could be told: what
// is in any of the drinks, taken together, and the most alcohol that any one of the tasters is given.
namespace stillroom::tasting {

// The upper end of what pouringAdvice() says goes into a cup.
inline constexpr double kFullestCupMl = 20;

struct SampleSafety {
    std::vector<std::string> allergens; // of the EU list
    bool complete = false;              // everything in it states its allergens, garnish too
    std::optional<double> strength;     // % vol as served, the most it can be; none: not known
    friend bool operator==(const SampleSafety&, const SampleSafety&) = default;
};
SampleSafety sampleSafety(const spec::Spec& spec, const spec::Bindings& bindings);

struct PanelSafety {
    std::vector<std::string> allergens; // of all the drinks, in the order of the Annex
    bool complete = true;
    // If every cup is poured to kFullestCupMl and swallowed; the same for all, though one is given less.
    std::optional<double> mostAlcoholG; // none: a strength is not known
    int cups = 0;                       // of whoever is given most, the reference included
    friend bool operator==(const PanelSafety&, const PanelSafety&) = default;
};
// `samples` in the order of the design's products.
PanelSafety panelSafety(const Panel& panel, std::span<const SampleSafety> samples);

// Sentences for every sheet and the pourer's key, that local codes come first among them.
std::vector<std::string> inWords(const PanelSafety& safety);

} // namespace stillroom::tasting
