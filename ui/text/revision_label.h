#pragma once

#include "core/history/history.h"

#include <QString>

namespace stillroom::ui {

// "r4" of a drink, "p3" of a preparation: the number alone says which of the two it is.
inline QString revisionLabel(history::DrinkForm form, int number) {
    return (form == history::DrinkForm::Preparation ? QStringLiteral("p%1") : QStringLiteral("r%1"))
        .arg(number);
}

} // namespace stillroom::ui
