#pragma once

#include "core/tasting/scales.h"

#include <optional>
#include <vector>

namespace stillroom::tasting {

struct ScoreMean {
    double mean = 0;
    int count = 0; // who gave one
    friend bool operator==(const ScoreMean&, const ScoreMean&) = default;
};

// The set's scales in their order, then those that were scored and are not in it any more (lost, or of
// another kind since), named by their id and in its order.
std::vector<ScaleDefinition> scalesShown(const ScaleSet& set, const std::vector<Scores>& all);

// By scale: of those who scored it on its kind; none where nobody did.
using ScoreMeans = std::vector<std::optional<ScoreMean>>;
ScoreMeans meansOf(const std::vector<ScaleDefinition>& scales, const std::vector<Scores>& all);

} // namespace stillroom::tasting
