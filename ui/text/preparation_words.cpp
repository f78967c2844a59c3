#include "ui/text/preparation_words.h"

#include "ui/text/border.h"
#include "ui/text/numbers.h"

#include <QCoreApplication>
#include <QDate>
#include <QStringList>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using preparation::Keeping;
using preparation::StepProblem;
using preparation::StepRemark;
using spec::StepKind;

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("Preparation", text);
}

} // namespace

QString stepKindName(StepKind kind) {
    switch (kind) {
    case StepKind::Dissolve:
        return say("Dissolve");
    case StepKind::Simmer:
        return say("Simmer");
    case StepKind::Steep:
        return say("Steep");
    case StepKind::Strain:
        return say("Strain");
    case StepKind::Press:
        return say("Press");
    case StepKind::FatWash:
        return say("Fat-wash");
    case StepKind::MilkClarify:
        return say("Clarify with milk");
    case StepKind::AgarClarify:
        return say("Clarify with agar");
    case StepKind::AcidAdjust:
        return say("Adjust the acid");
    case StepKind::Blend:
        return say("Blend");
    case StepKind::Ferment:
        return say("Ferment");
    case StepKind::Carbonate:
        return say("Carbonate");
    case StepKind::Whip:
        return say("Whip");
    case StepKind::Freeze:
        return say("Freeze");
    }
    return {};
}

QString stepShort(StepKind kind) {
    switch (kind) {
    case StepKind::Dissolve:
        return say("dissolved");
    case StepKind::Simmer:
        return say("simmered");
    case StepKind::Steep:
        return say("steeped");
    case StepKind::Strain:
        return say("strained");
    case StepKind::Press:
        return say("pressed");
    case StepKind::FatWash:
        return say("fat-washed");
    case StepKind::MilkClarify:
    case StepKind::AgarClarify:
        return say("clarified");
    case StepKind::AcidAdjust:
        return say("adjusted");
    case StepKind::Blend:
        return say("blended");
    case StepKind::Ferment:
        return say("fermented");
    case StepKind::Carbonate:
        return say("carbonated");
    case StepKind::Whip:
        return say("whipped");
    case StepKind::Freeze:
        return say("frozen");
    }
    return {};
}

QString minutesInWords(double minutes) {
    constexpr double kHour = 60;
    constexpr double kDay = 24 * kHour;
    if (minutes >= 2 * kDay) return say("%1 days").arg(trimmedNumber(minutes / kDay, 1));
    if (minutes >= 2 * kHour) return say("%1 h").arg(trimmedNumber(minutes / kHour, 1));
    return say("%1 min").arg(trimmedNumber(minutes, 1));
}

QString stepInWords(const spec::Step& step) {
    QString words = stepShort(step.kind);
    if (step.kind == StepKind::MilkClarify) words += say(" with milk");
    if (step.kind == StepKind::AgarClarify) words += say(" with agar");
    if (step.celsius) words += say(" at %1 °C").arg(trimmedNumber(*step.celsius, 1));
    if (step.minutes) words += u", "_s + minutesInWords(*step.minutes);
    if (!step.note.empty()) words += u", "_s + fromCore(step.note);
    return words;
}

QString lossWords(StepKind kind) {
    switch (kind) {
    case StepKind::Dissolve:
    case StepKind::Simmer:
    case StepKind::Blend:
        return say("steam");
    case StepKind::MilkClarify:
        return say("in the curd");
    case StepKind::AgarClarify:
        return say("in the gel");
    case StepKind::FatWash:
        return say("with the fat");
    case StepKind::Steep:
    case StepKind::Strain:
    case StepKind::Press:
        return say("held back");
    case StepKind::AcidAdjust:
    case StepKind::Ferment:
    case StepKind::Carbonate:
    case StepKind::Whip:
    case StepKind::Freeze:
        return say("lost");
    }
    return {};
}

