#include "core/spec/working.h"

#include "core/physics/dilution.h"
#include "core/physics/ethanol_water.h"
#include "core/spec/bounds.h"
#include "core/spec/temperature.h"
#include "core/spec/vessels.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace stillroom::spec {

using larder::Fact;
using Op = WorkingStep::Op;

namespace {

constexpr const char* kR22 = "density of ethanol + water at 20 °C: OIML R 22 (1975)";
constexpr const char* kSps4 = "apparent volume of sugar in the water present: ICUMSA SPS-4 (1998)";
constexpr const char* kApparent = "apparent volumes per gram: CRC Handbook, others from memory";

// What one line brought, as the pass told it.
struct Brought {
    std::size_t line = 0;
    double units = 0; // ml, or g of a dry good
    double pouredMl = 0;
    std::int64_t millionths = 0;
    bool inDrink = false;
};

class Recorder : public LineListener {
  public:
    void stays(std::size_t line, double units) override {
        Brought& one = of(line);
        one.units = units;
        one.inDrink = true;
    }
    void pours(std::size_t line, double ml, std::int64_t millionths) override {
        Brought& one = of(line);
        one.pouredMl = ml;
        one.millionths = millionths;
    }
    std::vector<Brought> lines;

  private:
    Brought& of(std::size_t line) {
        for (Brought& one : lines)
            if (one.line == line) return one;
        lines.push_back({line});
        return lines.back();
    }
};

std::string sourceOf(const Fact& fact) {
    return fact.source.empty() ? std::string(larder::sourceKindId(fact.sourceKind))
                               : fmt::format("{}: {}", larder::sourceKindId(fact.sourceKind), fact.source);
}

class Worker {
  public:
    Worker(const Spec& spec, const Bindings& bindings, Quantity quantity, Stage stage)
        : m_spec(spec),
          m_data(bindings.data()),
          m_serves(std::max(spec.serves, 1)),
          m_s(static_cast<std::size_t>(stage)) {
        m_pass = pass(spec, m_data, {}, &m_recorder);
        m_raw = rawReadings(m_pass, m_serves, m_data.rules->standardDrinkGrams);
        result.quantity = quantity;
        result.stage = stage;
        const Readings readings = quantity == Quantity::Temperature ? evaluateWithTemperatures(spec, bindings)
                                                                    : evaluate(spec, bindings);
        result.reading = readings[stage][quantity];
    }

    void work() {
        const Bound bound = result.reading.bound;
        if (bound == Bound::NotApplicable || bound == Bound::Unknown) {
            addNotes();
            return;
        }
        steps();
        settle();
        addNotes();
    }

    Working result;

  private:
    // ---- parts ------------------------------------------------------------------------------------------

    const Totals& totals() const { return m_pass.stages[m_s].totals; }
    double raw() const { return m_raw[m_s][static_cast<std::size_t>(result.quantity)]; }
    bool isHere(const Brought& one) const {
        return one.inDrink && (m_s == 2 || m_spec.lines[one.line].role == Role::Mixed);
    }
    const PreparedFacts& factsOf(std::size_t line) const {
        return line < m_data.lines.size() ? *m_data.lines[line].facts : nothingKnown();
    }
    std::string nameOf(std::size_t line) const {
        const Line& l = m_spec.lines[line];
        if (line < m_data.lines.size() && m_data.lines[line].poured != nullptr)
            return m_data.lines[line].poured->name;
        return l.name.empty() ? l.written : l.name;
    }
    std::string factSource(std::size_t line, std::optional<Fact> larder::FactState::*member) const {
        if (line >= m_data.lines.size() || m_data.lines[line].poured == nullptr)
            return "nothing in the larder answers; left out";
        const auto& fact = m_data.lines[line].poured->facts.*member;
        return fact ? sourceOf(*fact) : "not stated; left out";
    }

    WorkingStep& add(std::string label, std::string formula, Op op, double value, std::string unit,
                     int decimals) {
        WorkingStep step;
        step.label = std::move(label);
        step.formula = std::move(formula);
        step.op = op;
        step.result = value;
        step.unit = std::move(unit);
        step.decimals = decimals;
        result.steps.push_back(std::move(step));
        return result.steps.back();
    }
    static void input(WorkingStep& step, std::string name, double value, std::string unit,
                      std::string source = {}, std::string detail = {}, int line = -1) {
        step.inputs.push_back(
            {std::move(name), value, std::move(unit), std::move(source), std::move(detail), line, false});
    }

