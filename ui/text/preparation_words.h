#pragma once

#include "core/base/clock.h"
#include "core/preparation/account.h"
#include "core/preparation/keeping.h"

#include <QLocale>
#include <QString>

namespace stillroom::ui {

QString stepKindName(spec::StepKind kind);   // "Simmer"
QString stepShort(spec::StepKind kind);      // "simmered": the head of a column
QString stepInWords(const spec::Step& step); // "simmered at 80 °C, 6 min"
QString minutesInWords(double minutes);      // "6 min", "20 h", "3 days"
// What left in a step of this kind: "steam", "held back", "in the curd".
QString lossWords(spec::StepKind kind);
QString stepRemarkSentence(preparation::StepRemark remark);
QString stepProblemSentence(preparation::StepProblem problem);
// "2026-11-06" as "6 Nov", with the year where it is not that of `today`. What is no date stays as it is.
QString civilDayText(const std::string& day, const std::string& today);
std::string civilDay(const base::Instant& instant);
// "Keeps 14 days, the making day counted, refrigerated."
QString keepingSentence(const preparation::Keeping& keeping);
QString keepingSource(const preparation::Keeping& keeping);

} // namespace stillroom::ui
