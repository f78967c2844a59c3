#include "core/preparation/spec_ratio.h"

#include "core/physics/sucrose_water.h"
#include "core/preparation/preparation.h"
#include "core/spec/edit.h"
#include "core/spec/prepared_facts.h"

#include <cmath>

namespace stillroom::preparation {

using quantity::Dimension;
using quantity::Measure;
using spec::Line;
using spec::Spec;

namespace {

bool isSweet(const larder::FactState& facts) {
    constexpr double kSyrup = 600;  // g/l: 1:1 by weight holds 615 (ICUMSA SPS-4)
    constexpr double kSugar = 400;  // g/kg
    constexpr double kTrace = 0.05; // % vol
    if (!facts.sugarGPerL) return false;
    if (facts.dry) return facts.soluble && facts.sugarGPerL->typical >= kSugar;
    return facts.sugarGPerL->typical >= kSyrup && facts.abvPercent && facts.abvPercent->high <= kTrace;
}

bool isWater(const larder::Ingredient& poured) {
    return poured.facts.group == "water" && !poured.facts.dry;
}

struct Quantum {
    double amount = 0; // ml, g or parts
    Dimension dimension = Dimension::Part;
};

std::optional<Quantum> quantumOf(const Line& line, const spec::HouseRules& rules) {
    const auto& poured = line.poured;
    if (poured.amount.kind != quantity::Amount::Kind::Exact || !poured.measure) return std::nullopt;
    const double number = poured.amount.low.toDouble() * poured.multiplier.toDouble();
    if (!(number > 0)) return std::nullopt;
    const auto dimension = quantity::measureInfo(*poured.measure).dimension;
    if (dimension == Dimension::Part) return Quantum{number, dimension};
    const auto size = dimension == Dimension::Volume ? rules.measures.ml(*poured.measure)
                      : dimension == Dimension::Mass ? rules.measures.grams(*poured.measure)
                                                     : std::nullopt;
    if (!size) return std::nullopt;
    return Quantum{number * *size, dimension};
}

double waterGPerMl() {
    return physics::waterDensity(quantity::Temperature::fromCelsius(20)).gPerMl();
}

} // namespace

std::optional<SpecRatio> ratioOf(const Spec& spec, const spec::Bindings& bindings) {
    SpecRatio ratio;
    std::size_t sweets = 0;
    std::size_t waters = 0;
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        const auto* poured = bindings.poured(i);
        if (poured == nullptr || spec.lines[i].optional || spec.lines[i].toTaste) continue;
        if (isSweet(poured->facts)) ratio.sweet = i, ++sweets;
        if (isWater(*poured)) ratio.water = i, ++waters;
    }
    if (sweets != 1 || waters != 1) return std::nullopt;
    const auto sweet = quantumOf(spec.lines[ratio.sweet], bindings.rules());
    const auto water = quantumOf(spec.lines[ratio.water], bindings.rules());
    if (!sweet || !water) return std::nullopt;
    const bool parts = sweet->dimension == Dimension::Part;
    if (parts != (water->dimension == Dimension::Part)) return std::nullopt;
    double waters20 = water->amount;
    if (!parts && sweet->dimension != water->dimension) // a bartender's gram of water is a millilitre
        waters20 = sweet->dimension == Dimension::Mass ? waters20 * waterGPerMl() : waters20 / waterGPerMl();
    ratio.sweetParts = sweet->amount / waters20;
    if (!parts) ratio.basis = sweet->dimension == Dimension::Mass ? RatioBasis::ByWeight : RatioBasis::ByCup;
    return ratio;
}

Spec withBasis(const Spec& spec, const SpecRatio& ratio, RatioBasis basis, const spec::HouseRules& rules) {
    if (ratio.basis == basis) return spec;
    Spec next = spec;
    constexpr double kPerPart = 100;
    for (const std::size_t at : {ratio.sweet, ratio.water}) {
        if (at >= spec.lines.size()) return spec;
        const auto quantum = quantumOf(spec.lines[at], rules);
        if (!quantum) return spec;
        const double number =
            quantum->dimension == Dimension::Part ? quantum->amount * kPerPart : quantum->amount;
        const auto exact = quantity::Rational::make(std::llround(number * 100), 100);
        if (!exact || exact->isZero()) return spec;
        spec::Measured measured;
        measured.amount = quantity::Amount::exact(*exact);
        measured.measure = basis == RatioBasis::ByWeight ? Measure::G : Measure::Ml;
        next = spec::withAmount(next, at, measured);
    }
    return next;
}

BasisOutcomes outcomesOf(const Spec& spec, const SpecRatio& ratio, const larder::Larder& larder,
                         const spec::HouseRules& rules) {
    const auto of = [&](RatioBasis basis) {
        const auto so = withBasis(spec, ratio, basis, rules);
        const auto made = make(so, spec::Bindings(so, larder, rules), yieldOf(so));
        BasisOutcome outcome;
        if (!made || made->facts.dry || !made->facts.sugarGPerL) return outcome;
        outcome.brix = made->brix;
        outcome.sugarGPerL = made->facts.sugarGPerL->typical;
        return outcome;
    };
    return {of(RatioBasis::ByWeight), of(RatioBasis::ByCup)};
}

} // namespace stillroom::preparation
