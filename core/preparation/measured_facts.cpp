#include "core/preparation/measured_facts.h"

#include "core/physics/bracketed_root.h"
#include "core/physics/ethanol_water.h"
#include "core/physics/facts_to_masses.h"
#include "core/physics/hydrometer.h"
#include "core/physics/mixture.h"
#include "core/physics/refraction.h"
#include "core/physics/sucrose_water.h"
#include "core/physics/titratable_acid.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace stillroom::preparation {

using larder::Fact;
using larder::SourceKind;
using physics::Composition;
using physics::Substance;
using quantity::Density;
using quantity::MassFraction;
using quantity::Strength;
using quantity::Temperature;
using quantity::Volume;

namespace {

constexpr double kMostSugarGPerL = 1200; // nothing holds so much
constexpr Temperature kTwenty = Temperature::fromCelsius(20);

bool isSound(double value, double low, double high) {
    return value >= low && value <= high;
}

Fact measuredFact(double value, double error, std::string source, const std::string& on) {
    Fact fact;
    fact.typical = std::max(value, 0.0);
    fact.low = std::max(value - error, 0.0);
    fact.high = std::max(value + error, 0.0);
    fact.sourceKind = SourceKind::Measured;
    fact.source = std::move(source);
    fact.on = on;
    return fact;
}

std::optional<Composition> perLitre(Strength strength, double sugarGPerL) {
    physics::LiquidFacts facts;
    facts.strength = strength;
    facts.gramsPerLitre[Substance::Sucrose] = sugarGPerL;
    const auto masses = physics::massesPerMl(facts);
    if (!masses) return std::nullopt;
    Composition litre;
    litre.addScaled(masses->perMl, 1000);
    return litre;
}

// The largest sugar that still fits beside the alcohol.
double mostSugar(Strength strength) {
    double low = 0;
    double high = kMostSugarGPerL;
    for (int i = 0; i < 50; ++i) {
        const double middle = 0.5 * (low + high);
        (perLitre(strength, middle) ? low : high) = middle;
    }
    return low;
}

// The root of a function that rises with the sugar; the ends where it lies outside.
template <class F>
std::optional<double> sugarWhere(Strength strength, F excess) {
    if (!perLitre(strength, 0)) return std::nullopt;
    return physics::bracketedRoot(excess, 0.0, mostSugar(strength), 1e-9);
}

// g/l that give this density at this temperature; below zero where it is lighter than the spirit alone.
std::optional<double> sugarOfDensity(Density density, Temperature t, Strength strength) {
    const auto excess = [&](double sugar) {
        const auto litre = perLitre(strength, sugar);
        const auto volume = litre ? physics::volumeAt(*litre, t) : std::nullopt;
        if (!volume) return std::nan("");
        return litre->totalGrams() / volume->value.ml() * 1000 - density.kgPerM3();
    };
    const double without = excess(0);
    if (!std::isfinite(without)) return std::nullopt;
    constexpr double kGPerLPerKgPerM3 = 2.6; // physics/blending.h
    if (without >= 0) return -without * kGPerLPerKgPerM3;
    return sugarWhere(strength, excess);
}

// A figure and every error by itself.
struct Reckoned {
    double value = 0;
    std::vector<ErrorShare> errors;
    double error() const {
        double sum = 0;
        for (const ErrorShare& share : errors)
            sum += share.by * share.by;
        return std::sqrt(sum);
    }
};

std::vector<ErrorShare> sharesOf(const std::optional<Reckoned>& reckoned) {
    return reckoned ? reckoned->errors : std::vector<ErrorShare>();
}

// How far `of` moves when its argument does; half the distance between both sides, one side at an edge.
template <class F>
double moved(F of, double at, double by, double here) {
    const std::optional<double> up = of(at + by);
    const std::optional<double> down = of(at - by);
    if (up && down) return 0.5 * std::abs(*up - *down);
    if (up) return std::abs(*up - here);
    if (down) return std::abs(*down - here);
    return 0;
}

// CRC Handbook of Chemistry and Physics, 102nd ed. (2021), concentrative properties, 20 °C: nD of ethanol in
// water by g/100 g.
constexpr std::array<std::array<double, 2>, 12> kEthanolIndex{{{0, 1.3330},
                                                               {5, 1.3360},
                                                               {10, 1.3395},
                                                               {15, 1.3432},
                                                               {20, 1.3469},
                                                               {24, 1.3498},
                                                               {28, 1.3524},
                                                               {32, 1.3546},
                                                               {36, 1.3566},
                                                               {40, 1.3583},
                                                               {44, 1.3598},
                                                               {50, 1.3616}}};

std::optional<double> ethanolAdds(double massPercent) {
    if (!isSound(massPercent, 0, kEthanolIndex.back()[0])) return std::nullopt;
    for (std::size_t i = 1; i < kEthanolIndex.size(); ++i) {
        const auto& [low, atLow] = kEthanolIndex[i - 1];
        const auto& [high, atHigh] = kEthanolIndex[i];
        if (massPercent <= high)
            return atLow + (atHigh - atLow) * (massPercent - low) / (high - low) - kEthanolIndex[0][1];
    }
    return std::nullopt;
}

std::optional<double> apparentIndex(Strength strength, double sugarGPerL) {
    const auto litre = perLitre(strength, sugarGPerL);
    if (!litre) return std::nullopt;
    const double total = litre->totalGrams();
    const auto sugar = physics::refractiveIndex(MassFraction::fromFraction(litre->sugarGrams() / total));
    const auto ethanol = ethanolAdds(100 * (*litre)[Substance::Ethanol] / total);
    if (!sugar || !ethanol) return std::nullopt;
    return *sugar + *ethanol;
}

// What a refractometer does not tell from sugar; fat and gas are not dissolved in what it looks through.
double dissolvedGrams(const Composition& of) {
    return of.totalGrams() - of[Substance::Ethanol] - of[Substance::Water] - of[Substance::Fat] -
           of[Substance::CarbonDioxide];
}

std::optional<double> sugarOfIndex(double brix, Strength strength) {
    const auto index = physics::refractiveIndex(MassFraction::fromPercent(brix));
    if (!index) return std::nullopt;
    const auto excess = [&](double sugar) {
        const auto n = apparentIndex(strength, sugar);
        return n ? *n - *index : 1.0; // beyond the scale is above any reading
    };
    const auto none = apparentIndex(strength, 0);
    if (!none) return std::nullopt;
    constexpr double kGPerLPerIndex = 6500; // 10 g/l of sugar is 0.0015
    if (*none >= *index) return -(*none - *index) * kGPerLPerIndex;
    return sugarWhere(strength, excess);
}

std::optional<Reckoned> reckoned(const WeighedLiqueur& m) {
    if (!isSound(m.volume.ml(), 1e-3, 1e6) || !isSound(m.net.grams(), 1e-3, 1e7)) return std::nullopt;
    if (!isSound(m.label.fraction(), 0, 0.99) || !isSound(m.t.celsius(), -20, 60)) return std::nullopt;
    const auto sugar = [&](double grams, double ml, double strength) {
        return sugarOfDensity(physics::densityFromAir(quantity::Mass::fromGrams(grams) / Volume::fromMl(ml)),
                              m.t, Strength::fromFraction(strength));
    };
    const double grams = m.net.grams();
    const double ml = m.volume.ml();
    const double strength = m.label.fraction();
    const auto value = sugar(grams, ml, strength);
    if (!value) return std::nullopt;
    const auto byGrams = [&](double off) {
        return moved([&](double g) { return sugar(g, ml, strength); }, grams, off, *value);
    };
    const double byVolume =
        moved([&](double v) { return sugar(grams, v, strength); }, ml, m.volumeError.ml(), *value);
    const double byLabel =
        moved([&](double s) { return sugar(grams, ml, s); }, strength, m.labelError.fraction(), *value);
    return Reckoned{*value,
                    {{ErrorOf::Scale, byGrams(m.scaleError.grams())},
                     {ErrorOf::Volume, byVolume},
                     {ErrorOf::Label, byLabel},
                     {ErrorOf::Model, byGrams(kMixtureModelKgPerM3 * ml / 1000)}}};
}

std::optional<Reckoned> reckoned(const Refracted& m) {
    if (!isSound(m.brix, 0, 85) || !isSound(m.label.fraction(), 0, 0.99)) return std::nullopt;
    const auto value = sugarOfIndex(m.brix, m.label);
    if (!value) return std::nullopt;
    constexpr double kModelBrix = 1;
    const auto atBrix = [&](double brix) { return sugarOfIndex(brix, m.label); };
    const double byLabel = moved([&](double s) { return sugarOfIndex(m.brix, Strength::fromFraction(s)); },
                                 m.label.fraction(), m.labelError.fraction(), *value);
    return Reckoned{
        *value,
        {{ErrorOf::Reading, moved(atBrix, m.brix, m.brixError, *value)},
         {ErrorOf::Label, byLabel},
         {ErrorOf::Model, m.label.fraction() > 0 ? moved(atBrix, m.brix, kModelBrix, *value) : 0}}};
}

std::optional<Reckoned> reckoned(const Titrated& m) {
    constexpr double kCitricEquivalent = 64.041; // g/mol: acids, titratable_acidity_equivalents
    if (!isSound(m.sample.ml(), 1e-3, 1e6) || !isSound(m.base.ml(), 0, 1e6) || !isSound(m.molPerL, 1e-6, 20))
        return std::nullopt;
    const double value = m.base.ml() * m.molPerL * kCitricEquivalent / m.sample.ml();
    const double byBase = m.baseError.ml() * m.molPerL * kCitricEquivalent / m.sample.ml();
    return Reckoned{
        value, {{ErrorOf::Volume, value * m.sampleError.ml() / m.sample.ml()}, {ErrorOf::Reading, byBase}}};
}

} // namespace

