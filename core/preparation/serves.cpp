#include "core/preparation/serves.h"

#include <algorithm>
#include <cmath>

namespace stillroom::preparation {

using spec::Bound;

std::optional<Served> servesOf(const spec::Spec& drink, const spec::Bindings& bindings,
                               const std::vector<base::IngredientId>& of, const Made& batch) {
    const auto isOf = [&](base::IngredientId id) { return std::find(of.begin(), of.end(), id) != of.end(); };
    const auto brings = spec::contributions(drink, bindings);
    Served served;
    double ml = 0;
    bool open = false;
    for (std::size_t i = 0; i < drink.lines.size(); ++i) {
        const auto* poured = bindings.poured(i);
        const auto& line = drink.lines[i];
        if (!(line.ingredient && isOf(*line.ingredient)) && !(poured != nullptr && isOf(poured->id)))
            continue;
        served.lines.push_back(i);
        const auto& volume = brings[i].volumeMl;
        if (volume.bound == Bound::Exact)
            ml += volume.value;
        else if (volume.bound == Bound::Between)
            ml += volume.upper; // the batch must hold out for the larger
        else
            open = true;
    }
    if (served.lines.empty()) return std::nullopt;
    if (open || !(ml > 0)) return served;
    served.perServe = quantity::Volume::fromMl(ml / std::max(drink.serves, 1));
    constexpr double kReadsAlike = 1e-9;
    if (batch.yield.ml() > 0 && !batch.yieldAtMost)
        served.servesABatch = std::floor(batch.yield.ml() / served.perServe->ml() + kReadsAlike);
    return served;
}

std::optional<PriceChange> lastPriceChange(const spec::Spec& spec, const spec::Bindings& bindings,
                                           std::string_view today) {
    std::optional<PriceChange> last;
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        const auto* poured = bindings.poured(i);
        if (poured == nullptr || poured->packs.size() < 2) continue;
        larder::PurchaseTerms terms;
        terms.usableShare = poured->usableShare;
        for (const auto& step : larder::priceSteps(poured->packs, terms))
            if (step.day <= today && (!last || step.day > last->step.day)) last = PriceChange{i, step};
    }
    return last;
}

} // namespace stillroom::preparation
