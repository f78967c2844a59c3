#pragma once

namespace stillroom::ui {

class MainWindow;

// What belongs to tasting and is not a tasting: the book's scales, and who tastes.
void connectTasting(MainWindow& window);

} // namespace stillroom::ui
