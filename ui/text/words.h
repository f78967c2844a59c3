#pragma once

#include "core/base/clock.h"
#include "core/exchange/read_text.h"
#include "core/spec/caution.h"
#include "core/spec/reading.h"
#include "core/store/error.h"

#include <QString>
#include <QStringList>

namespace stillroom::ui {

// Core says what it found in codes; here are the sentences. A fact in bold, then its consequence, then the
// act that would end it.
struct Sentence {
    QString fact;
    QString consequence;
    QString act; // empty: nothing to do about it
    friend bool operator==(const Sentence&, const Sentence&) = default;
};

QString quantityName(spec::Quantity quantity); // "Sugar"
QString quantityUnitShown(spec::Quantity quantity, const QString& currency, double standardDrinkGrams);
QString stageName(spec::Stage stage);
QString roleName(spec::Role role);
QString techniqueName(spec::Technique technique);

// Gaps of one kind are said in one sentence, naming every ingredient they are about.
Sentence gapSentence(spec::GapCode code, const QStringList& ingredients);
// By how much a density misses what strength and sugar make: "8.0 kg/m³ above strength and sugar, as 21 g/l
// more sugar".
QString contradictionInWords(double densityOffKgPerM3, double asSugarGPerL);
QString allergenName(const QString& id);
// `raw` is the line it is about, for what can only be said with its own signs.
QString doubtQuestion(const exchange::Doubt& doubt, const QString& raw = {});
// "An amount below zero.": why a line was refused, or that it says nothing of a drink.
QString refusalInWords(const exchange::ReadLine& read);

// "The book is open in another window.": what happened, what was kept, what to do.
Sentence storeErrorSentence(const store::StoreError& error);

// "1 line", "3 lines".
QString counted(int count, const QString& one, const QString& many);

// "21 Nov", or with the year when it is another one; "21:14:07". In the zone where it was entered.
QString dayText(const base::Instant& instant, const base::Instant& now);
QString timeText(const base::Instant& instant);

} // namespace stillroom::ui
