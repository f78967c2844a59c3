#pragma once

namespace stillroom::ui {

class MainWindow;

// Blind panels, from the Taste menu.
void connectBlind(MainWindow& window);

} // namespace stillroom::ui
