#include "core/physics/acid_ph.h"
#include "core/physics/ethanol_water.h"
#include "core/physics/freezing.h"
#include "core/physics/mixture.h"
#include "core/physics/proof.h"
#include "core/physics/sucrose_water.h"
#include "core/physics/sweetness.h"
#include "core/physics/water_activity.h"
#include "core/spec/worker.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

// The working of the further readings: the masses of each substance, then the formula that reads them.
namespace stillroom::spec {

using physics::Composition;
using physics::Substance;
using quantity::Temperature;

namespace {

struct Acid {
    Substance substance;
    const char* name;
};
constexpr std::array<Acid, 8> kAcids{{{Substance::Citric, "citric acid"},
                                      {Substance::Malic, "malic acid"},
                                      {Substance::Tartaric, "tartaric acid"},
                                      {Substance::Lactic, "lactic acid"},
                                      {Substance::Acetic, "acetic acid"},
                                      {Substance::Phosphoric, "phosphoric acid"},
                                      {Substance::Ascorbic, "ascorbic acid"},
                                      {Substance::Succinic, "succinic acid"}}};
constexpr std::array<Acid, 5> kSugars{{{Substance::Sucrose, "sucrose"},
                                       {Substance::Glucose, "glucose"},
                                       {Substance::Fructose, "fructose"},
                                       {Substance::Lactose, "lactose"},
                                       {Substance::OtherSugar, "other sugars, as maltose"}}};

double acidGrams(const Composition& c) {
    double sum = 0;
    for (const Acid& acid : kAcids)
        sum += c[acid.substance];
    return sum;
}

} // namespace

void Worker::sumOfSubstance(const char* label, const char* formula, double (*grams)(const Composition&),
                            const char* unit, double scale, double water,
                            std::optional<Fact> larder::FactState::*member) {
    const double whole = scale * grams(m_whole);
    if (!(whole > 0)) return;
    WorkingStep& step = add(label, formula, Op::Sum, whole, unit, 3);
    for (const Brought& one : m_recorder.lines) {
        if (!isHere(one) || !(one.units > 0)) continue;
        const PreparedFacts& facts = factsOf(one.line);
        const double each = scale * grams(facts.perUnit);
        if (each == 0) continue;
        const char* of = facts.dry ? "g" : "ml";
        input(step, nameOf(one.line), one.units * each, unit,
              member == nullptr ? std::string() : factSource(one.line, member),
              fmt::format("{:.4g} {} × {:.5g} {}/{}", one.units, of, each, unit, of),
              static_cast<int>(one.line));
    }
    if (water > 0 && m_s > 0) input(step, "water of the method", water, unit);
}

void Worker::moreSteps() {
    switch (*result.more) {
    case More::FreezingOnset:
        return freezingOnset();
    case More::WaterActivity:
        return waterActivity();
    case More::Ph:
        return acidity();
    case More::Sweetness:
    case More::SweetnessLow:
    case More::SweetnessHigh:
        return sweetness();
    case More::Co2GPerL:
    case More::Co2Volumes:
        return fizz();
    case More::Caffeine:
        sumOfSubstance(
            "Caffeine", "mg/l of each line; a line that states none brings none",
            [](const Composition& c) { return c[Substance::Caffeine]; }, "mg", 1000, -1,
            &larder::FactState::caffeineMgPerL);
        return perServe("Caffeine a serve", 1000 * m_whole[Substance::Caffeine], "mg");
    case More::ProofUs:
    case More::ProofUk:
        return proof();
    case More::Contraction:
        return contraction();
    case More::RelativeDensity:
    case More::Baume:
        return ofDensity();
    case More::RefractiveIndex:
        return refraction();
    }
}

// What is dissolved, in how much water.
void Worker::solutes() {
    methodWater();
    sumOfSubstance(
        "Water", "what fills each line up to its volume",
        [](const Composition& c) { return c[Substance::Water]; }, "g", 1, methodWaterG());
    sumOfSubstance(
        "Ethanol", "ml × % vol × 0.78924 g/ml: OIML R 22, ethanol at 20 °C",
        [](const Composition& c) { return c[Substance::Ethanol]; }, "g", 1, -1,
        &larder::FactState::abvPercent);
    sumOfSubstance(
        "Sugar", "mono- and disaccharides, g/l of each line",
        [](const Composition& c) { return c.sugarGrams(); }, "g", 1, -1, &larder::FactState::sugarGPerL);
    sumOfSubstance("Acid", "each as itself", acidGrams, "g", 1, -1, &larder::FactState::acidGPerL);
    sumOfSubstance(
        "Salt", "", [](const Composition& c) { return c[Substance::Salt]; }, "g", 1, -1,
        &larder::FactState::saltGPerL);
}

void Worker::freezingOnset() {
    solutes();
    const auto f = physics::freezing(m_whole);
    if (!f) return;
    WorkingStep& sum =
        add("ln of the water activity, over ice", "activities multiply, so their logarithms add: Ross 1975",
            Op::Sum, f->lnAwEthanol + f->lnAwSugar + f->lnAwAcid + f->lnAwSalt, "", 5);
    const char* table = "freezing points of each in water: CRC Handbook, 102nd ed.";
    input(sum, "ethanol", f->lnAwEthanol, "", table);
    if (f->lnAwSugar != 0)
        input(sum, "sugar", f->lnAwSugar, "",
              "CRC Handbook, 102nd ed.; above 42 g/100 g Starzak and Peacock 1997");
    if (f->lnAwAcid != 0) input(sum, "acid", f->lnAwAcid, "", table);
    if (f->lnAwSalt != 0) input(sum, "salt", f->lnAwSalt, "", table);
    WorkingStep& onset =
        add("The first ice forms at",
            "where water and ice stand in balance: heat of fusion 6009.5 J/mol, 38.1 J/(mol K)", Op::Formula,
            raw(), "°C", 2);
    input(onset, "ln of the water activity", f->lnAwEthanol + f->lnAwSugar + f->lnAwAcid + f->lnAwSalt, "");
    onset.estimate = f->estimate;
}

void Worker::waterActivity() {
    solutes();
    const auto terms = physics::waterActivityTerms(m_whole, Temperature::fromCelsius(25));
    if (!terms) return;
    WorkingStep& sum =
        add("ln of the water activity at 25 °C", "activities multiply, so their logarithms add: Ross 1975",
            Op::Sum, terms->sum(), "", 5);
    const auto term = [&](const char* name, double ln, const char* source) {
        if (ln != 0) input(sum, name, ln, "", source);
    };
    term("ethanol", terms->lnEthanol, "as over ice: CRC Handbook, 102nd ed.");
    term("sucrose and the like", terms->lnDisaccharides, "Starzak and Peacock 1997");
    term("glucose", terms->lnGlucose, "Norrish 1966, constant from memory");
    term("fructose", terms->lnFructose, "Norrish 1966, constant from memory");
    term("acid", terms->lnAcid, "as over ice: CRC Handbook, 102nd ed.");
    term("salt", terms->lnSalt, "as over ice: CRC Handbook, 102nd ed.");
    WorkingStep& value = add("Water activity", "e to that power", Op::Formula, raw(), "", 4);
    input(value, "ln", terms->sum(), "");
    value.estimate = true;
}

void Worker::acidity() {
    methodWater();
    const double litres = physics::volumeAt20(m_whole).litres();
    sumOfSubstance("Acid", "each as itself", acidGrams, "g", 1, -1, &larder::FactState::acidGPerL);
    WorkingStep& step = add("pH of the acids alone",
                            "charge balance at 25 °C, without activity corrections: the least it can be",
                            Op::Formula, raw(), "", 2);
    for (const Acid& acid : kAcids)
        if (m_whole[acid.substance] > 0) input(step, acid.name, m_whole[acid.substance] / litres, "g/l");
    step.estimate = true;
    const double alkali = alkaliAtMost(m_spec, m_data, result.stage, m_whole);
    const auto buffered = physics::pH(m_whole, alkali);
    if (!buffered || !(alkali > 0)) return;
    WorkingStep& high =
        add("pH well buffered", "the same, with as much alkali as its juices and the like may hold",
            Op::Formula, buffered->value, "", 2);
    input(high, "alkali, as potassium", alkali, "mol/l",
          "0.04 mol/l, the upper of lemon and lime juice measured, diluted as they are");
    high.estimate = true;
}

void Worker::sweetness() {
    methodWater();
    volume();
    const auto factorOf = [this](Substance sugar) {
        const auto factor = physics::relativeSweetness(sugar);
        if (result.more == More::SweetnessLow) return factor.low;
        return result.more == More::SweetnessHigh ? factor.high : factor.typical;
    };
    const auto sweet = physics::sucroseEquivalent(m_whole);
    const double grams = result.more == More::SweetnessLow    ? sweet.low.grams()
                         : result.more == More::SweetnessHigh ? sweet.high.grams()
                                                              : sweet.typical.grams();
    WorkingStep& sum = add("Sucrose that would taste as sweet", "each sugar times its relative sweetness",
                           Op::Sum, grams, "g", 3);
    for (const Acid& sugar : kSugars) {
        const double each = m_whole[sugar.substance];
        if (!(each > 0)) continue;
        input(sum, sugar.name, each * factorOf(sugar.substance), "g",
              std::string(physics::relativeSweetness(sugar.substance).source),
              fmt::format("{:.4g} g × {:.3g}", each, factorOf(sugar.substance)));
    }
    ratio("Sweetness", "over volume at 20 °C", "sucrose equivalent", grams, "g", "volume",
          m_pass.volumeMl[m_s], "ml", 100, "g/100 ml");
    result.steps.back().estimate = true;
}

void Worker::fizz() {
    methodWater();
    volume();
    double gas = m_whole[Substance::CarbonDioxide];
    sumOfSubstance(
        "Carbon dioxide of the lines", "nothing lost in pouring",
        [](const Composition& c) { return c[Substance::CarbonDioxide]; }, "g", 1, -1,
        &larder::FactState::co2GPerL);
    if (m_spec.method.technique == Technique::Carbonate && m_s > 0) {
        const Composition mixed = stageComposition(m_spec, m_data, {}, Stage::Mixed);
        const auto taken = batchGas(m_spec, mixed);
        if (!taken) return;
        const double litres = physics::volumeAt20(mixed).litres();
        WorkingStep& batch = add("What the batch takes up",
                                 "solubility in water at the method's pressure and temperature, given time: "
                                 "Weiss 1974",
                                 Op::Formula, taken->gPerL() * litres, "g", 3);
        input(batch, "dissolved", taken->gPerL(), "g/l");
        input(batch, "volume of the batch", litres * 1000, "ml");
        batch.estimate = true;
        gas += taken->gPerL() * litres;
    }
    const double perLitre = m_more[static_cast<std::size_t>(More::Co2GPerL)].value.value_or(0);
    WorkingStep& step =
        add("In the whole drink", "over volume at 20 °C: at most this", Op::Ratio, perLitre, "g/l", 3);
    input(step, "carbon dioxide", gas, "g");
    input(step, "volume", m_pass.volumeMl[m_s], "ml");
    step.factor = 1000;
    if (result.more != More::Co2Volumes) return;
    WorkingStep& volumes =
        add("In volumes of gas", "one is 44.0095 g/mol over 22.2605 l/mol: IUPAC-NIST SRD 106, 0 °C, 1 atm",
            Op::Ratio, raw(), "volumes", 3);
    input(volumes, "carbon dioxide", perLitre, "g/l");
    input(volumes, "one volume", 44.0095 / 22.2605, "g/l");
}

void Worker::contraction() {
    methodWater();
    WorkingStep& step = add("Parts apart, less the whole",
                            "volumes at 20 °C: OIML R 22, ICUMSA SPS-4; below zero mixing gains volume",
                            Op::Sum, raw() * m_serves, "ml", 3);
    for (const PartApart& part : partsApart(m_spec, m_data, {}, result.stage, m_whole)) {
        if (!(part.ml > 0)) continue;
        input(step, part.line < 0 ? "water of the method" : nameOf(static_cast<std::size_t>(part.line)),
              part.ml, "ml", {}, {}, part.line);
    }
    input(step, "less all together", -physics::volumeAt20(m_whole).ml(), "ml");
    perServe("Contraction a serve", raw() * m_serves, "ml");
}

void Worker::ofDensity() {
    methodWater();
    mass();
    volume();
    const auto density = physics::densityAt20(m_whole);
    if (!density) return;
    WorkingStep& step =
        add("Density", "mass over volume at 20 °C", Op::Ratio, density->kgPerM3(), "kg/m³", 3);
    input(step, "mass", m_whole.totalGrams(), "g");
    input(step, "volume", physics::volumeAt20(m_whole).ml(), "ml");
    step.factor = 1000;
    const double water = physics::waterDensity(Temperature::fromCelsius(20)).kgPerM3();
    const double relative = density->kgPerM3() / water;
    WorkingStep& over = add("Relative density 20/20 °C", "over that of water", Op::Ratio, relative, "", 5);
    input(over, "density", density->kgPerM3(), "kg/m³");
    input(over, "water at 20 °C", water, "kg/m³", "ICUMSA SPS-4");
    if (result.more != More::Baume) return;
    WorkingStep& degrees =
        add("Degrees Baumé", "145 − 145 over relative density", Op::Formula, raw(), "°Bé", 2);
    input(degrees, "relative density", relative, "");
}

void Worker::refraction() {
    methodWater();
    sumOfSubstance(
        "Sugar", "mono- and disaccharides, g/l of each line",
        [](const Composition& c) { return c.sugarGrams(); }, "g", 1, -1, &larder::FactState::sugarGPerL);
    sumOfSubstance(
        "Water", "what fills each line up to its volume",
        [](const Composition& c) { return c[Substance::Water]; }, "g", 1, methodWaterG());
    const double sugar = m_whole.sugarGrams();
    const double both = sugar + m_whole[Substance::Water];
    WorkingStep& share =
        add("Sugar in sugar and water", "by mass", Op::Ratio, 100 * sugar / both, "g/100 g", 3);
    input(share, "sugar", sugar, "g");
    input(share, "sugar and water", both, "g");
    share.factor = 100;
    WorkingStep& index =
        add("Refractive index", "fit to ICUMSA 1974, 20 °C, sodium D line; as if all of it were sucrose",
            Op::Formula, raw(), "", 5);
    input(index, "sugar", 100 * sugar / both, "g/100 g");
    index.estimate = m_more[static_cast<std::size_t>(More::RefractiveIndex)].estimate;
}

void Worker::proof() {
    methodWater();
    volume();
    const double percent = m_raw[m_s][static_cast<std::size_t>(Quantity::Strength)];
    WorkingStep& strength =
        add("Strength", "ethanol over 0.78924 g/ml, over volume at 20 °C", Op::Ratio, percent, "% vol", 3);
    input(strength, "ethanol", totals().ethanolG, "g");
    input(strength, "volume", m_pass.volumeMl[m_s], "ml");
    strength.factor = 1e5 / physics::kEthanolKgPerM3At20;
    const bool us = result.more == More::ProofUs;
    WorkingStep& degrees =
        add(us ? "US proof" : "British proof",
            us ? "twice the % vol at 60 °F of a plain spirit as strong: 27 CFR 30.11, by OIML R 22"
               : "against the spirit of 12/13 the weight of water at 51 °F: from memory, Sikes",
            Op::Formula, raw(), us ? "° US" : "° UK", 2);
    input(degrees, "strength at 20 °C", percent, "% vol");
}

} // namespace stillroom::spec
