#pragma once

namespace stillroom::ui {

class MainWindow;

// What went wrong is said over the page it happened on. It leaves when the person goes on to another page or
// drink, and when what failed has been done after all. That a book is open to read only stays: it is still
// so.
void letBannerLeave(MainWindow& window);

} // namespace stillroom::ui
