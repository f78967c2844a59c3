#pragma once

namespace stillroom::ui {

class MainWindow;

// A stand-in for the line in hand.
void connectStandIn(MainWindow& window);

} // namespace stillroom::ui
