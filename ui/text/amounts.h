#pragma once

#include "core/spec/spec.h"

#include <QLocale>
#include <QString>

namespace stillroom::ui {

// An amount as a person would write it again: "¾", "1 ½", "22.5", "2–3", "2 × 25". Vulgar fractions for
// measures people halve (ounces, spoons, fruit), decimals for metric ones.
QString amountNumber(const spec::Measured& measured, const QLocale& locale = QLocale());
// "ml", "dashes", "strip"; empty for a bare number.
QString amountUnit(const spec::Measured& measured);
// Both, as the amount cell opens it for typing: reading it again gives the same amount.
QString amountForEditing(const spec::Measured& measured, const QLocale& locale = QLocale());
QString rationalText(const quantity::Rational& value, bool fractions, const QLocale& locale = QLocale());
// "Gomme, 2 dashes": one line in words, for notes on what was taken out.
QString lineInWords(const spec::Line& line, const QLocale& locale = QLocale());

} // namespace stillroom::ui
