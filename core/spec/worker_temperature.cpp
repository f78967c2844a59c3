#include "core/spec/worker.h"

#include "core/spec/temperature.h"

#include <fmt/format.h>

#include <algorithm>

namespace stillroom::spec {

using larder::Fact;
using Op = WorkingStep::Op;

void Worker::partsStep(const char* label, double celsius, bool later) {
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

void Worker::temperature() {
    const TemperatureTrace trace = traceTemperatures(m_spec, m_data, {});
    const auto celsius = [&](std::size_t s) { return trace.stages[s].celsius.value_or(0); };
    if (trace.stages[0].celsius) partsStep("Mixed lines together", celsius(0), false);
    if (m_s >= 1 && trace.stages[1].celsius) mixedTemperature(trace);
    if (m_s == 2 && trace.stages[2].rule == TemperatureRule::Balance) {
        partsStep("Served", celsius(2), true);
        WorkingStep& step = result.steps.back();
        if (trace.mixedMassG > 0) input(step, "mixed drink", celsius(1), "°C");
        if (trace.glassJPerK > 0)
            input(step, "glass", trace.glassC, "°C", "assumed", fmt::format("{:.0f} J/K", trace.glassJPerK));
    } else if (m_s == 2 && trace.stages[2].rule == TemperatureRule::Thawed) {
        thawed("Served", celsius(2), trace.laterFrozenJ);
    } else if (m_s == 2) {
        WorkingStep& step =
            add("Served", "nothing is added, and no glass of known mass", Op::Sum, celsius(2), "°C", 2);
        input(step, "mixed drink", celsius(1), "°C");
    }
}

void Worker::thawed(const char* label, double celsius, double frozenJ) {
    WorkingStep& step = add(label,
                            "heat balance of the parts; what is poured frozen melts as far as there is heat "
                            "for it, and takes nothing below the freezing point of all together",
                            Op::Formula, celsius, "°C", 2);
    input(step, "heat to melt it", frozenJ, "J");
    step.estimate = true;
}

void Worker::mixedTemperature(const TemperatureTrace& trace) {
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
        WorkingStep& fusion = add("Heat the melting took", "333.55 J/g of ice, and 2.1 J/(g K) below 0 °C",
                                  Op::Formula, trace.fusionJ, "J", 0);
        input(fusion, "melted", trace.meltG, "g");
        WorkingStep& after = add("Temperature after it", "heat balance of lines, melt and vessel",
                                 Op::Formula, trace.balanceC, "°C", 2);
        input(after, "heat", trace.fusionJ, "J");
        if (trace.vesselJPerK > 0) input(after, "vessel", trace.vesselJPerK, "J/K");
        WorkingStep& frozen =
            add("Freezing point of the diluted drink", "Ross 1975, freezing points CRC Handbook, 102nd ed.",
                Op::Formula, trace.freezingC, "°C", 2);
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

} // namespace stillroom::spec
