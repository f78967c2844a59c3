#pragma once

namespace stillroom::ui {

class MainWindow;

// Further drafts of a drink: branching one off a revision, and going from one to another.
void connectDrafts(MainWindow& window);

} // namespace stillroom::ui
