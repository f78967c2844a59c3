#pragma once

namespace stillroom::ui {

class MainWindow;

// What stands beside a revision or a draft: set aside, published, a name of its own.
void connectStanding(MainWindow& window);

} // namespace stillroom::ui
