#include "core/preparation/adding.h"

#include "core/base/text.h"

#include <cmath>

namespace stillroom::preparation {

using quantity::Measure;
using quantity::Rational;
using spec::Line;
using spec::Spec;

namespace {

Line lineOf(const std::string& name, double amount, Measure measure, const larder::Larder& larder) {
    constexpr std::int64_t kParts = 100;
    Line line;
    line.name = name;
    const auto match = larder.match(name);
    if (!match.ingredient.isNull()) line.ingredient = match.ingredient;
    line.poured.measure = measure;
    const auto parts = static_cast<std::int64_t>(std::llround(amount * static_cast<double>(kParts)));
    if (const auto exact = Rational::make(parts, kParts))
        line.poured.amount = quantity::Amount::exact(*exact);
    line.written = base::shortestDecimal(static_cast<double>(parts) / static_cast<double>(kParts));
    line.written += measure == Measure::G ? " g " : " ml ";
    line.written += name;
    return line;
}

void settleYield(Spec& spec) {
    if (!spec.yieldMl) return;
    spec::Step strained;
    strained.kind = spec::StepKind::Strain;
    strained.gotMl = spec.yieldMl;
    // Lines that went in after all steps are in what was measured.
    spec.steps.push_back(strained);
    spec.yieldMl.reset();
}

} // namespace

Line dryLine(const std::string& name, quantity::Mass mass, const larder::Larder& larder) {
    return lineOf(name, mass.grams(), Measure::G, larder);
}

Line liquidLine(const std::string& name, quantity::Volume volume, const larder::Larder& larder) {
    return lineOf(name, volume.ml(), Measure::Ml, larder);
}

std::string nameOfSubstance(physics::Substance substance) {
    using S = physics::Substance;
    switch (substance) {
    case S::Sucrose:
        return "white sugar";
    case S::Citric:
        return "citric acid";
    case S::Malic:
        return "malic acid";
    case S::Tartaric:
        return "tartaric acid";
    case S::Lactic:
        return "lactic acid";
    case S::Acetic:
        return "acetic acid";
    case S::Phosphoric:
        return "phosphoric acid";
    case S::Succinic:
        return "succinic acid";
    default:
        return {};
    }
}

Spec withAdded(const Spec& spec, const std::vector<Line>& lines) {
    if (lines.empty()) return spec;
    Spec next = spec;
    settleYield(next);
    for (Line line : lines) {
        line.beforeStep = static_cast<int>(next.steps.size());
        next.lines.push_back(std::move(line));
    }
    return next;
}

Spec withBoiledOff(const Spec& spec, quantity::Mass water) {
    if (!(water.grams() > 0)) return spec;
    Spec next = spec;
    settleYield(next);
    spec::Step simmer;
    simmer.kind = spec::StepKind::Simmer;
    simmer.waterLostG = std::round(water.grams() * 100) / 100;
    next.steps.push_back(simmer);
    return next;
}

std::optional<physics::Composition>
compositionOfIngredient(base::IngredientId id, const larder::Larder& larder, const spec::HouseRules& rules) {
    const auto* known = larder.poured(id);
    if (known == nullptr || known->facts.dry) return std::nullopt;
    Spec alone;
    Line line;
    line.name = known->name;
    line.ingredient = id;
    line.poured.amount = quantity::Amount::exact(100);
    line.poured.measure = Measure::Ml;
    alone.lines = {line};
    const auto composition =
        spec::compositionOf(alone, spec::Bindings(alone, larder, rules), spec::Stage::Measured);
    return composition.totalGrams() > 0 ? std::optional(composition) : std::nullopt;
}

} // namespace stillroom::preparation
