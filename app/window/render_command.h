#pragma once

#include "app/headless/command.h"

namespace stillroom::app {

// Draws a view into a PNG, without a display.
int runRender(const headless::Options& options, headless::Streams& streams);

} // namespace stillroom::app
