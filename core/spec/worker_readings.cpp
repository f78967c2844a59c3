#include "core/spec/worker.h"

#include "core/physics/ethanol_water.h"

#include <fmt/format.h>

#include <algorithm>

namespace stillroom::spec {

using larder::Fact;
using Op = WorkingStep::Op;

void Worker::ratio(const char* label, const char* formula, const char* upper, double upperValue,
                   const char* upperUnit, const char* lower, double lowerValue, const char* lowerUnit,
                   double factor, const char* unit) {
    WorkingStep& step = add(label, formula, Op::Ratio, raw(), unit, 3);
    input(step, upper, upperValue, upperUnit);
    input(step, lower, lowerValue, lowerUnit);
    step.factor = factor;
}

void Worker::perServe(const char* label, double whole, const char* unit) {
    WorkingStep& step = add(label, "whole over serves", Op::Ratio, raw(), unit, 3);
    input(step, "whole", whole, unit);
    input(step, "serves", m_serves, "");
}

void Worker::steps() {
    const Totals& t = totals();
    const double ml = m_pass.volumeMl[m_s];
    switch (result.quantity) {
    case Quantity::PouredVolume:
        poured();
        return;
    case Quantity::Volume:
        methodWater();
        volume();
        return perServe("Volume a serve", ml, "ml");
    case Quantity::Strength:
        methodWater();
        volume();
        return ratio("Strength", "ethanol over 0.78924 g/ml, over volume at 20 °C", "ethanol", t.ethanolG,
                     "g", "volume", ml, "ml", 1e5 / physics::kEthanolKgPerM3At20, "% vol");
    case Quantity::Ethanol:
        ethanol();
        return perServe("Ethanol a serve", t.ethanolG, "g");
    case Quantity::Sugar:
        methodWater();
        volume();
        return ratio("Sugar", "over volume at 20 °C", "sugar", t.sugarG, "g", "volume", ml, "ml", 100,
                     "g/100 ml");
    case Quantity::Brix:
        methodWater();
        sugar();
        mass();
        return ratio("Brix, true", "sugar over mass", "sugar", t.sugarG, "g", "mass", t.massG, "g", 100,
                     "g/100 g");
    case Quantity::Acid:
        methodWater();
        volume();
        acid();
        return ratio("Acid", "over volume at 20 °C", "acid", t.acidG, "g", "volume", ml, "ml", 100,
                     "g/100 ml");
    case Quantity::SugarAcidRatio:
        sugar();
        acid();
        return ratio("Sugar to acid", "by mass", "sugar", t.sugarG, "g", "acid", t.acidG, "g", 1, "");
    case Quantity::Mass:
        methodWater();
        mass();
        return perServe("Mass a serve", t.massG, "g");
    case Quantity::Density:
        methodWater();
        mass();
        volume();
        return ratio("Density", "mass over volume at 20 °C", "mass", t.massG, "g", "volume", ml, "ml", 1000,
                     "kg/m³");
    case Quantity::Dilution:
        return dilution();
    case Quantity::Temperature:
        return temperature();
    case Quantity::Cost:
        return cost();
    case Quantity::EnergyKj:
        energy(true);
        return perServe("Energy a serve", t.kj, "kJ");
    case Quantity::EnergyKcal:
        energy(false);
        return perServe("Energy a serve", t.kcal, "kcal");
    case Quantity::StandardDrinks:
        ethanol();
        perServeStandard(t.ethanolG);
        return;
    }
}

void Worker::perServeStandard(double whole) {
    WorkingStep& serve = add("Ethanol a serve", "whole over serves", Op::Ratio, whole / m_serves, "g", 3);
    input(serve, "whole", whole, "g");
    input(serve, "serves", m_serves, "");
    WorkingStep& step =
        add("Standard drinks", "ethanol over the house's standard drink", Op::Ratio, raw(), "", 3);
    input(step, "ethanol a serve", whole / m_serves, "g");
    input(step, "standard drink", m_data.rules->standardDrinkGrams, "g", "resources/handbook/servings.json");
}

void Worker::poured() {
    WorkingStep& step =
        add("Poured", "plain sum of what is poured", Op::Sum, m_pass.stages[m_s].pouredMl, "ml", 3);
    for (const Brought& one : m_recorder.lines) {
        const Role role = m_spec.lines[one.line].role;
        if (role == Role::Garnish || (m_s < 2 && role != Role::Mixed) || one.pouredMl == 0) continue;
        input(step, nameOf(one.line), one.pouredMl, "ml", {}, {}, static_cast<int>(one.line));
    }
    perServe("Poured a serve", m_pass.stages[m_s].pouredMl, "ml");
}

void Worker::cost() {
    const double whole = static_cast<double>(m_pass.stages[m_s].costMillionths) / 1e6;
    const std::string& day = m_data.rules->pricesOn;
    WorkingStep& step =
        add("Cost",
            "what is poured, at " + (day.empty() ? "the newest price of each" : "the prices of " + day) +
                "; rounded to a millionth a line",
            Op::Sum, whole, currency(), 4);
    for (const Brought& one : m_recorder.lines) {
        const Role role = m_spec.lines[one.line].role;
        if ((m_s < 2 && role != Role::Mixed) || one.millionths == 0) continue;
        input(step, nameOf(one.line), static_cast<double>(one.millionths) / 1e6, currency(), {}, {},
              static_cast<int>(one.line));
    }
    perServe("Cost a serve", whole, "");
}

void Worker::energy(bool kj) {
    if (kj)
        sumOfLines(
            "Energy",
            "ethanol 29, carbohydrate 17, organic acid 13, protein 17, fat 37 kJ/g: Regulation (EU) No "
            "1169/2011, Annex XIV",
            [](const Totals& t) { return t.kj; }, totals().kj, "kJ", nullptr);
    else
        sumOfLines(
            "Energy",
            "ethanol 7, carbohydrate 4, organic acid 3, protein 4, fat 9 kcal/g: Regulation (EU) No "
            "1169/2011, Annex XIV",
            [](const Totals& t) { return t.kcal; }, totals().kcal, "kcal", nullptr);
}

} // namespace stillroom::spec
