#include "core/preparation/doubts.h"

namespace stillroom::preparation {

std::vector<Finding> doubtsOf(const larder::Ingredient& ingredient) {
    std::vector<Finding> found;
    if (const auto against = spec::contradictionIn(ingredient.facts)) {
        Finding doubt;
        doubt.code = FindingCode::Contradiction;
        doubt.key = "density_kg_per_m3";
        doubt.contradiction = against;
        found.push_back(std::move(doubt));
    }
    for (const larder::FoundDoubt& each : larder::doubtsOfName(ingredient)) {
        Finding doubt;
        doubt.code = FindingCode::Doubt;
        doubt.doubt = each;
        found.push_back(std::move(doubt));
    }
    return found;
}

std::vector<std::string_view> keysInDoubt(const Finding& finding) {
    using larder::FactDoubt;
    if (finding.code == FindingCode::Contradiction)
        return {"abv_percent", "sugar_g_per_l", "density_kg_per_m3"};
    if (finding.code != FindingCode::Doubt || !finding.doubt) return {};
    const FactDoubt doubt = finding.doubt->doubt;
    const bool sugar = doubt == FactDoubt::SugarAboveName || doubt == FactDoubt::SugarBelowName;
    return {sugar ? "sugar_g_per_l" : "abv_percent"};
}

} // namespace stillroom::preparation