    // A sum over the lines that are in the drink at this stage.
    template <class PerUnit>
    void sumOfLines(const std::string& label, const std::string& formula, PerUnit perUnit, double whole,
                    const char* unit, std::optional<Fact> larder::FactState::*member, double water = -1) {
        WorkingStep& step = add(label, formula, Op::Sum, whole, unit, 3);
        for (const Brought& one : m_recorder.lines) {
            if (!isHere(one) || !(one.units > 0)) continue;
            const PreparedFacts& facts = factsOf(one.line);
            const double each = perUnit(facts.totals[0]);
            if (each == 0) continue;
            const char* of = facts.dry ? "g" : "ml";
            input(step, nameOf(one.line), one.units * each, unit,
                  member == nullptr ? std::string() : factSource(one.line, member),
                  fmt::format("{:.4g} {} × {:.5g} {}/{}", one.units, of, each, unit, of),
                  static_cast<int>(one.line));
        }
        if (water >= 0 && m_s > 0) input(step, "water of the method", water, unit);
    }

    double methodWaterG() const {
        if (!(m_pass.dilution > 0)) return 0;
        return physics::waterFromDilution(m_pass.dilution, quantity::Volume::fromMl(m_pass.volumeMl[0]))
            .grams();
    }

    void ethanol() {
        sumOfLines(
            "Ethanol", "ml × % vol × 0.78924 g/ml: OIML R 22, ethanol at 20 °C",
            [](const Totals& t) { return t.ethanolG; }, totals().ethanolG, "g",
            &larder::FactState::abvPercent);
    }
    void sugar() {
        sumOfLines(
            "Sugar", "mono- and disaccharides, g/l of each line", [](const Totals& t) { return t.sugarG; },
            totals().sugarG, "g", &larder::FactState::sugarGPerL);
    }
    void acid() {
        sumOfLines(
            "Acid", "titratable, as anhydrous citric acid, g/l of each line",
            [](const Totals& t) { return t.acidG; }, totals().acidG, "g", &larder::FactState::acidGPerL);
    }
    void water() {
        sumOfLines(
            "Water", "what fills each line up to its volume", [](const Totals& t) { return t.waterG; },
            totals().waterG, "g", nullptr, methodWaterG());
    }
    void mass() {
        sumOfLines(
            "Mass", "all substances of all lines", [](const Totals& t) { return t.massG; }, totals().massG,
            "g", nullptr, methodWaterG());
    }

    void volume() {
        ethanol();
        water();
        sugar();
        volumeOf(totals(), m_pass.volumeMl[m_s], "Volume at 20 °C");
    }
    void volumeOf(const Totals& t, double ml, const std::string& label) {
        const VolumeOfTotals terms = volumeTerms(t);
        if (terms.densityKgPerM3 > 0) {
            WorkingStep& share = add("Share of ethanol in ethanol + water", "by mass", Op::Ratio,
                                     terms.ethanolShare, "g/g", 5);
            input(share, "ethanol", t.ethanolG, "g");
            input(share, "ethanol and water", t.ethanolG + t.waterG, "g");
            WorkingStep& density = add("Their density", kR22, Op::Formula, terms.densityKgPerM3, "kg/m³", 2);
            input(density, "share of ethanol", terms.ethanolShare, "g/g");
            WorkingStep& both =
                add("Their volume", "mass over density", Op::Ratio, terms.ethanolWaterMl, "ml", 3);
            input(both, "ethanol and water", t.ethanolG + t.waterG, "g");
            input(both, "density", terms.densityKgPerM3, "kg/m³");
            both.factor = 1000;
        }
        if (terms.sugarMl > 0) {
            WorkingStep& sugars = add("What the sugar adds", kSps4, Op::Formula, terms.sugarMl, "ml", 3);
            input(sugars, "sugar", t.sugarG, "g");
            input(sugars, "water", t.waterG, "g");
        }
        WorkingStep& sum = add(label, "contraction is in it", Op::Sum, ml, "ml", 3);
        input(sum, "ethanol and water", terms.ethanolWaterMl, "ml");
        input(sum, "sugar", terms.sugarMl, "ml");
        input(sum, "other solutes", terms.soluteMl, "ml", kApparent);
    }

    // ---- water of the method ----------------------------------------------------------------------------