std::optional<Fact> sugarFromWeighing(const WeighedLiqueur& m, const std::string& on) {
    const auto found = reckoned(m);
    if (!found || found->value + found->error() < 0) return std::nullopt;
    return measuredFact(found->value, found->error(),
                        fmt::format("{:g} ml weighed {:g} g at {:g} °C, labelled {:g} % vol", m.volume.ml(),
                                    m.net.grams(), m.t.celsius(), m.label.percentVol()),
                        on);
}

std::vector<ErrorShare> errorShares(const WeighedLiqueur& m) {
    return sharesOf(reckoned(m));
}

std::optional<Fact> sugarFromRefractometer(const Refracted& m, const std::string& on) {
    const auto found = reckoned(m);
    if (!found || found->value + found->error() < 0) return std::nullopt;
    return measuredFact(
        found->value, found->error(),
        fmt::format("refractometer {:g} °Bx, labelled {:g} % vol", m.brix, m.label.percentVol()), on);
}

std::vector<ErrorShare> errorShares(const Refracted& m) {
    return sharesOf(reckoned(m));
}

std::optional<double> refractometerShows(const Composition& of) {
    const double total = of.totalGrams();
    if (!(total > 0) || !std::isfinite(total)) return std::nullopt;
    const auto sugar = physics::refractiveIndex(MassFraction::fromPercent(100 * dissolvedGrams(of) / total));
    const auto ethanol = ethanolAdds(100 * of[Substance::Ethanol] / total);
    if (!sugar || !ethanol) return std::nullopt;
    const auto shown = physics::brixFromRefractiveIndex(*sugar + *ethanol);
    return shown ? std::optional(shown->percent()) : std::nullopt;
}

