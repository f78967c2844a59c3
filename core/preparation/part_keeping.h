#pragma once

#include "core/preparation/keeping.h"
#include "core/preparation/nesting.h"

namespace stillroom::preparation {

// Of every preparation that a spec pours, by its own lines in use and their parts, to any depth. What is made
// of itself, or has no amounts, is left out.
PartKeepings partKeepings(const spec::Spec& spec, const spec::Bindings& bindings,
                          const larder::Larder& larder, const Specs& preparations);

} // namespace stillroom::preparation