    void measuredVolume() {
        const std::size_t stage = m_s;
        m_s = 0;
        ethanol();
        water();
        sugar();
        volumeOf(totals(), m_pass.volumeMl[0], "Volume before the method");
        m_s = stage;
    }

    const char* curveWords() const {
        switch (m_spec.method.technique) {
        case Technique::Stir:
            return "stirred: −1.21 a² + 1.246 a + 0.145 (published regression, from memory)";
        case Technique::Shake:
            return "shaken: −1.567 a² + 1.742 a + 0.203 (published regression, from memory)";
        default:
            return "built over ice: 0.24 (published table, from memory)";
        }
    }

    void dilution() {
        if (m_s == 0) return;
        const double predicted = m_pass.dilution / m_pass.benchFactor;
        switch (m_pass.waterBasis) {
        case WaterBasis::None:
        case WaterBasis::UnknownIce:
            add("Water of the method", "none: this technique adds no water", Op::Given, 0, "", 3);
            return;
        case WaterBasis::Typed:
        case WaterBasis::Measured: {
            const bool measured = m_pass.waterBasis == WaterBasis::Measured;
            WorkingStep& step = add("Dilution", measured ? "measured: it wins over any prediction" : "typed",
                                    Op::Given, m_pass.dilution, "", 4);
            input(step, measured ? "measured" : "typed", m_pass.dilution, "", m_spec.method.dilution->how);
            return;
        }
        case WaterBasis::Curve: {
            measuredVolume();
            const double percent = m_raw[0][static_cast<std::size_t>(Quantity::Strength)];
            WorkingStep& strength =
                add("Strength before the method", "ethanol over 0.78924 g/ml, over volume", Op::Ratio,
                    percent, "% vol", 3);
            strength.factor = 1e5 / physics::kEthanolKgPerM3At20;
            input(strength, "ethanol", m_pass.stages[0].totals.ethanolG, "g");
            input(strength, "volume", m_pass.volumeMl[0], "ml");
            WorkingStep& step = add("Predicted dilution", curveWords(), Op::Formula, predicted, "", 4);
            input(step, "a, strength as a fraction, 0.15 to 0.45", std::clamp(percent / 100, 0.15, 0.45), "");
            step.estimate = m_pass.waterEstimate;
            break;
        }
        case WaterBasis::AllIce: {
            WorkingStep& step =
                add("Dilution", "all of the weighed ice is drunk: ice ÷ 0.9982 g/ml ÷ volume before",
                    Op::Formula, predicted, "", 4);
            input(step, "ice", iceOf(m_spec).load.mass->grams(), "g", "stated");
            input(step, "volume before", m_pass.volumeMl[0], "ml");
            return;
        }
        case WaterBasis::Fixed: {
            WorkingStep& step =
                add("Predicted dilution", "one figure for this technique: common practice, no source",
                    Op::Given, predicted, "", 3);
            step.estimate = true;
            break;
        }
        case WaterBasis::Balance:
            balance(predicted);
            break;
        }
        if (!m_pass.calibrated) return;
        const auto& bench = m_data.rules->bench->of(m_spec.method.technique);
        WorkingStep& step =
            add("Calibrated to this bench", "prediction times mean of measured over predicted", Op::Product,
                m_pass.dilution, "", 4);
        input(step, "predicted", predicted, "");
        input(step, "factor", m_pass.benchFactor, "",
              fmt::format("{} measurements, {:.3f} to {:.3f}", bench.measurements, bench.low, bench.high));
    }

    void balance(double predicted) {
        measuredVolume();
        WorkingStep& step =
            add("Predicted dilution",
                "heat balance with ice to the drink's freezing point: heat capacities Melinder "
                "2010, heat of mixing Nagamachi and Francesconi 2006, ice 333.55 J/g",
                Op::Formula, predicted, "", 4);
        for (const Brought& one : m_recorder.lines) {
            const Line& line = m_spec.lines[one.line];
            if (!one.inDrink || line.role != Role::Mixed || !(one.units > 0)) continue;
            temperatureInput(step, one);
        }
        iceInputs(step);
        step.estimate = m_pass.waterEstimate;
    }

    void temperatureInput(WorkingStep& step, const Brought& one) const {
        const LineTemperature t =
            lineTemperature(m_spec.lines[one.line], m_spec.method, m_data.lines[one.line]);
        input(step, nameOf(one.line), t.celsius, "°C", t.assumed ? "assumed" : "stated",
              fmt::format("{:.2f} g", one.units * factsOf(one.line).totals[0].massG),
              static_cast<int>(one.line));
        step.inputs.back().estimate = t.assumed;
    }

