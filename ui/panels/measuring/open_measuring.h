#pragma once

namespace stillroom::ui {

class MainWindow;

// Find a fact by measuring.
void connectMeasuring(MainWindow& window);

} // namespace stillroom::ui
