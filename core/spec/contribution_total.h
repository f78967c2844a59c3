#pragma once

#include "core/spec/evaluate.h"

namespace stillroom::spec {

// The column sums under the lines, as poured. A line of which nothing is known leaves a floor, never a zero;
// lines the quantity does not apply to are passed over.
Contribution total(const std::vector<Contribution>& contributions);
Reading sumOf(const Reading& a, const Reading& b);

} // namespace stillroom::spec
