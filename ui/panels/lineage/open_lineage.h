#pragma once

namespace stillroom::ui {

class MainWindow;

// What a drink comes after, thanks, and tags: one step that can be undone.
void connectLineage(MainWindow& window);

} // namespace stillroom::ui
