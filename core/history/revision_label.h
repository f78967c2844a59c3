#pragma once

#include "core/history/history.h"

#include <string>

namespace stillroom::history {

// "r4" of a drink, "p3" of a preparation: the number alone says which of the two it is.
inline std::string shortLabel(DrinkForm form, int number) {
    std::string label(1, form == DrinkForm::Preparation ? 'p' : 'r');
    label += std::to_string(number);
    return label;
}

} // namespace stillroom::history
