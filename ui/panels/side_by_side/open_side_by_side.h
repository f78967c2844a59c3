#pragma once

namespace stillroom::ui {

class MainWindow;

// Ctrl+D: the revision chosen on the trail against what is in hand; further columns, print and copy from
// there.
void connectSideBySide(MainWindow& window);

} // namespace stillroom::ui
