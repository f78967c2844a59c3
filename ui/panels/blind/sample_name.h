#pragma once

#include <QString>

namespace stillroom::ui {

// What was in a cup. The revision is what tells two cups of one drink apart: where there is little room the
// drink's name is cut, never that.
struct SampleName {
    QString drink;    // "Ox Skerry"
    QString revision; // "r4"; empty of one that is gone
    QString whole() const {
        return revision.isEmpty() ? drink : QString(drink + QLatin1Char(' ') + revision);
    }
};

} // namespace stillroom::ui
