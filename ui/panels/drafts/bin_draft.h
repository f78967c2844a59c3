#pragma once

namespace stillroom::ui {

class MainWindow;

// Act::BinDraft: the draft chosen on the trail, or the one in hand, goes into the bin, which gives it back.
void connectBinDraft(MainWindow& window);

} // namespace stillroom::ui
