#include "core/tasting/score_means.h"

#include <algorithm>

namespace stillroom::tasting {

std::vector<ScaleDefinition> scalesShown(const ScaleSet& set, const std::vector<Scores>& all) {
    std::vector<ScaleDefinition> shown = set.scales;
    const std::size_t own = shown.size();
    for (const Scores& scores : all)
        for (const auto& [id, score] : scores.byScale) {
            const bool known = std::any_of(shown.begin(), shown.end(),
                                           [&id = id, &score = score](const ScaleDefinition& scale) {
                                               return scale.id == id && scale.kind == score.kind;
                                           });
            if (known) continue;
            const ScaleDefinition* named = set.find(id);
            shown.push_back({id, named ? named->name : id, score.kind});
        }
    std::sort(shown.begin() + static_cast<std::ptrdiff_t>(own), shown.end(),
              [](const ScaleDefinition& a, const ScaleDefinition& b) {
                  return a.id != b.id ? a.id < b.id : a.kind < b.kind;
              });
    return shown;
}

ScoreMeans meansOf(const std::vector<ScaleDefinition>& scales, const std::vector<Scores>& all) {
    ScoreMeans means(scales.size());
    for (std::size_t i = 0; i < scales.size(); ++i) {
        double sum = 0;
        int count = 0;
        for (const Scores& scores : all)
            if (const auto score = scores.of(scales[i].id); score && score->kind == scales[i].kind) {
                sum += score->value;
                ++count;
            }
        if (count > 0) means[i] = ScoreMean{sum / count, count};
    }
    return means;
}

} // namespace stillroom::tasting
