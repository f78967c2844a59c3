#pragma once

namespace stillroom::ui {

class MainWindow;

// The page of search, and the reading ahead that makes it ready.
void connectSearch(MainWindow& window);

} // namespace stillroom::ui
