#pragma once

#include "core/spec/spread.h"
#include "core/spec/working.h"
#include "ui/theme/look.h"

#include <QString>
#include <QStringList>

namespace stillroom::ui {

// A derivation, for reading: what it is of, what limits it, where it strays, and its steps.
struct WorkingView {
    spec::Working working;
    spec::Spread spread;         // of the facts
    spec::Spread withPrediction; // and of a predicted dilution
    QStringList lines;           // the names of the spec's lines
    std::vector<bool> dry;       // whether a line's facts are per kg
    QString unit;                // as the grid shows it
};
WorkingView workingView(const spec::Spec& spec, const spec::Bindings& bindings, spec::Quantity quantity,
                        spec::Stage stage, const QString& unit);

WorkingView workingView(const spec::Spec& spec, const spec::Bindings& bindings, spec::More more,
                        spec::Stage stage, const QString& unit);

QString workingName(const WorkingView& view); // "Strength, served"
// "21.9 % vol", "≥ 7.2 g/100 ml", "not known".
QString workingReading(const WorkingView& view);
// What to know before using a further reading; empty for the others.
QString noteWords(const WorkingView& view);
// What a bound, a gap or an estimate means; empty when the reading is a plain number.
QString boundWords(const WorkingView& view);
// How far the facts let it stray and what moves it most. One sentence each.
QStringList spreadWords(const WorkingView& view);
// A step's number, to its decimals; shares and counts without idle zeros.
QString stepNumber(double value, const QString& unit, int decimals);

// For the clipboard: core's own text, under what the reading is and how far it strays.
QString workingPlain(const WorkingView& view);
// For the screen: the same with the columns of the numbers standing still.
QString workingHtml(const WorkingView& view, const Look& look);

} // namespace stillroom::ui