    void iceInputs(WorkingStep& step) const {
        const IceOf ice = iceOf(m_spec);
        input(step, "ice", ice.load.t.celsius(), "°C", m_spec.method.iceC ? "stated" : "assumed",
              ice.load.mass ? fmt::format("{:.1f} g, {:.0f} % of it water", ice.load.mass->grams(),
                                          100 * ice.load.wetShare)
                            : std::string("more than enough"));
        if (const auto vessel = vesselOf(m_spec))
            input(step, std::string(vesselById(m_spec.method.vessel)->name), vessel->t.celsius(), "°C",
                  m_spec.method.vesselGrams ? "weighed" : "mass assumed",
                  fmt::format("{:.0f} J/K", vessel->joulesPerK));
    }

    void methodWater() {
        dilution();
        if (m_s == 0 || !(m_pass.dilution > 0)) return;
        WorkingStep& step = add("Water of the method", "ratio × volume before × 0.9982 g/ml", Op::Product,
                                methodWaterG(), "g", 3);
        input(step, "dilution", m_pass.dilution, "");
        input(step, "volume before", m_pass.volumeMl[0], "ml");
        step.factor = 0.9982;
    }

    // ---- the readings -----------------------------------------------------------------------------------

    void ratio(const char* label, const char* formula, const char* upper, double upperValue,
               const char* upperUnit, const char* lower, double lowerValue, const char* lowerUnit,
               double factor, const char* unit) {
        WorkingStep& step = add(label, formula, Op::Ratio, raw(), unit, 3);
        input(step, upper, upperValue, upperUnit);
        input(step, lower, lowerValue, lowerUnit);
        step.factor = factor;
    }

    void perServe(const char* label, double whole, const char* unit) {
        WorkingStep& step = add(label, "whole over serves", Op::Ratio, raw(), unit, 3);
        input(step, "whole", whole, unit);
        input(step, "serves", m_serves, "");
    }

