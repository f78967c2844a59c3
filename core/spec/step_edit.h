#pragma once

#include "core/spec/spec.h"

#include <cstddef>

// Edits of a preparation's steps. Lines stay where they are in the order of events: what goes in before a
// step goes in before that step wherever others are put in or taken out around it.
namespace stillroom::spec {

// Insert before `at`; the number of steps: behind all. What goes in before the step that stood there, or
// after all of them, now goes in before the new one.
Spec withStep(const Spec& spec, std::size_t at, Step step);
Spec withStepReplaced(const Spec& spec, std::size_t at, Step step);
// What went in before it goes in before the next.
Spec withoutStep(const Spec& spec, std::size_t at);
// Steps change places; lines go in at the places where they went in.
Spec withStepMoved(const Spec& spec, std::size_t from, std::size_t to);
// The step a line goes in before; the number of steps: after all.
Spec withLineEntering(const Spec& spec, std::size_t line, std::size_t beforeStep);
// What was measured at the end, ml at 20 °C; nullopt takes it back. Not above zero: the spec as it was.
Spec withYield(const Spec& spec, std::optional<double> ml);

} // namespace stillroom::spec
