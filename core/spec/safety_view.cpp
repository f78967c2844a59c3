#include "core/spec/safety_view.h"

#include "core/larder/allergens.h"

#include <algorithm>

namespace stillroom::spec {

namespace {

// What a preparation's step is in the rules.
std::string_view techniqueOf(StepKind kind, bool alcoholic) {
    switch (kind) {
    case StepKind::Simmer:
        return alcoholic ? "simmer_spirit" : "";
    case StepKind::Steep:
        return "infuse";
    case StepKind::FatWash:
        return "fat_wash";
    case StepKind::MilkClarify:
        return "milk_wash";
    case StepKind::Ferment:
        return "ferment";
    case StepKind::Carbonate:
        return "carbonate";
    default:
        return "";
    }
}

std::vector<std::string> ofTechnique(const Method& method) {
    switch (method.technique) {
    case Technique::WaterBath: // spirits warmed over hot water, not an infusion in a sealed bag
        return {"hot_batch"};
    case Technique::Carbonate:
        return {"carbonate"};
    case Technique::Hot: // whatever its temperature turns out to be
        return {"served_hot"};
    default:
        return {};
    }
}

std::vector<std::string> chosenTechniques(const Spec& spec, const Bindings& bindings) {
    std::vector<std::string> techniques = ofTechnique(spec.method);
    const bool alcoholic = !spec.steps.empty() && hasAlcoholicLine(spec, bindings);
    for (const Step& step : spec.steps)
        if (const auto technique = techniqueOf(step.kind, alcoholic); !technique.empty())
            techniques.emplace_back(technique);
    return techniques;
}

// Lines whose ingredient does not state all its allergens: words speak for them.
std::vector<int> unstatedLines(const Spec& spec, const Bindings& bindings) {
    std::vector<int> lines;
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        const larder::Ingredient* poured = bindings.poured(i);
        if (poured == nullptr || !larder::allergensOf(poured->facts).complete)
            lines.push_back(static_cast<int>(i));
    }
    return lines;
}

} // namespace

bool hasAlcoholicLine(const Spec& spec, const Bindings& bindings) {
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        const Line& line = spec.lines[i];
        if (line.role == Role::Garnish) continue;
        const bool none = line.poured.amount.isStated() && !(line.poured.amount.high.toDouble() > 0);
        const larder::Ingredient* poured = bindings.poured(i);
        if (none || poured == nullptr || !poured->facts.abvPercent) continue;
        if (poured->facts.abvPercent->typical > 0) return true;
    }
    return false;
}

SafetyView viewOf(const Spec& spec, const Bindings& bindings) {
    SafetyView view;
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        const Line& line = spec.lines[i];
        SafetyLine seen;
        seen.words = line.name + "\n" + line.written;
        for (const Alternative& alternative : line.alternatives)
            seen.words += "\n" + alternative.name;
        if (const larder::Ingredient* poured = bindings.poured(i)) {
            seen.facts = &poured->facts;
            seen.fromHandbook = !poured->handbookId.empty();
        }
        view.lines.push_back(std::move(seen));
    }
    view.methodText = spec.method.text + "\n" + spec.garnish + "\n" + spec.glass;
    for (const Step& step : spec.steps)
        view.methodText += "\n" + step.note;
    view.garnish = spec.garnish;
    view.techniques = chosenTechniques(spec, bindings);
    return view;
}

PassedOn passedOn(const Spec& spec, const Bindings& bindings) {
    const SafetyView view = viewOf(spec, bindings);
    const SafetyRules& rules = SafetyRules::builtIn();
    PassedOn passed{allergensSaid(view, unstatedLines(spec, bindings), rules), tagsPassedOn(view, rules)};
    std::sort(passed.allergens.begin(), passed.allergens.end());
    return passed;
}

} // namespace stillroom::spec
