#include "core/preparation/substitute.h"

#include "core/base/text.h"
#include "core/physics/sucrose_water.h"
#include "core/physics/sweetness.h"
#include "core/physics/titratable_acid.h"
#include "core/spec/caution.h"
#include "core/spec/edit.h"
#include "core/spec/jigger_step.h"
#include "core/spec/scenario.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

namespace stillroom::preparation {

using physics::Composition;
using physics::Substance;
using spec::Quantity;
using spec::Spec;

namespace {

struct UnitsOf : spec::LineListener {
    explicit UnitsOf(std::size_t wanted) : line(wanted) {}
    void stays(std::size_t at, double units) override {
        if (at == line) sum += units;
    }
    std::size_t line;
    double sum = 0;
};

double keptIn(const Composition& c, Keep keep) {
    switch (keep) {
    case Keep::Sugar:
        return c.sugarGrams();
    case Keep::Sweetness:
        return physics::sucroseEquivalent(c).typical.grams();
    case Keep::Ethanol:
        return c[Substance::Ethanol];
    case Keep::Acid:
        return physics::titratableAcidAsCitric(c).grams();
    }
    return 0;
}

// What is poured, as a line says it, and in ml or g.
struct Poured {
    spec::Measured as;
    double amount = 0;
};

std::optional<Poured> inSteps(double amount, const quantity::Rational& step, quantity::Measure measure,
                              double unitsEach) {
    constexpr double kMost = 1e9;
    if (!(amount > 0 && amount < kMost) || !(step.toDouble() > 0)) return std::nullopt;
    const auto steps = std::llround(amount / unitsEach / step.toDouble());
    const auto value = step.times(quantity::Rational(steps));
    if (!value || steps < 1) return std::nullopt;
    return Poured{{quantity::Amount::exact(*value), measure, 1}, value->toDouble() * unitsEach};
}

quantity::Rational part(std::int64_t numerator, std::int64_t denominator) {
    return quantity::Rational::make(numerator, denominator).value_or(quantity::Rational(1));
}

std::optional<Poured> exactly(double amount, bool dry) {
    return inSteps(amount, part(1, 100), dry ? quantity::Measure::G : quantity::Measure::Ml, 1);
}

std::optional<Poured> onScale(double grams, double scaleStepG) {
    const auto step = part(std::max<std::int64_t>(1, std::llround(scaleStepG * 100)), 100);
    return inSteps(grams, step, quantity::Measure::G, 1);
}

// The measures a jigger or a spoon has, and the ml of one; else millilitres.
std::pair<quantity::Measure, double> jiggerOf(std::optional<quantity::Measure> written,
                                              const quantity::HouseMeasures& measures) {
    using quantity::Measure;
    constexpr std::array kPoured{Measure::Cl, Measure::FlozUs, Measure::FlozImp};
    if (written && std::find(kPoured.begin(), kPoured.end(), *written) != kPoured.end())
        if (const auto each = measures.ml(*written)) return {*written, *each};
    return {Measure::Ml, 1};
}

std::optional<Poured> onJigger(double ml, std::optional<quantity::Measure> written,
                               const quantity::HouseMeasures& measures) {
    constexpr double kOff = 0.1;
    const auto [measure, each] = jiggerOf(written, measures);
    const auto mark = spec::jiggerStep(measure);
    std::optional<Poured> nearest;
    for (const auto& finer :
         {part(1, 1), part(1, 2), measure == quantity::Measure::Ml ? part(1, 5) : part(1, 4)}) {
        const auto step = mark.times(finer);
        const auto found = step ? inSteps(ml, *step, measure, each) : std::nullopt;
        if (!found) continue;
        nearest = found;
        if (std::abs(found->amount - ml) <= kOff * ml) return found;
    }
    return nearest ? nearest : exactly(ml, false);
}

// Less than half a mark of water is not poured for itself.
std::optional<Poured> waterOnJigger(double ml, std::optional<quantity::Measure> written,
                                    const quantity::HouseMeasures& measures) {
    const auto [measure, each] = jiggerOf(written, measures);
    return inSteps(ml, spec::jiggerStep(measure), measure, each);
}

bool isEqual(const spec::Reading& a, const spec::Reading& b, double half) {
    return a.bound == b.bound && std::abs(a.value - b.value) < half && std::abs(a.upper - b.upper) < half;
}

std::vector<Change> changesBetween(const Spec& before, const Spec& after, const larder::Larder& larder,
                                   const spec::HouseRules& rules) {
    constexpr std::array kShown{Quantity::Volume, Quantity::Strength, Quantity::Ethanol,
                                Quantity::Sugar,  Quantity::Brix,     Quantity::Acid,
                                Quantity::Mass,   Quantity::Cost,     Quantity::EnergyKcal};
    const auto was = spec::evaluate(before, larder, rules)[spec::Stage::Served];
    const auto is = spec::evaluate(after, larder, rules)[spec::Stage::Served];
    std::vector<Change> changes;
    for (const Quantity quantity : kShown) {
        const double half = 0.5 * std::pow(10, -spec::quantityDecimals(quantity));
        if (!isEqual(was[quantity], is[quantity], half))
            changes.push_back({quantity, was[quantity], is[quantity]});
    }
    return changes;
}

AllergenChange allergensBetween(const Spec& before, const Spec& after, std::size_t line,
                                const larder::Larder& larder, const spec::HouseRules& rules) {
    const auto was = spec::allergens(before, spec::Bindings(before, larder, rules));
    const auto is = spec::allergens(after, spec::Bindings(after, larder, rules));
    const auto holds = [](const auto& list, const auto& one) {
        return std::find(list.begin(), list.end(), one) != list.end();
    };
    AllergenChange change;
    for (const auto& id : is.contains)
        if (!holds(was.contains, id)) change.gained.push_back(id);
    for (const auto& id : was.contains)
        if (!holds(is.contains, id)) change.lost.push_back(id);
    change.wasNotStated = holds(was.unknownLines, static_cast<int>(line));
    change.notStated = holds(is.unknownLines, static_cast<int>(line));
    return change;
}

// What an ingredient is to a drink, for want of which nothing of another sort stands in.
enum class Taste : std::uint8_t { Neither, Sweet, Strong, Liqueur, Sour };

Taste tasteOf(const larder::FactState& facts) {
    // Common practice, no source: below these nobody pours a thing for its sugar, or for its strength.
    constexpr double kSweetGPerL = 200;
    constexpr double kSweetGPerKg = 400;
    constexpr double kSourGPerL = 20; // lemon, lime and their like; an orange holds half of that
    constexpr double kSourGPerKg = 400;
    constexpr double kStrong = 15; // Regulation (EU) 2019/787: the least of a spirit drink
    constexpr double kTrace = 0.5;
    const bool sweet =
        facts.sugarGPerL && facts.sugarGPerL->typical >= (facts.dry ? kSweetGPerKg : kSweetGPerL);
    const double abv = facts.dry ? 0 : facts.abvPercent ? facts.abvPercent->typical : -1;
    if (abv >= kStrong && sweet) return Taste::Liqueur;
    if (abv >= kStrong && facts.sugarGPerL) return Taste::Strong;
    if (sweet && abv >= 0 && abv <= kTrace && (!facts.dry || facts.soluble)) return Taste::Sweet;
    const bool sour = facts.acidGPerL && facts.acidGPerL->typical >= (facts.dry ? kSourGPerKg : kSourGPerL);
    if (sour && !sweet && abv >= 0 && abv <= kTrace && (!facts.dry || facts.soluble)) return Taste::Sour;
    return Taste::Neither;
}

spec::Line waterLine(const spec::Measured& measured, int beforeStep, const larder::Larder& larder) {
    spec::Line water;
    water.name = "water";
    water.poured = measured;
    water.beforeStep = beforeStep;
    const auto match = larder.match(water.name);
    if (!match.ingredient.isNull()) water.ingredient = match.ingredient;
    return water;
}

} // namespace

tl::expected<Substitution, SubstituteProblem>
substituted(const Spec& spec, std::size_t line, base::IngredientId replacement, Keep keep,
            const larder::Larder& larder, const spec::HouseRules& rules, Amounts amounts, double scaleStepG) {
    if (line >= spec.lines.size()) return tl::unexpected(SubstituteProblem::NoSuchLine);
    const larder::Ingredient* other = larder.poured(replacement);
    if (other == nullptr) return tl::unexpected(SubstituteProblem::NoSuchIngredient);
    const spec::Bindings bindings(spec, larder, rules);
    UnitsOf units(line);
    spec::pass(spec, bindings.data(), {}, &units);
    if (!(units.sum > 0)) return tl::unexpected(SubstituteProblem::NoAmount);

    const spec::PreparedFacts old = *bindings.facts(line);
    const spec::PreparedFacts fresh = spec::prepare(other->facts);
    const auto wanted = keep == Keep::Ethanol ? spec::kStrengthFact
                        : keep == Keep::Acid  ? spec::kAcidFact
                                              : spec::kSugarFact;
    if (((old.unknown | fresh.unknown) & wanted) != 0) return tl::unexpected(SubstituteProblem::FactUnknown);
    const double had = keptIn(old.perUnit, keep) * units.sum;
    const double perUnit = keptIn(fresh.perUnit, keep);
    if (!(had > 0) || !(perUnit > 0)) return tl::unexpected(SubstituteProblem::NothingToKeep);

    Substitution result;
    result.amount = had / perUnit;
    const auto measure = spec.lines[line].poured.measure;
    const auto poured = amounts == Amounts::Exact ? exactly(result.amount, fresh.dry)
                        : fresh.dry               ? onScale(result.amount, scaleStepG)
                                                  : onJigger(result.amount, measure, rules.measures);
    if (!poured) return tl::unexpected(SubstituteProblem::TooLarge);
    spec::Line changed = spec.lines[line];
    changed.written.clear();
    changed.name = other->name;
    changed.ingredient = other->id;
    changed.poured = poured->as;
    changed.retained.reset();
    changed.sizeStated.reset();
    changed.abvStated.reset();
    changed.juiceOf = false;
    changed.qualifier = spec::Qualifier::None;
    changed.alternatives.clear();
    result.spec = spec::withLineReplaced(spec, line, changed);

    const double water =
        old.perUnit[Substance::Water] * units.sum - fresh.perUnit[Substance::Water] * poured->amount;
    if (water < 0) result.waterTooMuchG = -water;
    const double waterGPerMl = physics::waterDensity(quantity::Temperature::fromCelsius(20)).gPerMl();
    if (const auto ml = amounts == Amounts::Exact
                            ? exactly(water / waterGPerMl, false)
                            : waterOnJigger(water / waterGPerMl, measure, rules.measures)) {
        result.waterAddedG = ml->amount * waterGPerMl;
        if (result.waterAddedG > water) result.waterTooMuchG = result.waterAddedG - water;
        result.spec = spec::withLine(result.spec, line + 1, waterLine(ml->as, changed.beforeStep, larder));
    }
    result.waterLackingG = std::max(0.0, water - result.waterAddedG);
    result.changes = changesBetween(spec, result.spec, larder, rules);
    result.allergens = allergensBetween(spec, result.spec, line, larder, rules);
    return result;
}

std::vector<StandIn> standInsFor(const Spec& spec, std::size_t line, const larder::Larder& larder,
                                 const spec::HouseRules& rules) {
    std::vector<StandIn> found;
    if (line >= spec.lines.size()) return found;
    const spec::Bindings bindings(spec, larder, rules);
    const larder::Ingredient* stands = bindings.poured(line);
    if (stands == nullptr) return found;
    const Taste taste = tasteOf(stands->facts);
    if (taste == Taste::Neither) return found;
    static const std::vector<Keep> kSweet{Keep::Sugar, Keep::Sweetness};
    static const std::vector<Keep> kStrong{Keep::Ethanol};
    static const std::vector<Keep> kSour{Keep::Acid};
    static const std::vector<Keep> kBoth{Keep::Ethanol, Keep::Sugar, Keep::Sweetness};
    const auto& keeps = taste == Taste::Sweet    ? kSweet
                        : taste == Taste::Strong ? kStrong
                        : taste == Taste::Sour   ? kSour
                                                 : kBoth;
    std::vector<std::pair<std::tuple<bool, bool, std::string>, base::IngredientId>> ranked;
    for (const auto* each : larder.all()) {
        const auto* poured = larder.poured(each->id);
        if (poured == nullptr || poured->id == stands->id || poured->id != each->id) continue;
        if (tasteOf(poured->facts) != taste) continue;
        const bool own = poured->sort != larder::IngredientSort::Kind;
        ranked.push_back(
            {{poured->facts.group != stands->facts.group, !own, base::fold(poured->name)}, poured->id});
    }
    std::sort(ranked.begin(), ranked.end());
    for (const auto& [rank, id] : ranked)
        found.push_back({id, keeps});
    return found;
}

std::string_view substituteProblemId(SubstituteProblem problem) {
    switch (problem) {
    case SubstituteProblem::NoSuchLine:
        return "no_such_line";
    case SubstituteProblem::NoSuchIngredient:
        return "no_such_ingredient";
    case SubstituteProblem::NoAmount:
        return "no_amount";
    case SubstituteProblem::FactUnknown:
        return "fact_unknown";
    case SubstituteProblem::NothingToKeep:
        return "nothing_to_keep";
    case SubstituteProblem::TooLarge:
        return "too_large";
    }
    return "";
}

} // namespace stillroom::preparation