std::optional<SyrupMeasured> brixFromHydrometer(const Floated& m, const std::string& on) {
    if (!isSound(m.brix, 0, 85) || !isSound(m.t.celsius(), 0, 100)) return std::nullopt;
    constexpr double kGlassPerK = 25e-6; // physics/hydrometer.h
    const auto trueBrix = [&](double read) -> std::optional<double> {
        if (!isSound(read, 0, 85)) return std::nullopt;
        const double stem = physics::sucroseWaterDensityAt20(MassFraction::fromPercent(read)).kgPerM3();
        const double rho = stem / (1 + kGlassPerK * m.t.minus(kTwenty));
        const auto found = physics::brixFromDensity(Density::fromKgPerM3(rho), m.t);
        return found ? std::optional(found->value.percent()) : std::nullopt;
    };
    const auto value = trueBrix(m.brix);
    if (!value) return std::nullopt;
    const double error = moved(trueBrix, m.brix, m.brixError, *value);
    const auto perLitreAt20 = [](double brix) {
        return physics::sucroseWaterDensityAt20(MassFraction::fromPercent(brix)).kgPerM3() * brix / 100;
    };
    const double gPerL = perLitreAt20(*value);
    SyrupMeasured syrup;
    syrup.brix = MassFraction::fromPercent(*value);
    syrup.sugarGPerL = measuredFact(gPerL, perLitreAt20(std::min(*value + error, 85.0)) - gPerL,
                                    fmt::format("hydrometer {:g} °Bx at {:g} °C", m.brix, m.t.celsius()), on);
    return syrup;
}

std::optional<Fact> acidFromTitration(const Titrated& m, const std::string& on) {
    const auto found = reckoned(m);
    if (!found) return std::nullopt;
    return measuredFact(found->value, found->error(),
                        fmt::format("{:g} ml titrated with {:g} ml of {:g} mol/l base", m.sample.ml(),
                                    m.base.ml(), m.molPerL),
                        on);
}

std::vector<ErrorShare> errorShares(const Titrated& m) {
    return sharesOf(reckoned(m));
}

std::optional<Fact> yieldOfFruit(Volume got, int pieces, Volume error, const std::string& on) {
    if (pieces < 1 || !isSound(got.ml(), 1e-3, 1e6) || !isSound(error.ml(), 0, 1e6)) return std::nullopt;
    return measuredFact(got.ml() / pieces, error.ml() / pieces,
                        fmt::format("{} squeezed to {:g} ml", pieces, got.ml()), on);
}

std::optional<Fact> yieldOfFruit(const std::vector<Volume>& each, const std::string& on) {
    if (each.empty()) return std::nullopt;
    double sum = 0;
    for (const Volume& one : each) {
        if (!isSound(one.ml(), 0, 1e6)) return std::nullopt;
        sum += one.ml();
    }
    if (!(sum > 0)) return std::nullopt;
    const auto [low, high] = std::minmax_element(each.begin(), each.end());
    Fact fact = measuredFact(sum / static_cast<double>(each.size()), 0,
                             fmt::format("{} squeezed one by one to {:g} ml", each.size(), sum), on);
    fact.low = low->ml();
    fact.high = high->ml();
    return fact;
}

} // namespace stillroom::preparation
