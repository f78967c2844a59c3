#pragma once

namespace stillroom::ui {

class MainWindow;

// What is within reach and what to buy, from the Larder menu.
void connectStock(MainWindow& window);

} // namespace stillroom::ui
