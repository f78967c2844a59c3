#pragma once

namespace stillroom::ui {

class MainWindow;

// Find a fact by measuring, and bring to a target.
void connectMeasuring(MainWindow& window);

} // namespace stillroom::ui
