#include "core/spec/step_edit.h"

#include <algorithm>
#include <cmath>

namespace stillroom::spec {

namespace {

using Offset = std::vector<Step>::difference_type;

// "After all" is written as the number of steps, so that it is a place among others.
void clampPlaces(Spec& spec) {
    for (Line& line : spec.lines)
        line.beforeStep = std::clamp(line.beforeStep, 0, static_cast<int>(spec.steps.size()));
}

} // namespace

Spec withStep(const Spec& spec, std::size_t at, Step step) {
    if (at > spec.steps.size()) return spec;
    Spec next = spec;
    clampPlaces(next);
    next.steps.insert(next.steps.begin() + static_cast<Offset>(at), std::move(step));
    for (Line& line : next.lines)
        if (line.beforeStep > static_cast<int>(at)) ++line.beforeStep;
    return next;
}

Spec withStepReplaced(const Spec& spec, std::size_t at, Step step) {
    if (at >= spec.steps.size()) return spec;
    Spec next = spec;
    next.steps[at] = std::move(step);
    return next;
}

Spec withoutStep(const Spec& spec, std::size_t at) {
    if (at >= spec.steps.size()) return spec;
    Spec next = spec;
    clampPlaces(next);
    next.steps.erase(next.steps.begin() + static_cast<Offset>(at));
    for (Line& line : next.lines)
        if (line.beforeStep > static_cast<int>(at)) --line.beforeStep;
    return next;
}

Spec withStepMoved(const Spec& spec, std::size_t from, std::size_t to) {
    if (from >= spec.steps.size() || to >= spec.steps.size() || from == to) return spec;
    Spec next = spec;
    const auto first = next.steps.begin() + static_cast<Offset>(from);
    const auto last = next.steps.begin() + static_cast<Offset>(to);
    if (from < to)
        std::rotate(first, first + 1, last + 1);
    else
        std::rotate(last, first, first + 1);
    return next;
}

Spec withLineEntering(const Spec& spec, std::size_t line, std::size_t beforeStep) {
    if (line >= spec.lines.size() || beforeStep > spec.steps.size()) return spec;
    Spec next = spec;
    next.lines[line].beforeStep = static_cast<int>(beforeStep);
    return next;
}

Spec withYield(const Spec& spec, std::optional<double> ml) {
    if (ml && !(std::isfinite(*ml) && *ml > 0)) return spec;
    Spec next = spec;
    next.yieldMl = ml;
    return next;
}

} // namespace stillroom::spec
