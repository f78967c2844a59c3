#pragma once

#include "core/preparation/preparation.h"

namespace stillroom::preparation {

// A preparation as it is read wherever drinks are: what is in the bottle after its steps, not the plain sum
// of its lines. The stage served holds it; the others, cost and what follows from a serve stay.
spec::Readings withSteps(spec::Readings readings, const Made& made);
// The strength of something made here, by the facts others pour it with.
spec::Reading strengthOf(const larder::FactState& facts);

} // namespace stillroom::preparation
