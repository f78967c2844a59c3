#include "core/preparation/preparation.h"

#include "core/physics/mixture.h"
#include "core/physics/titratable_acid.h"
#include "core/preparation/pot.h"
#include "core/spec/safety_view.h"

#include <algorithm>
#include <cmath>

namespace stillroom::preparation {

using larder::Fact;
using larder::FactState;
using physics::Composition;
using physics::Substance;
using quantity::Mass;
using quantity::Volume;
using spec::Bindings;
using spec::Bound;
using spec::Quantity;
using spec::Reading;
using spec::Spec;

namespace {

constexpr auto kSource = "worked out from its own spec";

Fact workedOut(double value) {
    return {value, value, value, larder::SourceKind::Assumed, kSource};
}

// A figure that ranges of amounts carry either way. The reading is of what went in; `concentrated` is how
// much stronger the bottle is.
Fact workedOut(double value, const Reading& reading, double unit, double concentrated) {
    if (reading.bound != Bound::Between) return workedOut(value);
    const double low = reading.value * unit * concentrated;
    const double high = reading.upper * unit * concentrated;
    Fact fact = workedOut(0.5 * (low + high));
    fact.low = low;
    fact.high = high;
    return fact;
}

larder::Shares sharesOf(const Composition& whole, Substance first, Substance last) {
    larder::Shares shares;
    double sum = 0;
    for (auto i = static_cast<std::size_t>(first); i <= static_cast<std::size_t>(last); ++i)
        sum += whole.grams[i];
    if (!(sum > 0)) return shares;
    for (auto i = static_cast<std::size_t>(first); i <= static_cast<std::size_t>(last); ++i)
        if (whole.grams[i] > 0) shares.parts.emplace_back(static_cast<Substance>(i), whole.grams[i] / sum);
    return shares;
}

std::optional<StepProblem> faultOf(const YieldEntry& yield) {
    constexpr double kTooLarge = 1e9; // ml
    if (!yield.measured) return std::nullopt;
    const double ml = yield.measured->ml();
    if (!std::isfinite(ml)) return StepProblem::NotANumber;
    if (ml < 0) return StepProblem::Negative;
    if (ml == 0) return StepProblem::YieldNotAbove0;
    if (ml >= kTooLarge) return StepProblem::TooLarge;
    return std::nullopt;
}

bool isMeasured(const YieldEntry& yield) {
    return yield.measured && !faultOf(yield);
}

// What is in the bottle at the end.
Composition bottled(const Composition& whole, const YieldEntry& yield) {
    if (!isMeasured(yield)) return whole;
    const Volume before = physics::volumeAt20(whole);
    const Volume after = *yield.measured;
    if (after > before) return wateredUp(whole, after);
    if (yield.loss == Loss::BoiledDown) return boiledDown(whole, after);
    return shareOf(whole, after / before);
}

std::string groupOf(double abvPercent, double sugarGPerL) {
    constexpr double kLiqueurAbv = 15;    // Regulation (EU) 2019/787, Annex I: liqueur
    constexpr double kLiqueurSugar = 100; // likewise
    constexpr double kSyrupSugar = 300;   // common practice, no source
    if (abvPercent >= kLiqueurAbv) return sugarGPerL >= kLiqueurSugar ? "liqueur" : "spirit";
    return sugarGPerL >= kSyrupSugar ? "syrup" : "";
}

void addSolids(FactState& facts, const Composition& c, double per) {
    facts.fatGPerL = workedOut(c[Substance::Fat] * per);
    facts.proteinGPerL = workedOut(c[Substance::Protein] * per);
    facts.carbohydrateGPerL = workedOut(c[Substance::OtherCarbohydrate] * per);
    facts.otherSolidsGPerL = workedOut(c[Substance::OtherSolids] * per);
    facts.saltGPerL = workedOut(c[Substance::Salt] * per);
    facts.caffeineMgPerL = workedOut(c[Substance::Caffeine] * per * 1000);
    facts.co2GPerL = workedOut(c[Substance::CarbonDioxide] * per);
}

// Facts of the bottled composition; `per` turns grams of it into g per litre (per kg when dry).
FactState figures(const Composition& c, double per, double concentrated, bool dry,
                  const spec::StageReadings& readings, const Process& process) {
    FactState facts;
    facts.dry = dry;
    constexpr double kPerLitre = 10; // of g/100 ml
    const double abv = dry ? 0 : physics::ethanolVolumeAt20(c).ml() * per / 10;
    const double sugar = c.sugarGrams() * per;
    const double acid = physics::titratableAcidAsCitric(c).grams() * per;
    if (process.strengthKnown && !dry)
        facts.abvPercent = workedOut(abv, readings[Quantity::Strength], 1, concentrated);
    if (process.sugarKnown)
        facts.sugarGPerL = workedOut(sugar, readings[Quantity::Sugar], kPerLitre, concentrated);
    if (process.acidKnown)
        facts.acidGPerL = workedOut(acid, readings[Quantity::Acid], kPerLitre, concentrated);
    const bool whole = facts.sugarGPerL && facts.acidGPerL && (dry || facts.abvPercent);
    if (whole && !dry) facts.densityKgPerM3 = workedOut(c.totalGrams() * per);
    addSolids(facts, c, per);
    if (!process.fizzKnown) facts.co2GPerL.reset();
    facts.sugarShares = sharesOf(c, Substance::Sucrose, Substance::OtherSugar);
    facts.acidShares = sharesOf(c, Substance::Citric, Substance::Succinic);
    if (!process.fermented) facts.group = groupOf(abv, sugar);
    return facts;
}

void addUnique(std::vector<std::string>& all, const std::vector<std::string>& more) {
    for (const std::string& one : more)
        if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(one);
    std::sort(all.begin(), all.end());
}

void inherit(Made& made, const Spec& spec, const Bindings& bindings) {
    const spec::PassedOn said = spec::passedOn(spec, bindings);
    addUnique(made.facts.tags, said.tags);
    addUnique(made.knownAllergens, said.allergens);
    bool complete = spec.garnish.empty();
    for (std::size_t i = 0; i < spec.lines.size(); ++i) {
        const larder::Ingredient* poured = bindings.poured(i);
        if (poured == nullptr) {
            complete = false;
            continue;
        }
        addUnique(made.facts.tags, poured->facts.tags);
        made.facts.carbonated |= poured->facts.carbonated;
        if (poured->facts.allergens)
            addUnique(made.knownAllergens, *poured->facts.allergens);
        else
            complete = false;
    }
    if (spec.method.technique == spec::Technique::Carbonate) made.facts.carbonated = true;
    if (complete || !made.knownAllergens.empty()) made.facts.allergens = made.knownAllergens;
    if (!complete && made.facts.allergens) addUnique(made.facts.tags, {larder::kAllergensIncomplete});
}

// "Stir until dissolved" is not stirring on ice: a preparation gains melt water only where ice is named.
Spec withoutUnsaidIce(const Spec& spec) {
    Spec made = spec;
    if (made.method.ice.empty() && !made.method.dilution)
        made.method.dilution = spec::DilutionEntry{0, spec::DilutionOrigin::Typed, {}};
    return made;
}

// Millionths of one ml, half to even.
std::optional<quantity::Cost> sharedPerMl(quantity::Cost whole, Volume yield) {
    const double microlitres = std::round(yield.ml() * 1000);
    constexpr double kFits = 9e18;
    if (!(microlitres >= 1 && microlitres < kFits)) return std::nullopt;
    quantity::Currency inMillionths;
    inMillionths.exponent = 6;
    return quantity::costOf({whole.millionths, inMillionths}, 1000, static_cast<std::int64_t>(microlitres));
}

void finish(Made& made, Process processed, const Composition& in) {
    made.facts.carbonated |= processed.carbonated;
    if (processed.fermented) addUnique(made.facts.tags, {"fermented_home"});
    made.composition = in;
    const double ml = made.yield.ml();
    if (ml > 0) {
        auto& least = made.least;
        if (processed.strengthLeast) least.strengthPercent = 100 * physics::ethanolVolumeAt20(in).ml() / ml;
        if (processed.sugarLeast) least.sugarGPerL = 1000 * in.sugarGrams() / ml;
        if (processed.acidLeast) least.acidGPerL = 1000 * physics::titratableAcidAsCitric(in).grams() / ml;
        if (processed.brixLeast) least.brix = 100 * in.sugarGrams() / in.totalGrams();
    }
    if (processed.costLeast) made.least.cost = processed.costSoFar;
    if (processed.sugarKnown && in.totalGrams() > 0) made.brix = 100 * in.sugarGrams() / in.totalGrams();
    if (made.cost) made.costPerMl = sharedPerMl(*made.cost, made.yield);
    made.process = std::move(processed);
}

std::optional<quantity::Cost> wholeCost(const spec::Readings& readings, int serves) {
    const Reading& cost = readings[spec::Stage::Served][Quantity::Cost];
    if (cost.bound != Bound::Exact) return std::nullopt;
    return quantity::Cost{static_cast<std::int64_t>(std::llround(cost.value * serves * 1e6))};
}

} // namespace

YieldEntry yieldOf(const Spec& spec) {
    YieldEntry entry;
    if (spec.yieldMl) entry.measured = Volume::fromMl(*spec.yieldMl);
    return entry;
}

std::optional<Made> make(const Spec& written, const Bindings& bindings, const YieldEntry& yield) {
    Spec spec = withoutUnsaidIce(written);
    spec.garnish.clear(); // what decorates a serve is in no batch
    Process processed = process(spec, bindings);
    const Composition& whole = processed.pot;
    if (!(whole.totalGrams() > 0)) return std::nullopt;
    const spec::Readings readings = spec::evaluate(spec, bindings);
    const bool dry = whole[Substance::Water] + whole[Substance::Ethanol] <= 0.1 * whole.totalGrams();
    const Composition in = dry ? whole : bottled(whole, yield);
    const Composition& put = processed.put;
    Made made;
    made.mass = Mass::fromGrams(in.totalGrams());
    made.yield = dry ? Volume() : physics::volumeAt20(in);
    made.yieldMeasured = !dry && isMeasured(yield);
    made.yieldFault = faultOf(yield);
    made.yieldAtMost = processed.atMost && !made.yieldMeasured;
    const double went = put.totalGrams() + processed.gained.totalGrams();
    made.lostShare = std::clamp(1 - in.totalGrams() / went, 0.0, 1.0);
    const double size = dry ? made.mass.grams() : made.yield.ml();
    const double before = dry ? size : physics::volumeAt20(put).ml();
    const double solids = put.totalGrams() - put[Substance::Water];
    const double kept = in.totalGrams() - in[Substance::Water];
    const double concentrated = solids > 0 ? kept / size / (solids / before) : 1;
    made.facts = figures(in, 1000 / size, concentrated, dry, readings[spec::Stage::Served], processed);
    made.cost = wholeCost(readings, std::max(spec.serves, 1));
    inherit(made, spec, bindings);
    finish(made, std::move(processed), in);
    return made;
}

std::optional<FactState> factsOf(const Spec& spec, const Bindings& bindings, const YieldEntry& yield) {
    const auto made = make(spec, bindings, yield);
    return made ? std::optional(made->facts) : std::nullopt;
}

std::optional<larder::Pack> packOf(const Made& made, base::PackId id, quantity::Currency currency) {
    const auto whole = made.cost ? made.cost : made.least.cost;
    if (!whole) return std::nullopt;
    const double size = made.facts.dry ? made.mass.grams() : made.yield.ml();
    constexpr double kAlike = 1e-5; // of the price
    constexpr double kLargest = 1e8;
    std::int64_t batches = 1;
    quantity::Money price;
    for (;; batches *= 10) {
        const quantity::Cost all{whole->millionths * batches};
        price = quantity::roundedToMoney(all, currency);
        const double rounded = static_cast<double>(price.minor) * std::pow(10, 6 - currency.exponent);
        const auto exact = static_cast<double>(all.millionths);
        const double more = 10 * static_cast<double>(batches);
        if (std::abs(rounded - exact) <= kAlike * exact || more * size > kLargest || more > 1e4) break;
        if (more * static_cast<double>(whole->millionths) > 9e18) break;
    }
    larder::Pack pack;
    pack.id = id;
    pack.price = price;
    (made.facts.dry ? pack.forG : pack.forMl) = size * static_cast<double>(batches);
    return pack;
}

} // namespace stillroom::preparation
