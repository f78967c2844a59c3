#pragma once

#include "core/base/clock.h"

namespace stillroom::base {

// isoText() with the milliseconds, where there are any: "2026-11-21T21:14:07.250+01:00". instantFromIso()
// reads both.
std::string exactIsoText(const Instant& instant);

} // namespace stillroom::base
