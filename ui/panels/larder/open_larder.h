#pragma once

namespace stillroom::ui {

class MainWindow;

// The larder of the open book, laid over the bench by its action.
void connectLarder(MainWindow& window);

} // namespace stillroom::ui
