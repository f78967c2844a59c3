#pragma once

#include "core/history/revision_label.h"

#include <QString>

namespace stillroom::ui {

inline QString revisionLabel(history::DrinkForm form, int number) {
    return QString::fromStdString(history::shortLabel(form, number));
}

} // namespace stillroom::ui
