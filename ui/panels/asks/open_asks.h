#pragma once

namespace stillroom::ui {

class MainWindow;

// What tasters ask of the revision that the draft stands on.
void connectAsks(MainWindow& window);

} // namespace stillroom::ui
