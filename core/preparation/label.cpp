#include "core/preparation/label.h"

#include "core/base/text.h"
#include "core/spec/safety_rules.h"

#include <algorithm>
#include <array>

namespace stillroom::preparation {

using spec::Bound;
using spec::Quantity;
using spec::Stage;

namespace {

std::string kindOf(std::string_view name, const larder::FactState& facts) {
    const auto words = base::foldedWords(name);
    constexpr std::array<std::string_view, 4> kKinds{"cordial", "puree", "shrub", "syrup"};
    for (const std::string_view kind : kKinds)
        if (std::find(words.begin(), words.end(), kind) != words.end()) return std::string(kind);
    return facts.group == "syrup" ? "syrup" : std::string();
}

void become(spec::Reading& reading, const std::optional<larder::Fact>& fact, double perUnit) {
    const std::uint64_t gaps = reading.gapLines;
    reading = {};
    reading.gapLines = gaps;
    if (!fact) return;
    const bool range = fact->high > fact->low;
    reading.bound = range ? Bound::Between : Bound::Exact;
    reading.value = (range ? fact->low : fact->typical) * perUnit;
    if (range) reading.upper = fact->high * perUnit;
}

} // namespace

std::vector<spec::Caution> cautionsOf(std::string_view name, const spec::Spec& spec,
                                      const spec::Bindings& bindings, const Made& made) {
    spec::Readings readings = spec::evaluate(spec, bindings);
    auto& served = readings[Stage::Served];
    if (!made.facts.dry) become(served[Quantity::Strength], made.facts.abvPercent, 1);
    become(served[Quantity::Acid], made.facts.acidGPerL, 0.1);
    served[Quantity::Brix] = {};
    if (made.brix) {
        served[Quantity::Brix].bound = Bound::Exact;
        served[Quantity::Brix].value = *made.brix;
    }
    spec::CautionContext context;
    context.stored = true;
    context.preparationKind = kindOf(name, made.facts);
    if (made.facts.dry) context.waterActivity = 0; // nothing grows in it before it is wetted
    return spec::cautions(spec, bindings, readings, context);
}

Label labelOf(std::string_view name, const spec::Spec& spec, const spec::Bindings& bindings, const Made& made,
              std::string_view madeOn, const Keeping& keeping, const std::vector<std::string>& partsUseBy) {
    Label label;
    label.name = name;
    label.madeOn = madeOn;
    label.keeping = keeping;
    label.useBy = useBy(madeOn, label.keeping, partsUseBy);
    label.allergens = made.knownAllergens;
    const auto& tags = made.facts.tags;
    label.allergensComplete = made.facts.allergens.has_value() &&
                              std::find(tags.begin(), tags.end(), larder::kAllergensIncomplete) == tags.end();
    label.strengthPercent = made.facts.abvPercent;
    const auto& named = label.allergens;
    for (spec::Caution& caution : cautionsOf(name, spec, bindings, made)) {
        if (caution.severity == spec::Severity::Info || caution.standing) continue;
        const auto allergen = spec::allergenNamedBy(caution.id);
        if (std::find(named.begin(), named.end(), allergen) == named.end())
            label.cautions.push_back(std::move(caution));
    }
    label.deference = spec::deferenceText();
    return label;
}

} // namespace stillroom::preparation
