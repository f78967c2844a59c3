#pragma once

namespace stillroom::ui {

class MainWindow;

// The page of the bin.
void connectBin(MainWindow& window);

} // namespace stillroom::ui
