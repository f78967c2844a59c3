#pragma once

#include "core/spec/reading.h"

#include <QLocale>
#include <QString>

namespace stillroom::ui {

// What is known of how far a reading lies from another one, as it is shown.
struct DifferenceText {
    QString text; // "+0.3", "≈ +0.3", "≥ +0.8", "−2.1 to +1.9", "floor +0.9", "same", "not known", ""
    int direction = 0;  // −1 surely less, +1 surely more, 0 neither is known
    bool moved = false; // what is shown of the two is not the same
    bool bound = false; // less is known than a number
    friend bool operator==(const DifferenceText&, const DifferenceText&) = default;
};

DifferenceText differenceText(const spec::Reading& before, const spec::Reading& after,
                              spec::Quantity quantity, const QLocale& locale = QLocale());

} // namespace stillroom::ui
