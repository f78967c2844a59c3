#include "core/spec/prepared_facts.h"

#include "core/larder/at_least.h"

#include "core/physics/bracketed_root.h"
#include "core/physics/ethanol_water.h"
#include "core/physics/facts_to_masses.h"
#include "core/physics/food_energy.h"
#include "core/physics/mixture.h"
#include "core/physics/solute_volumes.h"
#include "core/physics/sucrose_water.h"
#include "core/physics/titratable_acid.h"

#include <algorithm>
#include <cmath>

namespace stillroom::spec {

using larder::FactState;
using physics::Composition;
using physics::Substance;
using quantity::Density;
using quantity::Mass;
using quantity::MassFraction;
using quantity::Strength;
using quantity::Volume;

namespace {

// Dissolving 1 kg of sugar adds about 0.62 l (reference: ternary, kitchen rule and CRC apparent volumes).
constexpr double kSugarMlPerGram = 0.62;

bool isAcid(Substance s) {
    return s >= Substance::Citric && s <= Substance::Succinic;
}

double typical(const std::optional<larder::Fact>& fact) {
    return fact ? std::max(fact->typical, 0.0) : 0.0;
}

void addSugar(Composition& c, double grams, const larder::Shares& shares) {
    double stated = 0;
    for (const auto& [substance, share] : shares.parts) {
        c[substance] += grams * share;
        stated += share;
    }
    if (stated < 1) c[Substance::Sucrose] += grams * (1 - stated);
}

// Acid is stated as the citric acid it titrates like; the shares are by mass of the acids themselves.
void addAcid(Composition& c, double asCitric, const larder::Shares& shares) {
    double stated = 0;
    double citricPerGram = 0;
    for (const auto& [substance, share] : shares.parts) {
        if (!isAcid(substance)) continue;
        stated += share;
        citricPerGram += share / physics::gramsPerGramCitric(substance);
    }
    const double rest = std::max(1 - stated, 0.0);
    citricPerGram += rest;
    if (!(citricPerGram > 0)) return;
    const double grams = asCitric / citricPerGram;
    for (const auto& [substance, share] : shares.parts)
        if (isAcid(substance)) c[substance] += grams * share;
    c[Substance::Citric] += grams * rest;
}

// Everything but ethanol and water: g per litre of a liquid, g per kg of a dry good.
Composition solutes(const FactState& facts, double sugar, double acid) {
    Composition c;
    addSugar(c, sugar, facts.sugarShares);
    addAcid(c, acid, facts.acidShares);
    c[Substance::Fat] += typical(facts.fatGPerL);
    c[Substance::Protein] += typical(facts.proteinGPerL);
    c[Substance::OtherCarbohydrate] += typical(facts.carbohydrateGPerL);
    c[Substance::OtherSolids] += typical(facts.otherSolidsGPerL);
    c[Substance::Salt] += typical(facts.saltGPerL);
    c[Substance::Caffeine] += typical(facts.caffeineMgPerL) / 1000;
    c[Substance::CarbonDioxide] += typical(facts.co2GPerL);
    return c;
}

// A handbook's density is a typical one beside other typical figures: it may show solids nobody listed,
// but it must not make 1 ml smaller than 1 ml. What somebody measured or a label says is taken as it is.
std::optional<Density> densityToUse(const FactState& facts, const physics::LiquidFacts& liquid) {
    if (!facts.densityKgPerM3) return std::nullopt;
    const Density stated = Density::fromKgPerM3(facts.densityKgPerM3->typical);
    const auto kind = facts.densityKgPerM3->sourceKind;
    if (kind == larder::SourceKind::Measured || kind == larder::SourceKind::Label) return stated;
    const auto model = physics::massesPerMl(liquid);
    if (!model || stated <= model->modelDensity) return std::nullopt;
    return stated;
}

struct PerUnit {
    Composition composition;
    bool assumed = false;
};

// Beside a stated strength an unknown sugar or acid is at most what still fits into the ml.
std::optional<PerUnit> unknownThatFits(const FactState& facts, Strength strength, double sugar, double acid,
                                       std::uint8_t atLargest) {
    if ((atLargest & kStrengthFact) != 0) return std::nullopt;
    const auto with = [&](double share) {
        const double someSugar = (atLargest & kSugarFact) != 0 ? sugar * share : sugar;
        const double someAcid = (atLargest & kAcidFact) != 0 ? acid * share : acid;
        return physics::massesPerMl({strength, solutes(facts, someSugar, someAcid), std::nullopt});
    };
    auto fitting = with(0);
    if (!fitting) return std::nullopt;
    double low = 0;
    double high = 1;
    for (int i = 0; i < 30; ++i) {
        const double middle = 0.5 * (low + high);
        if (auto masses = with(middle)) {
            fitting = std::move(masses);
            low = middle;
        } else {
            high = middle;
        }
    }
    return PerUnit{fitting->perMl, true};
}

PerUnit liquidPerMl(const FactState& facts, std::uint8_t atLargest) {
    // Beside a lower end there is always room above.
    constexpr double kMore = 1.2;
    const auto figure = [&](std::uint8_t bit, double largest, const std::optional<larder::Fact>& fact) {
        return (atLargest & bit) != 0 ? std::max(largest, kMore * typical(fact)) : typical(fact);
    };
    const double abv = figure(kStrengthFact, kLargestStrengthPercent, facts.abvPercent);
    const double sugar = figure(kSugarFact, kLargestSugarGPerL, facts.sugarGPerL);
    const double acid = figure(kAcidFact, kLargestAcidGPerL, facts.acidGPerL);
    physics::LiquidFacts liquid{Strength::fromPercentVol(std::min(abv, 100.0)), solutes(facts, sugar, acid),
                                std::nullopt};
    if (atLargest == 0) liquid.measuredDensity = densityToUse(facts, liquid);
    if (const auto masses = physics::massesPerMl(liquid)) return {masses->perMl, false};
    liquid.measuredDensity.reset();
    if (const auto masses = physics::massesPerMl(liquid)) return {masses->perMl, true};
    if (const auto capped = unknownThatFits(facts, liquid.strength, sugar, acid, atLargest)) return *capped;
    // More than a ml of solutes and ethanol: keep the solutes, and as much ethanol as then fits.
    double low = 0;
    double high = liquid.strength.fraction();
    PerUnit fitted;
    fitted.assumed = true;
    fitted.composition.addScaled(liquid.gramsPerLitre, 1e-3);
    for (int i = 0; i < 30; ++i) {
        const double middle = 0.5 * (low + high);
        liquid.strength = Strength::fromFraction(middle);
        if (const auto masses = physics::massesPerMl(liquid)) {
            fitted.composition = masses->perMl;
            low = middle;
        } else {
            high = middle;
        }
    }
    return fitted;
}

// Whether the figures are a whole analysis, so that what is left of the kilogram is moisture; else it is
// solids of no stated kind.
bool isAnalysed(const FactState& facts) {
    return !facts.soluble || facts.otherSolidsGPerL || (facts.fatGPerL && facts.proteinGPerL);
}

PerUnit dryPerGram(const FactState& facts, std::uint8_t atLargest) {
    constexpr double kWhole = 1000; // g per kg: all of it
    const double known = solutes(facts, typical(facts.sugarGPerL), typical(facts.acidGPerL)).totalGrams();
    const double rest = std::max(kWhole - known, 0.0);
    constexpr double kLargestFoodAcid = 30; // g per kg; from memory: fruit, lemon and lime aside
    const double foodAcid = facts.soluble ? kLargestFoodAcid : kLargestAcidGPerL;
    const double mostAcid = isAnalysed(facts) ? std::min(rest, foodAcid) : rest;
    const bool sugarOpen = (atLargest & kSugarFact) != 0;
    const bool acidOpen = (atLargest & kAcidFact) != 0;
    const double acid = acidOpen ? mostAcid : typical(facts.acidGPerL);
    const double sugar = sugarOpen ? rest - (acidOpen ? acid : 0) : typical(facts.sugarGPerL);
    Composition c = solutes(facts, sugar, acid);
    const double stated = c.totalGrams();
    const Substance left = isAnalysed(facts) ? Substance::Water : Substance::OtherSolids;
    if (stated < kWhole) c[left] += kWhole - stated;
    Composition perGram;
    perGram.addScaled(c, 1.0 / std::max(stated, kWhole));
    constexpr double kRounding = 1.01; // figures of an analysis may sum a little past the whole
    return {perGram, stated > kWhole * kRounding && atLargest == 0};
}

// Herbs, spices and what hangs on the rim.
bool isFlavouring(const FactState& facts) {
    return facts.dry && !facts.soluble &&
           (facts.group == "aromatic" || facts.group == "spice" || facts.group == "garnish" ||
            facts.group == "salt");
}

std::uint8_t unknownFacts(const FactState& facts) {
    std::uint8_t bits = 0;
    const auto open = [&](const std::optional<larder::Fact>& fact, std::string_view atLeast) {
        return !fact || larder::hasTag(facts, atLeast);
    };
    if (!facts.dry && open(facts.abvPercent, larder::kStrengthAtLeast)) bits |= kStrengthFact;
    if (open(facts.sugarGPerL, larder::kSugarAtLeast)) bits |= kSugarFact;
    if (open(facts.acidGPerL, larder::kAcidAtLeast)) bits |= kAcidFact;
    return bits;
}

} // namespace

Totals totalsOf(const Composition& c) noexcept {
    Totals t;
    t.ethanolG = c[Substance::Ethanol];
    t.waterG = c[Substance::Water];
    t.sugarG = c.sugarGrams();
    for (std::size_t i = 0; i < physics::kSubstanceCount; ++i)
        t.soluteMl += physics::kSoluteMlPerGram[i] * c.grams[i];
    t.acidG = physics::titratableAcidAsCitric(c).grams();
    t.massG = c.totalGrams();
    const auto energy = physics::foodEnergy(c);
    t.kj = energy.kj;
    t.kcal = energy.kcal;
    return t;
}

VolumeOfTotals volumeTerms(const Totals& t) noexcept {
    VolumeOfTotals terms;
    terms.soluteMl = t.soluteMl;
    const double ethanolAndWater = t.ethanolG + t.waterG;
    if (ethanolAndWater > 0) {
        terms.ethanolShare = std::clamp(t.ethanolG / ethanolAndWater, 0.0, 1.0);
        const Density rho = physics::ethanolWaterDensityAt20(MassFraction::fromFraction(terms.ethanolShare));
        terms.densityKgPerM3 = rho.kgPerM3();
        terms.ethanolWaterMl = (Mass::fromGrams(ethanolAndWater) / rho).ml();
    }
    if (t.sugarG > 0)
        terms.sugarMl = physics::sugarVolumeAt20(Mass::fromGrams(t.sugarG), Mass::fromGrams(t.waterG)).ml();
    return terms;
}

double volumeMl(const Totals& t) noexcept {
    const VolumeOfTotals terms = volumeTerms(t);
    return terms.soluteMl + terms.ethanolWaterMl + terms.sugarMl;
}

PreparedFacts prepare(const FactState& facts) {
    PreparedFacts p;
    p.unknown = unknownFacts(facts);
    p.dry = facts.dry;
    p.soluble = facts.soluble;
    p.flavouring = isFlavouring(facts);
    for (std::uint8_t set = 0; set < p.totals.size(); ++set) {
        if ((set & ~p.unknown) != 0) continue;
        const PerUnit unit = facts.dry ? dryPerGram(facts, set) : liquidPerMl(facts, set);
        p.totals[set] = totalsOf(unit.composition);
        // A stated density holds whatever the liquid is made of.
        if (!facts.dry && facts.densityKgPerM3) p.totals[set].massG = p.totals[0].massG;
        if (set == 0) {
            p.perUnit = unit.composition;
            p.assumed = unit.assumed;
        }
    }
    p.densityKnown = facts.densityKgPerM3.has_value() || (!facts.dry && p.unknown != kAllFacts);
    if (facts.dry) {
        p.bulkGPerMl = facts.densityKgPerM3 ? facts.densityKgPerM3->typical / 1000 : 0;
        p.dissolvedMl = p.totals[0].sugarG * kSugarMlPerGram + p.totals[0].soluteMl + p.totals[0].waterG;
    } else {
        p.densityGPerMl = p.totals[0].massG > 0 ? p.totals[0].massG : 1;
        if (const auto found = contradictionIn(facts))
            p.contradiction = std::array<double, 2>{found->offKgPerM3(), found->asSugarGPerL};
        p.plainWater = p.unknown == 0 && p.totals[0].massG == p.totals[0].waterG && !facts.carbonated;
    }
    return p;
}

namespace {

constexpr double kModelIsKnownTo = 0.003; // physics/mixture.h

double modelKgPerM3(const physics::LiquidFacts& liquid) {
    const auto masses = physics::massesPerMl(liquid);
    return masses ? masses->modelDensity.kgPerM3() : 0;
}

} // namespace

std::optional<Contradiction> contradictionIn(const FactState& facts) {
    if (facts.dry || !facts.abvPercent || !facts.sugarGPerL) return std::nullopt;
    const double sugar = typical(facts.sugarGPerL);
    const double acid = typical(facts.acidGPerL);
    physics::LiquidFacts liquid{Strength::fromPercentVol(typical(facts.abvPercent)),
                                solutes(facts, sugar, acid), std::nullopt};
    Contradiction found;
    found.computedKgPerM3 = modelKgPerM3(liquid);
    if (facts.densityKgPerM3) found.statedKgPerM3 = facts.densityKgPerM3->typical;
    if (!(found.computedKgPerM3 > 0)) return found; // no litre holds so much
    if (!facts.densityKgPerM3) return std::nullopt;
    const auto kind = facts.densityKgPerM3->sourceKind;
    if (kind != larder::SourceKind::Measured && kind != larder::SourceKind::Label) return std::nullopt;
    if (std::abs(found.offKgPerM3()) <= kModelIsKnownTo * found.computedKgPerM3) return std::nullopt;
    // From no sugar at all to as much as fits.
    double most = 1300;
    const auto with = [&](double grams) {
        liquid.gramsPerLitre = solutes(facts, grams, acid);
        return modelKgPerM3(liquid);
    };
    while (most > sugar + 1 && !(with(most) > 0))
        most = sugar + 0.95 * (most - sugar);
    const auto agreed = physics::bracketedRoot(
        [&](double grams) { return with(grams) - found.statedKgPerM3; }, 0.0, most, 1e-6);
    // Beyond both: as the slope of a sugared liquid has it, 1 kg/m³ to about 2.6 g/l (physics/blending.h).
    constexpr double kGramsPerKgPerM3 = 2.6;
    found.asSugarGPerL = agreed ? *agreed - sugar : kGramsPerKgPerM3 * found.offKgPerM3();
    return found;
}

const PreparedFacts& nothingKnown() {
    static const PreparedFacts none = prepare(FactState{});
    return none;
}

} // namespace stillroom::spec
