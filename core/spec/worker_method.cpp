#include "core/spec/worker.h"

#include "core/physics/dilution.h"
#include "core/physics/ethanol_water.h"
#include "core/spec/temperature.h"
#include "core/spec/vessels.h"

#include <fmt/format.h>

#include <algorithm>

namespace stillroom::spec {

using larder::Fact;
using Op = WorkingStep::Op;

void Worker::measuredVolume() {
    const std::size_t stage = m_s;
    m_s = 0;
    ethanol();
    water();
    sugar();
    volumeOf(totals(), m_pass.volumeMl[0], "Volume before the method");
    m_s = stage;
}

const char* Worker::curveWords() const {
    switch (m_spec.method.technique) {
    case Technique::Stir:
        return "stirred: −1.21 a² + 1.246 a + 0.145 (published regression, from memory)";
    case Technique::Shake:
        return "shaken: −1.567 a² + 1.742 a + 0.203 (published regression, from memory)";
    default:
        return "built over ice: 0.24 (published table, from memory)";
    }
}

void Worker::dilution() {
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
        WorkingStep& strength = add("Strength before the method", "ethanol over 0.78924 g/ml, over volume",
                                    Op::Ratio, percent, "% vol", 3);
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
            add("Dilution", "all of the weighed ice is drunk: ice ÷ 0.9982 g/ml ÷ volume before", Op::Formula,
                predicted, "", 4);
        step.estimate = m_pass.waterEstimate;
        input(step, "ice", m_pass.allIceG, "g", m_pass.waterEstimate ? "measured by volume" : "stated");
        input(step, "volume before", m_pass.volumeMl[0], "ml");
        return;
    }
    case WaterBasis::Fixed: {
        WorkingStep& step =
            add("Predicted dilution", "one figure for this technique: common practice, no source", Op::Given,
                predicted, "", 3);
        step.estimate = true;
        break;
    }
    case WaterBasis::Balance:
        balance(predicted);
        break;
    }
    if (!m_pass.calibrated) return;
    const auto& bench = m_data.rules->bench->of(m_spec.method.technique);
    WorkingStep& step = add("Calibrated to this bench", "prediction times mean of measured over predicted",
                            Op::Product, m_pass.dilution, "", 4);
    input(step, "predicted", predicted, "");
    input(step, "factor", m_pass.benchFactor, "",
          fmt::format("{} measurements, {:.3f} to {:.3f}", bench.measurements, bench.low, bench.high));
}

void Worker::balance(double predicted) {
    measuredVolume();
    WorkingStep& step = add("Predicted dilution",
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

void Worker::temperatureInput(WorkingStep& step, const Brought& one) const {
    const LineTemperature t = lineTemperature(m_spec.lines[one.line], m_spec.method, m_data.lines[one.line]);
    input(step, nameOf(one.line), t.celsius, "°C", t.assumed ? "assumed" : "stated",
          fmt::format("{:.2f} g", one.units * factsOf(one.line).totals[0].massG), static_cast<int>(one.line));
    step.inputs.back().estimate = t.assumed;
}

void Worker::iceInputs(WorkingStep& step) const {
    const IceOf ice = iceOf(m_spec);
    input(step, "ice", ice.load.t.celsius(), "°C", m_spec.method.iceC ? "stated" : "assumed",
          ice.load.mass
              ? fmt::format("{:.1f} g, {:.0f} % of it water", ice.load.mass->grams(), 100 * ice.load.wetShare)
              : std::string("more than enough"));
    if (const auto vessel = vesselOf(m_spec))
        input(step, std::string(vesselById(m_spec.method.vessel)->name), vessel->t.celsius(), "°C",
              m_spec.method.vesselGrams ? "weighed" : "mass assumed",
              fmt::format("{:.0f} J/K", vessel->joulesPerK));
}

void Worker::methodWater() {
    dilution();
    if (m_s == 0 || !(m_pass.dilution > 0)) return;
    WorkingStep& step = add("Water of the method", "ratio × volume before × 0.9982 g/ml", Op::Product,
                            methodWaterG(), "g", 3);
    input(step, "dilution", m_pass.dilution, "");
    input(step, "volume before", m_pass.volumeMl[0], "ml");
    step.factor = 0.9982;
}

} // namespace stillroom::spec
