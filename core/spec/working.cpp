#include "core/spec/working.h"

#include "core/spec/worker.h"

#include <fmt/format.h>

#include <algorithm>

namespace stillroom::spec {

namespace {

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

Working working(const Spec& spec, const Bindings& bindings, More more, Stage stage) {
    Worker worker(spec, bindings, more, stage);
    worker.work();
    return std::move(worker.result);
}

std::string_view workingId(const Working& working) {
    return working.more ? moreId(*working.more) : quantityId(working.quantity);
}
std::string_view workingUnit(const Working& working) {
    return working.more ? moreUnit(*working.more) : quantityUnit(working.quantity);
}
int workingDecimals(const Working& working) {
    return working.more ? moreDecimals(*working.more) : quantityDecimals(working.quantity);
}

std::string workingText(const Working& working) {
    std::string text = fmt::format("{}, {}\n", workingId(working), stageId(working.stage));
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
