#pragma once

#include <functional>
#include <string>

class QApplication;

namespace stillroom::ui {

// What the program was asked to open, and what it can make for a newcomer.
struct WindowStart {
    std::string path;    // a workbook; empty: the one open last, else the page of a first run
    bool sample = false; // open a fresh copy of the sample, or the copy made before
    // Writes the sample workbook to a path where nothing stands yet. Throws StoreError, or a
    // std::runtime_error with words when the sample itself cannot be read.
    std::function<void(const std::string& path)> createSample;
};

// Shows the window and runs until it is closed. Returns the exit code.
int runWindow(QApplication& application, const WindowStart& start);

} // namespace stillroom::ui