QString stepRemarkSentence(StepRemark remark) {
    switch (remark) {
    case StepRemark::MeasuredResult:
        return say("Measured after this step: that stands instead of anything assumed.");
    case StepRemark::MoreThanWentIn:
        return say("More was got than went in; the rest is counted as water nobody wrote down.");
    case StepRemark::WaterLostByRate:
        return say("Water lost by the minutes and this pot's own rate.");
    case StepRemark::WaterLostNotStated:
        return say(
            "Nobody said how much water boiled off, so how sweet or sour it is afterwards is not known. "
            "Weigh the pot before and after.");
    case StepRemark::AlcoholLossNotModelled:
        return say("Alcohol that boils off is not modelled: its strength afterwards is not known.");
    case StepRemark::WaterGainedNotStated:
        return say("What the fruit gave is not said.");
    case StepRemark::ShareAssumed:
        return say("How much came through is assumed, not measured.");
    case StepRemark::LossNotStated:
        return say(
            "Some stayed behind and nobody said how much: there is at most so much. Weigh what you got.");
    case StepRemark::FatLeavesWhole:
        return say("All of the fat is taken to come off; some of it may stay, and so does its allergen.");
    case StepRemark::CurdTakesFatAndProtein:
        return say("The curd is taken to hold all fat and protein. The milk stays an allergen of the drink.");
    case StepRemark::NotModelled:
        return say("Fermenting is not modelled: strength, sugar, acid and fizz afterwards are not known.");
    case StepRemark::FizzNotStated:
        return say("How much gas it holds is not said.");
    case StepRemark::OverrunNotStated:
        return say("How much air it holds is not said.");
    case StepRemark::FoamNotLiquid:
        return say("The foam is larger; the liquid in it is not.");
    case StepRemark::TwoLossesStated:
        return say("A share and an amount held back are both stated: the share counts.");
    }
    return {};
}

QString stepProblemSentence(StepProblem problem) {
    switch (problem) {
    case StepProblem::NotANumber:
        return say("is not a number");
    case StepProblem::Negative:
        return say("cannot be below zero");
    case StepProblem::YieldNotAbove0:
        return say("would leave nothing");
    case StepProblem::YieldAbove1:
        return say("would let more come out than went in");
    case StepProblem::TooLarge:
        return say("is too large for a pot");
    case StepProblem::MoreThanThere:
        return say("is more than the pot holds");
    }
    return {};
}

std::string civilDay(const base::Instant& instant) {
    return base::isoText(instant).substr(0, 10);
}

QString civilDayText(const std::string& day, const std::string& today) {
    const QDate date = QDate::fromString(fromCore(day), Qt::ISODate);
    if (!date.isValid()) return fromCore(day);
    const bool sameYear = fromCore(day).left(4) == fromCore(today).left(4);
    return QLocale().toString(date, sameYear ? u"d MMM"_s : u"d MMM yyyy"_s);
}

QString keepingSentence(const Keeping& keeping) {
    if (keeping.basis == Keeping::Basis::NoLimit)
        return say("No limit for safety: everything in it keeps. Cool and dark.");
    if (!keeping.shortestDays) return say("Nobody has said how long this keeps.");
    QString words;
    if (*keeping.shortestDays < 2 && (!keeping.longestDays || *keeping.longestDays < 2))
        words = say("Keeps the day it is made");
    else if (keeping.longestDays && *keeping.longestDays > *keeping.shortestDays)
        words = say("Keeps %1 to %2 days")
                    .arg(trimmedNumber(*keeping.shortestDays, 0), trimmedNumber(*keeping.longestDays, 0));
    else
        words = say("Keeps %1 days").arg(trimmedNumber(*keeping.shortestDays, 0));
    words += say(", the making day counted");
    if (keeping.mustRefrigerate)
        words += say(", only in the refrigerator: it is low in acid");
    else if (keeping.storage == preparation::Storage::Refrigerate)
        words += say(", refrigerated");
    words += u'.';
    if (keeping.basis == Keeping::Basis::ShortestPart)
        words += say(" A mixture keeps as long as its shortest part.");
    if (keeping.houseLongerThanPublished)
        words += say(" The house's own rule is longer than what is published, so the published one stands.");
    if (!keeping.unknownLines.empty())
        words += say(" Nothing is known of some of its parts: it may keep less long.");
    return words;
}

QString keepingSource(const Keeping& keeping) {
    if (keeping.basis == Keeping::Basis::House) return say("the house's own rule");
    if (keeping.entry == nullptr) return {};
    return fromCore(keeping.entry->item) + u"; "_s + fromCore(keeping.entry->source);
}

} // namespace stillroom::ui
