#include "core/store/panel_safety.h"

#include <algorithm>

namespace stillroom::store {

tasting::PanelSafety panelSafety(const Workbook& book, const tasting::Panel& panel) {
    const larder::Larder today = book.larder();
    const spec::HouseRules rules = book.settings().rules;
    std::vector<tasting::SampleSafety> samples;
    for (const base::RevisionId& product : panel.design.products) {
        samples.emplace_back(); // of one that is gone nothing is known
        const auto revision = book.revision(product);
        if (!revision) continue;
        const spec::Bindings kept(revision->spec, book.larderOf(*revision), book.rulesOf(*revision));
        const spec::Bindings now(revision->spec, today, rules);
        samples.back() = tasting::sampleSafety(revision->spec, kept);
        const auto poured = tasting::sampleSafety(revision->spec, now);
        auto& sample = samples.back();
        sample.allergens.insert(sample.allergens.end(), poured.allergens.begin(), poured.allergens.end());
        sample.complete = sample.complete && poured.complete;
        if (!sample.strength || !poured.strength)
            sample.strength.reset();
        else
            sample.strength = std::max(*sample.strength, *poured.strength);
    }
    return tasting::panelSafety(panel, samples);
}

} // namespace stillroom::store
