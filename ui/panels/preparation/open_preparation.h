#pragma once

namespace stillroom::ui {

class MainWindow;

// What a person can do with a preparation: its label, a batch of it, a target for it; and standing in for a
// line.
void connectPreparation(MainWindow& window);

} // namespace stillroom::ui
