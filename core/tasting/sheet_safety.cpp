#include "core/tasting/sheet_safety.h"

#include "core/larder/allergens.h"
#include "core/physics/ethanol_water.h"
#include "core/spec/caution.h"
#include "core/tasting/phrases.h"

#include <fmt/format.h>

#include <algorithm>

namespace stillroom::tasting {

namespace {

std::optional<double> mostOf(const spec::Reading& strength) {
    switch (strength.bound) {
    case spec::Bound::Exact:
    case spec::Bound::AtMost:
        return strength.value;
    case spec::Bound::Between:
        return strength.upper;
    case spec::Bound::AtLeast:
    case spec::Bound::Unknown:
    case spec::Bound::NotApplicable:
        break;
    }
    return std::nullopt;
}

double gramsIn(double ml, double percent) {
    return ml * percent / 100 * physics::kEthanolKgPerM3At20 / 1000;
}

std::string allergenWords(const PanelSafety& safety) {
    std::string list;
    for (const std::string& id : safety.allergens) {
        std::string name = id;
        for (const larder::AllergenClass& each : larder::euAllergenClasses())
            if (each.id == id) name = each.name;
        list += (list.empty() ? "" : "; ") + name;
    }
    std::string text = list.empty() ? "No allergen is stated for any of the drinks."
                                    : fmt::format("Allergens in the drinks, taken together: {}.", list);
    if (!safety.complete)
        text +=
            " Not everything in them states its allergens: there may be others. Ask whoever pours before you"
            " taste.";
    return text;
}

} // namespace

SampleSafety sampleSafety(const spec::Spec& spec, const spec::Bindings& bindings) {
    const spec::AllergenSummary found = spec::allergens(spec, bindings);
    SampleSafety safety;
    safety.allergens = found.contains;
    safety.complete = found.unknownLines.empty() && !found.garnishNotStated;
    safety.strength = mostOf(spec::evaluate(spec, bindings)[spec::Stage::Served][spec::Quantity::Strength]);
    return safety;
}

PanelSafety panelSafety(const Panel& panel, std::span<const SampleSafety> samples) {
    PanelSafety safety;
    bool known = true;
    for (const SampleSafety& sample : samples) {
        safety.complete = safety.complete && sample.complete;
        known = known && sample.strength.has_value();
    }
    for (const larder::AllergenClass& each : larder::euAllergenClasses())
        if (std::any_of(samples.begin(), samples.end(), [&](const SampleSafety& sample) {
                return std::find(sample.allergens.begin(), sample.allergens.end(), each.id) !=
                       sample.allergens.end();
            }))
            safety.allergens.emplace_back(each.id);
    double most = 0;
    for (const Serving& serving : panel.servings) {
        double grams = 0;
        const auto add = [&](std::size_t product) {
            if (known) grams += gramsIn(kFullestCupMl, samples[product].strength.value_or(0));
        };
        if (serving.reference) add(*serving.reference);
        for (const Cup& cup : serving.cups)
            add(cup.product);
        most = std::max(most, grams);
        safety.cups =
            std::max(safety.cups, static_cast<int>(serving.cups.size()) + (serving.reference ? 1 : 0));
    }
    if (known) safety.mostAlcoholG = most;
    return safety;
}

std::vector<std::string> inWords(const PanelSafety& safety) {
    std::vector<std::string> words{allergenWords(safety)};
    const std::string cups = counted(safety.cups, "cup", "cups");
    if (!safety.mostAlcoholG)
        words.push_back(
            fmt::format("The drinks hold alcohol; how much is not known of all of them. You are given"
                        " up to {}: you may spit.",
                        cups));
    else if (*safety.mostAlcoholG < 0.05) // below the last digit shown
        words.push_back(fmt::format("No alcohol is on record in what you are given, up to {}.", cups));
    else
        words.push_back(
            fmt::format("Alcohol: up to {:.1f} g a taster, if {} of {:.0f} ml are swallowed whole."
                        " You may spit, and you may stop.",
                        *safety.mostAlcoholG, cups, kFullestCupMl));
    words.emplace_back("Nobody who must not or will not drink, or who has to drive, tastes.");
    words.emplace_back(spec::deferenceText());
    return words;
}

} // namespace stillroom::tasting
