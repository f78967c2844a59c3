#pragma once

#include "core/spec/spec.h"

#include <cstddef>
#include <string_view>

namespace stillroom::spec {

// Every edit is a pure function from one spec to the next. An index out of range returns the spec as it was.
Spec withLine(const Spec& spec, std::size_t at, Line line); // insert before `at`
Spec withLineReplaced(const Spec& spec, std::size_t at, Line line);
Spec withoutLine(const Spec& spec, std::size_t at);
Spec withLineMoved(const Spec& spec, std::size_t from, std::size_t to);
Spec withLineSplit(const Spec& spec, std::size_t at); // two lines of half each
Spec withAmount(const Spec& spec, std::size_t at, const Measured& measured);
Spec withMethod(const Spec& spec, Method method);
Spec scaledToServes(const Spec& spec, int serves); // amounts times new/old, exactly

} // namespace stillroom::spec
