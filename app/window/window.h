#pragma once

#include "app/headless/command.h"

#include <string>
#include <vector>

namespace stillroom::app {

// What was asked of the window.
struct WindowRequest {
    std::string path; // empty: whatever was open last
    bool sample = false;
};

// Opens the window and runs until it is closed. Where there is no display, or none answers, it says so and
// returns kWrongUsage; it never aborts.
int openWindow(int& argc, char** argv, const WindowRequest& request);

// Commands that draw: only in a build with the window.
const std::vector<headless::Command>& drawingCommands();

} // namespace stillroom::app
