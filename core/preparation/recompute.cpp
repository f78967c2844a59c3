#include "core/preparation/recompute.h"

#include "core/larder/at_least.h"
#include "core/preparation/preparation.h"
#include "core/preparation/where_used.h"

#include <algorithm>

namespace stillroom::preparation {

using base::IngredientId;

namespace {

base::PackId packIdOf(IngredientId ingredient) {
    return base::PackId::derivedFrom("preparation cost " + ingredient.text());
}

// In making order. What stands in a circle is left out: its facts stay as they were stored.
std::vector<IngredientId> orderOf(Specs preparations, const larder::Larder& larder) {
    while (true) {
        auto order = makingOrder(preparations, larder);
        if (order) return *std::move(order);
        for (const IngredientId id : order.error().path)
            preparations.erase(id);
    }
}

} // namespace

namespace {

void putAtLeast(larder::FactState& facts, std::optional<larder::Fact>& fact,
                const std::optional<double>& least, std::string_view tag) {
    constexpr auto kSource = "worked out from its own spec, of what is known";
    if (fact || !least) return;
    fact = larder::Fact::single(*least, larder::SourceKind::Assumed, kSource);
    larder::putTag(facts, std::string(tag));
}

void putUnpriced(larder::FactState& facts, const spec::Spec& spec, const spec::Bindings& bindings) {
    for (const spec::Gap& gap : spec::gaps(spec, bindings)) {
        if (gap.code != spec::GapCode::PriceUnknown) continue;
        const std::string& names = gap.detail.empty() ? gap.ingredient : gap.detail;
        for (std::size_t from = 0; from < names.size();) {
            const std::size_t end = std::min(names.find(", ", from), names.size());
            larder::putTag(facts, std::string(larder::kUnpriced) + names.substr(from, end - from));
            from = end + 2;
        }
    }
}

// As others pour it: a figure that is not known whole counts as what there is at least.
larder::FactState handedOn(const Made& made, const spec::Spec& spec, const spec::Bindings& bindings) {
    larder::FactState facts = made.facts;
    std::erase_if(facts.tags, [](const std::string& tag) { return larder::isAtLeastTag(tag); });
    if (!facts.dry) putAtLeast(facts, facts.abvPercent, made.least.strengthPercent, larder::kStrengthAtLeast);
    putAtLeast(facts, facts.sugarGPerL, made.least.sugarGPerL, larder::kSugarAtLeast);
    putAtLeast(facts, facts.acidGPerL, made.least.acidGPerL, larder::kAcidAtLeast);
    if (!made.cost || made.yieldAtMost) larder::putTag(facts, std::string(larder::kPriceAtLeast));
    if (!made.cost) putUnpriced(facts, spec, bindings);
    return facts;
}

} // namespace

bool isCostOfMaking(const larder::Pack& pack, IngredientId ingredient) {
    return pack.id == packIdOf(ingredient);
}

std::optional<larder::Ingredient> asMade(const larder::Ingredient& ingredient, const spec::Spec& spec,
                                         const spec::BindingHouse& house) {
    const spec::Bindings bindings(spec, house);
    const auto made = make(spec, bindings, yieldOf(spec));
    if (!made) return std::nullopt;
    larder::Ingredient result = ingredient;
    result.facts = handedOn(*made, spec, bindings);
    std::erase_if(result.packs,
                  [&](const larder::Pack& pack) { return isCostOfMaking(pack, ingredient.id); });
    if (!result.packs.empty()) { // somebody typed what it costs
        std::erase_if(result.facts.tags, [](const std::string& tag) { return larder::isPriceTag(tag); });
        return result;
    }
    const auto pack = packOf(*made, packIdOf(ingredient.id), bindings.rules().currency);
    if (pack) result.packs = {*pack};
    return result;
}

larder::Larder recomputed(larder::Larder larder, const Specs& preparations, const spec::HouseRules& rules,
                          const std::optional<std::set<IngredientId>>& changed) {
    std::optional<std::set<IngredientId>> touched;
    if (changed) touched = Followers(larder, preparations).of(*changed);
    for (const IngredientId id : orderOf(preparations, larder)) {
        if (touched && touched->count(id) == 0) continue;
        const larder::Ingredient* known = larder.find(id);
        if (known == nullptr) continue;
        // Each sees what was made before it, so each takes a house of its own.
        if (auto made = asMade(*known, preparations.at(id), spec::BindingHouse(larder, rules)))
            larder.put(*std::move(made));
    }
    return larder;
}

spec::Reading costOn(const spec::Spec& spec, const larder::Larder& larder, const Specs& preparations,
                     spec::HouseRules rules, const std::string& day) {
    rules.pricesOn = day;
    const auto then = recomputed(larder, preparations, rules);
    return spec::evaluate(spec, spec::Bindings(spec, then, rules))[spec::Stage::Served][spec::Quantity::Cost];
}

} // namespace stillroom::preparation