    void steps() {
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
            return ratio("Density", "mass over volume at 20 °C", "mass", t.massG, "g", "volume", ml, "ml",
                         1000, "kg/m³");
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

    void perServeStandard(double whole) {
        WorkingStep& serve = add("Ethanol a serve", "whole over serves", Op::Ratio, whole / m_serves, "g", 3);
        input(serve, "whole", whole, "g");
        input(serve, "serves", m_serves, "");
        WorkingStep& step =
            add("Standard drinks", "ethanol over the house's standard drink", Op::Ratio, raw(), "", 3);
        input(step, "ethanol a serve", whole / m_serves, "g");
        input(step, "standard drink", m_data.rules->standardDrinkGrams, "g",
              "resources/handbook/servings.json");
    }

    void poured() {
        WorkingStep& step =
            add("Poured", "plain sum of what is poured", Op::Sum, m_pass.stages[m_s].pouredMl, "ml", 3);
        for (const Brought& one : m_recorder.lines) {
            const Role role = m_spec.lines[one.line].role;
            if (role == Role::Garnish || (m_s < 2 && role != Role::Mixed) || one.pouredMl == 0) continue;
            input(step, nameOf(one.line), one.pouredMl, "ml", {}, {}, static_cast<int>(one.line));
        }
        perServe("Poured a serve", m_pass.stages[m_s].pouredMl, "ml");
    }

    void cost() {
        const double whole = static_cast<double>(m_pass.stages[m_s].costMillionths) / 1e6;
        WorkingStep& step =
            add("Cost", "what is poured, at the newest price of each; rounded to a millionth a line", Op::Sum,
                whole, currency(), 4);
        for (const Brought& one : m_recorder.lines) {
            const Role role = m_spec.lines[one.line].role;
            if ((m_s < 2 && role != Role::Mixed) || one.millionths == 0) continue;
            input(step, nameOf(one.line), static_cast<double>(one.millionths) / 1e6, currency(), {}, {},
                  static_cast<int>(one.line));
        }
        perServe("Cost a serve", whole, "");
    }

    void energy(bool kj) {
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

    void partsStep(const char* label, double celsius, bool later) {
        WorkingStep& step = add(label,
                                "heat balance: capacities Melinder 2010, heat of mixing at 25 °C Nagamachi "
                                "and Francesconi 2006",
                                Op::Formula, celsius, "°C", 2);
        for (const Brought& one : m_recorder.lines) {
            const bool mixed = m_spec.lines[one.line].role == Role::Mixed;
            if (!one.inDrink || !(one.units > 0) || mixed == later) continue;
            temperatureInput(step, one);
        }
    }

    void temperature() {
        const TemperatureTrace trace = traceTemperatures(m_spec, m_data, {});
        const auto celsius = [&](std::size_t s) { return trace.stages[s].celsius.value_or(0); };
        if (trace.stages[0].celsius) partsStep("Mixed lines together", celsius(0), false);
        if (m_s >= 1 && trace.stages[1].celsius) mixedTemperature(trace);
        if (m_s == 2 && trace.stages[2].rule == TemperatureRule::Balance) {
            partsStep("Served", celsius(2), true);
            WorkingStep& step = result.steps.back();
            if (trace.mixedMassG > 0) input(step, "mixed drink", celsius(1), "°C");
            if (trace.glassJPerK > 0)
                input(step, "glass", trace.glassC, "°C", "assumed",
                      fmt::format("{:.0f} J/K", trace.glassJPerK));
        } else if (m_s == 2 && trace.stages[2].rule == TemperatureRule::Thawed) {
            thawed("Served", celsius(2), trace.laterFrozenJ);
        } else if (m_s == 2) {
            WorkingStep& step =
                add("Served", "nothing is added, and no glass of known mass", Op::Sum, celsius(2), "°C", 2);
            input(step, "mixed drink", celsius(1), "°C");
        }
    }

    void thawed(const char* label, double celsius, double frozenJ) {
        WorkingStep& step =
            add(label,
                "heat balance of the parts; what is poured frozen melts as far as there is heat for it, "
                "and takes nothing below the freezing point of all together",
                Op::Formula, celsius, "°C", 2);
        input(step, "heat to melt it", frozenJ, "J");
        step.estimate = true;
    }

    void mixedTemperature(const TemperatureTrace& trace) {
        const StageTemperature& mixed = trace.stages[1];
        switch (mixed.rule) {
        case TemperatureRule::IceBalance: {
            dilution();
            WorkingStep& step = add("Mixed", "where the balance ends: the freezing point, or all ice melted",
                                    Op::Formula, *mixed.celsius, "°C", 2);
            iceInputs(step);
            return;
        }
        case TemperatureRule::Thawed:
            thawed("Mixed", *mixed.celsius, trace.mixedFrozenJ);
            return;
        case TemperatureRule::MeltBalance:
        case TemperatureRule::FreezingPoint: {
            methodWater();
            WorkingStep& fusion =
                add("Heat the melting took", "333.55 J/g of ice, and 2.1 J/(g K) below 0 °C", Op::Formula,
                    trace.fusionJ, "J", 0);
            input(fusion, "melted", trace.meltG, "g");
            WorkingStep& after = add("Temperature after it", "heat balance of lines, melt and vessel",
                                     Op::Formula, trace.balanceC, "°C", 2);
            input(after, "heat", trace.fusionJ, "J");
            if (trace.vesselJPerK > 0) input(after, "vessel", trace.vesselJPerK, "J/K");
            WorkingStep& frozen = add("Freezing point of the diluted drink",
                                      "Ross 1975, freezing points CRC Handbook, 102nd ed.", Op::Formula,
                                      trace.freezingC, "°C", 2);
            frozen.estimate = true;
            WorkingStep& step = add("Mixed", "the warmer of the two: melting ice takes no drink below it",
                                    Op::Formula, *mixed.celsius, "°C", 2);
            input(step, "after the melt", trace.balanceC, "°C");
            input(step, "freezing point", trace.freezingC, "°C");
            step.estimate = true;
            return;
        }
        case TemperatureRule::Written:
            add("Mixed", "as the method's words say", Op::Given, *mixed.celsius, "°C", 1);
            return;
        default:
            if (m_spec.method.technique == Technique::Hot)
                add("Mixed", "the lines with the vessel, without loss", Op::Formula, *mixed.celsius, "°C", 2);
            return;
        }
    }

    // ---- end --------------------------------------------------------------------------------------------

    // The last step is the reading, whatever the spec leaves open.
    void settle() {
        const Reading& reading = result.reading;
        if (result.steps.empty()) add("Stated", "", Op::Given, reading.value, unit(), 3);
        WorkingStep& last = result.steps.back();
        if (reading.bound == Bound::Exact && last.result == reading.value) {
            last.decimals = std::max(quantityDecimals(result.quantity), last.decimals);
            return;
        }
        std::string label;
        switch (reading.bound) {
        case Bound::AtLeast:
            label = "At least: what is not stated can only add to it";
            break;
        case Bound::AtMost:
            label = "At most: what is not stated can only take from it";
            break;
        case Bound::Between:
            label = fmt::format("Between {:.4g} and {:.4g}: every range tried at both ends", reading.value,
                                reading.upper);
            break;
        default:
            label = "What is open moves it by less than the last digit shown";
            break;
        }
        WorkingStep& step =
            add(label, "", Op::Bound, reading.value, unit(), quantityDecimals(result.quantity));
        for (std::size_t i = 0; i < m_spec.lines.size(); ++i) {
            const std::uint64_t bit = std::uint64_t{1} << std::min<std::size_t>(i, 63);
            if ((reading.gapLines & bit) != 0)
                input(step, nameOf(i), 0, "", "lacks an amount or a fact", {}, static_cast<int>(i));
        }
    }
    std::string currency() const { return std::string(m_data.rules->currency.text()); }
    std::string unit() const {
        return result.quantity == Quantity::Cost ? currency() : std::string(quantityUnit(result.quantity));
    }

    void addNotes() {
        const Reading& reading = result.reading;
        auto& notes = result.notes;
        if (reading.bound == Bound::NotApplicable) notes.emplace_back("Not applicable at this stage.");
        if (reading.bound == Bound::Unknown)
            notes.emplace_back("Not known: the spec leaves open what it needs.");
        if (!result.steps.empty())
            notes.push_back(fmt::format("Nothing is rounded on the way; shown to {} decimals.",
                                        quantityDecimals(result.quantity)));
        for (std::size_t i = 0; i < m_spec.lines.size(); ++i) {
            const Line& line = m_spec.lines[i];
            if (line.optional || line.toTaste)
                notes.push_back(
                    fmt::format("Left out: {} ({}).", nameOf(i), line.optional ? "optional" : "to taste"));
        }
        if (reading.estimate)
            notes.emplace_back("An estimate: a figure is assumed, or a formula is used outside its range.");
        if (result.quantity == Quantity::Temperature)
            notes.emplace_back("Heat from hand and room, evaporation and dissolving sugar are not counted.");
    }

    const Spec& m_spec;
    const Bindings::Data& m_data;
    int m_serves;
    std::size_t m_s;
    Recorder m_recorder;
    Pass m_pass;
    RawStages m_raw{};
};

std::string numberText(double value, int decimals) {
    return fmt::format("{:.{}f}", value, std::clamp(decimals, 0, 6));
}

std::string withUnit(const std::string& number, const std::string& unit) {
    return unit.empty() ? number : number + " " + unit;
}

} // namespace

Working working(const Spec& spec, const Bindings& bindings, Quantity quantity, Stage stage) {
    Worker worker(spec, bindings, quantity, stage);
    worker.work();
    return std::move(worker.result);
}

std::string workingText(const Working& working) {
    std::string text = fmt::format("{}, {}\n", quantityId(working.quantity), stageId(working.stage));
    int number = 0;
    for (const WorkingStep& step : working.steps) {
        text += fmt::format("\n{}. {}", ++number, step.label);
        if (!step.formula.empty()) text += fmt::format(" ({})", step.formula);
        text += '\n';
        for (const WorkingInput& input : step.inputs) {
            text += "   " + input.name;
            if (step.op != WorkingStep::Op::Bound)
                text += ": " + withUnit(numberText(input.value, std::max(step.decimals, 3)), input.unit);
            if (!input.detail.empty()) text += " = " + input.detail;
            if (!input.source.empty()) text += " [" + input.source + "]";
            text += '\n';
        }
        if (step.factor != 1) text += fmt::format("   times {:.8g}\n", step.factor);
        text += "   = " + withUnit(numberText(step.result, step.decimals), step.unit);
        text += step.estimate ? " (estimate)\n" : "\n";
    }
    if (!working.notes.empty()) text += '\n';
    for (const std::string& note : working.notes)
        text += note + '\n';
    return text;
}

} // namespace stillroom::spec
