#include "core/physics/blending.h"
#include "core/physics/bracketed_root.h"
#include "core/physics/conversions/conversion_kit.h"
#include "core/physics/ethanol_water.h"
#include "core/physics/facts_to_masses.h"
#include "core/physics/hydrometer.h"
#include "core/physics/mixture.h"
#include "core/physics/proof.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

// How strong a liquid is, said in every scale, and read off a hydrometer or a density.
namespace stillroom::physics {

using quantity::Density;
using quantity::MassFraction;
using quantity::Strength;
using quantity::Temperature;

namespace {

// As it is written, with two decimals.
double mostUkProof() {
    return std::ceil(ukProofOf(MassFraction::fromFraction(1))->degrees() * 100) / 100;
}

tl::expected<Marked<MassFraction>, ConversionProblem> ethanolShare(const GivenValues& given) {
    const auto certain = [](const std::optional<MassFraction>& p,
                            std::string_view key) -> tl::expected<Marked<MassFraction>, ConversionProblem> {
        if (!p) return impossible(key, "No mixture of ethanol and water has this strength.");
        return Marked<MassFraction>{*p, false};
    };
    if (given.has("abv")) return certain(massFractionOf(given.strength("abv")), "abv");
    if (given.has("us_proof"))
        return certain(massFractionOf(UsProof::fromDegrees(given["us_proof"])), "us_proof");
    if (given.has("uk_proof"))
        return certain(massFractionOf(UkProof::fromDegrees(withinWritten(
                           given["uk_proof"], 0, ukProofOf(MassFraction::fromFraction(1))->degrees(), 2))),
                       "uk_proof");
    if (given.has("mass_percent")) return certain(given.percent("mass_percent"), "mass_percent");
    const Temperature t = given.celsius("t");
    const double ethanol = ethanolWaterDensity(MassFraction::fromFraction(1), t)->value.kgPerM3();
    const double water = ethanolWaterDensity(MassFraction::fromFraction(0), t)->value.kgPerM3();
    const auto p =
        massFractionFromDensity(Density::fromKgPerM3(withinWritten(given["density"], ethanol, water, 2)), t);
    if (p) return *p;
    return outside("density", ethanol, water,
                   "Those are the densities of ethanol and of water at this temperature; sugar makes a "
                   "liquid heavier, and then strength, sugar and density belong together.");
}

Outcome strength(const GivenValues& given) {
    const auto p = ethanolShare(given);
    if (!p) return tl::unexpected(p.error());
    const auto density = ethanolWaterDensity(p->value, given.celsius("t"));
    const auto abv = strengthOf(p->value);
    Answer answer;
    if (abv)
        answer.put("abv", abv->percentVol(), p->estimate)
            .put("ethanol_g_per_l", abv->fraction() * kEthanolKgPerM3At20, p->estimate);
    if (const auto us = usProofOf(p->value)) answer.put("us_proof", us->degrees(), p->estimate);
    if (const auto uk = ukProofOf(p->value)) answer.put("uk_proof", uk->degrees(), p->estimate);
    answer.put("mass_percent", p->value.percent(), p->estimate);
    if (density) answer.put("density", density->value.kgPerM3(), density->estimate || p->estimate);
    return answer;
}

constexpr std::string_view kDoesNotFloat =
    "No mixture of ethanol and water floats a hydrometer there at this temperature. Check both figures, and "
    "that nothing is dissolved.";

// What the hydrometer shows in a liquid of this true strength: the inverse of trueStrength and trueProof.
// `truth` gives the deviation of a reading, nullopt where no mixture floats it.
template <class F>
std::optional<double> shownAt(F&& truth, double wanted, double most) {
    const auto deviation = [&](double shown) {
        const std::optional<double> t = truth(shown);
        if (t) return *t - wanted;
        return shown < most / 2 ? -most : most; // lighter than water may be, or heavier than ethanol
    };
    const auto shown = bracketedRoot(deviation, 0.0, most, 1e-10);
    if (!shown || std::abs(deviation(*shown)) > 1e-4) return std::nullopt;
    return shown;
}

std::optional<double> shownStrength(double wanted, Temperature t) {
    return shownAt(
        [&](double shown) -> std::optional<double> {
            const auto truth = trueStrength(Strength::fromPercentVol(shown), t);
            return truth ? std::optional(truth->value.percentVol()) : std::nullopt;
        },
        wanted, 100);
}

std::optional<double> shownProof(double wanted, Temperature t) {
    return shownAt(
        [&](double shown) -> std::optional<double> {
            const auto truth = trueProof(UsProof::fromDegrees(shown), t);
            return truth ? std::optional(truth->value.degrees()) : std::nullopt;
        },
        wanted, 200);
}

// 27 CFR 30.61, Table 1.
bool isInProofTable(Temperature t) {
    return t >= Temperature::fromFahrenheit(33) && t <= Temperature::fromFahrenheit(100);
}

Outcome hydrometer(const GivenValues& given) {
    const Temperature t = given.celsius("t");
    std::optional<Marked<Strength>> truth;
    std::string_view key = "abv";
    if (given.has("reading")) {
        key = "reading";
        truth = trueStrength(given.strength("reading"), t);
    } else if (given.has("reading_proof")) {
        key = "reading_proof";
        const auto proof = trueProof(UsProof::fromDegrees(given["reading_proof"]), t);
        const auto abv = proof ? strengthOf(proof->value) : std::nullopt;
        if (abv) truth = Marked<Strength>{*abv, proof->estimate};
    } else {
        truth = Marked<Strength>{given.strength("abv"), t.celsius() < -20 || t.celsius() > 40};
    }
    if (!truth) return impossible(key, kDoesNotFloat);
    truth->estimate = truth->estimate || !isInProofTable(t);
    const auto proof = usProofOf(truth->value);
    Answer answer;
    if (!isInProofTable(t))
        answer.remark(
            "The published table that this is checked against goes from 33 to 100 °F (0.6 to 37.8 °C): "
            "bring the liquid into that range where it matters.");
    answer.put("abv", truth->value.percentVol(), truth->estimate);
    if (proof) answer.put("us_proof", proof->degrees(), truth->estimate);
    const auto reading =
        given.has("reading") ? given["reading"] : shownStrength(truth->value.percentVol(), t);
    answer.put("reading", reading, truth->estimate);
    if (given.has("reading_proof"))
        answer.put("reading_proof", given["reading_proof"], truth->estimate);
    else if (proof)
        answer.put("reading_proof", shownProof(proof->degrees(), t), truth->estimate);
    return answer;
}

Outcome obscured(const GivenValues& given) {
    const Strength actual = given.strength("abv");
    const auto low = obscuration(actual, given["sugar"]);
    const auto proof = usProofOf(actual);
    const bool none = actual.fraction() == 0;
    if (!low && none)
        return impossible("abv", "Without alcohol there is no strength for a hydrometer to show.");
    if (!low || !proof)
        return impossible("sugar",
                          "With so much sugar the liquid is heavier than water, and an alcoholometer "
                          "shows nothing. Distil, or take the strength from the recipe.");
    const auto sweet = liquidPerMl(PlainLiquid{actual, given["sugar"], 0, 0});
    if (!sweet) return tl::unexpected(sweet.error());
    const auto shown = strengthOf(*proof - *low);
    Answer answer;
    const bool estimate = given["sugar"] > 0;
    answer.put("too_low_proof", low->degrees(), estimate);
    if (shown) {
        answer.put("shown", shown->percentVol(), estimate);
        answer.put("too_low", actual.percentVol() - shown->percentVol(), estimate);
    }
    return answer.remark(undissolvedRemark(*sweet));
}

std::optional<double> densityOf(const PlainLiquid& liquid) {
    const auto masses = perMl(liquid);
    if (!masses) return std::nullopt;
    return masses->totalGrams() * 1000;
}

constexpr double kWrittenKgPerM3 = 0.005;

// The strength of a liquid of this sugar and density: lighter the stronger.
std::optional<Strength> strengthFrom(double sugarGPerL, double density) {
    PlainLiquid liquid;
    liquid.sugarGPerL = sugarGPerL;
    const auto excess = [&](double fraction) {
        liquid.strength = Strength::fromFraction(fraction);
        const auto rho = densityOf(liquid);
        return rho ? *rho - density : -density; // no room for so much ethanol: too light
    };
    const double weakest = excess(0);
    if (weakest < 0 && weakest >= -kWrittenKgPerM3) return Strength();
    const auto fraction = bracketedRoot(excess, 0.0, 1.0, 1e-13);
    if (!fraction || std::abs(excess(*fraction)) > 1e-4) return std::nullopt;
    return Strength::fromFraction(*fraction);
}

// The density range that this strength leaves, unsweetened to as much sugar as fits.
tl::unexpected<ConversionProblem> noSugarReaches(PlainLiquid liquid) {
    const auto least = densityOf(liquid);
    liquid.sugarGPerL = mostSugarGPerL(liquid.strength);
    return outside("density", least, densityOf(liquid),
                   "That is the spirit without sugar, and with as much as fits into a litre beside it.");
}

tl::unexpected<ConversionProblem> noStrengthReaches(PlainLiquid liquid) {
    const auto most = densityOf(liquid);
    double low = 0;
    double high = 1;
    while (high - low > 1e-9) {
        const double middle = 0.5 * (low + high);
        liquid.strength = Strength::fromFraction(middle);
        (densityOf(liquid) ? low : high) = middle;
    }
    liquid.strength = Strength::fromFraction(low);
    return outside(
        "density", densityOf(liquid), most,
        "That is as much alcohol as fits into a litre beside the sugar, and so much sugar in water "
        "alone.");
}

// Strength, sugar and density all given: by how much they contradict each other, in each.
Outcome contradiction(const GivenValues& given, const Composition& masses, const PlainLiquid& liquid) {
    const double model = masses.totalGrams() * 1000;
    const double apart = given["density"] - model;
    // Half a digit as written, or what is known of a strong sweet liquid (mixture.h).
    const double known = volumeIsEstimate(masses) ? 0.003 * model : std::max(0.05, 0.0003 * model);
    const bool estimate = volumeIsEstimate(masses);
    Answer answer;
    answer.put("abv", liquid.strength.percentVol()).put("sugar", liquid.sugarGPerL);
    answer.put("density", given["density"]);
    if (const auto share = brix(masses)) answer.put("brix", share->percent(), estimate);
    answer.put("density_by_both", model, estimate).put("density_apart", apart, estimate);
    const auto sugar = sugarGPerLFrom(liquid.strength, Density::fromKgPerM3(given["density"]));
    if (sugar) answer.put("sugar_apart", liquid.sugarGPerL - *sugar, estimate);
    const auto abv = strengthFrom(liquid.sugarGPerL, given["density"]);
    if (abv) answer.put("abv_apart", liquid.strength.percentVol() - abv->percentVol(), estimate);
    if (std::abs(apart) <= known)
        return answer.remark(
            fmt::format("The three agree: they are {:.2f} kg/m³ apart, and {:.1f} is what is known "
                        "of such a liquid.",
                        std::abs(apart), known));
    return answer.remark(
        fmt::format("The three contradict each other: the density given is {:.2f} kg/m³ {} than "
                    "strength and sugar make it. One of them is wrong, or something else is "
                    "dissolved.",
                    std::abs(apart), apart > 0 ? "more" : "less"));
}

Outcome liqueurSugar(const GivenValues& given) {
    PlainLiquid liquid;
    if (given.has("abv")) liquid.strength = given.strength("abv");
    if (given.has("sugar")) liquid.sugarGPerL = given["sugar"];
    if (!given.has("sugar")) {
        const auto sugar = sugarGPerLFrom(liquid.strength, Density::fromKgPerM3(given["density"]));
        if (!sugar) return noSugarReaches(liquid);
        liquid.sugarGPerL = *sugar;
    } else if (!given.has("abv")) {
        if (!densityOf(liquid)) return impossible("sugar", kDoesNotFit);
        const auto abv = strengthFrom(liquid.sugarGPerL, given["density"]);
        if (!abv) return noStrengthReaches(liquid);
        liquid.strength = *abv;
    }
    const auto masses = liquidPerMl(liquid, given.has("sugar") ? "sugar" : "density");
    if (!masses) return tl::unexpected(masses.error());
    if (given.has("abv") && given.has("sugar") && given.has("density"))
        return contradiction(given, *masses, liquid);
    const bool estimate = volumeIsEstimate(*masses);
    Answer answer;
    answer.put("abv", liquid.strength.percentVol(), estimate && !given.has("abv"));
    answer.put("sugar", liquid.sugarGPerL, estimate && !given.has("sugar"));
    answer.put("density", masses->totalGrams() * 1000, estimate && !given.has("density"));
    if (const auto share = brix(*masses)) answer.put("brix", share->percent(), estimate);
    return answer.remark(undissolvedRemark(*masses));
}

} // namespace

std::vector<Conversion> strengthConversions() {
    using N = InputNeed;
    const ConversionInput temperature{"t", "Temperature of the density", "°C", N::Optional, -60, 110, false,
                                      20};
    return {
        {"strength",
         "Strength in every scale, and density at a temperature",
         {{"abv", "Strength at 20 °C", "% vol", N::OneOf, 0, 100},
          {"us_proof", "US proof", "° proof", N::OneOf, 0, 200},
          {"uk_proof", "British proof", "° proof", N::OneOf, 0, mostUkProof()},
          {"mass_percent", "Ethanol by mass", "% mass", N::OneOf, 0, 100},
          {"density", "Density", "kg/m³", N::OneOf, 650, 1100},
          temperature},
         {{"abv", "Strength at 20 °C", "% vol", 2},
          {"us_proof", "US proof", "° proof", 2},
          {"uk_proof", "British proof", "° proof", 2},
          {"mass_percent", "Ethanol by mass", "% mass", 3},
          {"density", "Density", "kg/m³", 2},
          {"ethanol_g_per_l", "Ethanol at 20 °C", "g/l", 1}},
         "OIML R 22 (1973); US proof 27 CFR 30.11; British proof after Sikes, from memory",
         "Ethanol and water alone. An estimate outside -20 to +40 °C and where the mixture is partly ice. "
         "Density in vacuo.",
         strength},
        {"hydrometer",
         "What a hydrometer reading means at the temperature of the liquid",
         {{"reading", "Reading of an alcoholometer made for 20 °C", "% vol", N::OneOf, 0, 100},
          {"reading_proof", "Reading of a US proof hydrometer made for 60 °F", "° proof", N::OneOf, 0, 200},
          {"abv", "True strength", "% vol", N::OneOf, 0, 100},
          {"t", "Temperature of the liquid", "°C", N::Required, -60, 110}},
         {{"abv", "True strength", "% vol", 2},
          {"us_proof", "True US proof", "° proof", 1},
          {"reading", "An alcoholometer for 20 °C shows", "% vol", 2},
          {"reading_proof", "A proof hydrometer for 60 °F shows", "° proof", 1}},
         "OIML R 22 with the expansion of soda-lime glass, 25e-6 per K; checked against 27 CFR 30.61, Table "
         "1",
         "Ethanol and water alone: dissolved sugar makes a hydrometer read too low. Against the published "
         "table, 40 to 200 proof at 33 to 100 °F, it is off by 0.04 degrees of proof on average and by less "
         "than "
         "0.11 in 95 % of the cells; the worst few differ by up to 1 degree. Outside it is an estimate.",
         hydrometer},
        {"obscuration",
         "How far sugar makes a hydrometer read too low",
         {{"abv", "True strength", "% vol", N::Required, 0, 100},
          {"sugar", "Sugar", "g/l", N::Required, 0, kMostGPerL}},
         {{"shown", "The hydrometer shows", "% vol", 2},
          {"too_low", "Too low by", "% vol", 2},
          {"too_low_proof", "Too low by", "° US proof", 2}},
         "OIML R 22 and ICUMSA SPS-4 by volumes; 27 CFR 30.32 counts 0.4 ° per 1 g/l at 80 to 100 proof",
         "An estimate: above 6 g/l the American rule asks to distil first. At 20 °C.",
         obscured},
        {"liqueur_sugar",
         "Strength, sugar and density of a liqueur: two give the third, three are held against each other",
         {{"abv", "Strength at 20 °C", "% vol", N::OneOf, 0, 100},
          {"sugar", "Sugar", "g/l", N::OneOf, 0, kMostGPerL},
          {"density", "Density at 20 °C", "kg/m³", N::OneOf, 780, 1500}},
         {{"abv", "Strength at 20 °C", "% vol", 2},
          {"sugar", "Sugar", "g/l", 1},
          {"density", "Density at 20 °C", "kg/m³", 2},
          {"brix", "Sugar by mass", "g/100 g", 2},
          {"density_by_both", "Density by strength and sugar", "kg/m³", 2},
          {"density_apart", "The density given is more by", "kg/m³", 2},
          {"sugar_apart", "or the sugar given is more by", "g/l", 1},
          {"abv_apart", "or the strength given is more by", "% vol", 2}},
         "OIML R 22 and ICUMSA SPS-4 by volumes",
         "Sucrose and nothing else dissolved. 1 kg/m³ of density is about 2.6 g/l of sugar; a strong sweet "
         "liqueur is known to 0.1 to 0.3 % of its volume.",
         liqueurSugar,
         2,
         true},
    };
}

} // namespace stillroom::physics
