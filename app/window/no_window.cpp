#include "app/window/window.h"

#include <cstdio>

namespace stillroom::app {

// A build with STILLROOM_GUI=OFF.
int openWindow(int& /*argc*/, char** /*argv*/, const WindowRequest& /*request*/) {
    std::fprintf(stderr, "stillroom: this build has no window. What it does without one: stillroom --help\n");
    return headless::kWrongUsage;
}

const std::vector<headless::Command>& drawingCommands() {
    static const std::vector<headless::Command> none;
    return none;
}

} // namespace stillroom::app
