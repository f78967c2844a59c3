#pragma once

#include "core/spec/spec.h"

namespace stillroom::exchange {

// Where a method says that a line enters: "top with soda", "float the rum", "rinse the glass with absinthe",
// "shake all but the wine". A line that says so itself keeps its word, and so does one that the words may
// mean as well as another. Something is always left to be mixed.
void applyMethodRoles(spec::Spec& spec);

} // namespace stillroom::exchange
