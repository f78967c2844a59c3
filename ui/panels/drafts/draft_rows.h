#pragma once

#include "ui/dialogs/pick_dialog.h"
#include "ui/session/drink_history.h"

#include <vector>

namespace stillroom::ui {

struct DraftChoice {
    base::DraftId draft;
    PickRow row;
};
// Every draft of the drink in hand: the one worked on now first, then the others as the trail has them.
std::vector<DraftChoice> draftChoices(const DrinkHistory& history);

} // namespace stillroom::ui
