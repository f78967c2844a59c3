#include "ui/text/bringing_words.h"

#include "core/preparation/adding.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"

#include <QCoreApplication>
#include <QStringList>

namespace stillroom::ui {

using preparation::BringProblem;

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("Bringing", text);
}

} // namespace

QString bringProblemSentence(BringProblem problem) {
    switch (problem) {
    case BringProblem::NothingThere:
        return say("There is nothing in it with an amount yet.");
    case BringProblem::Dry:
        return say("It is a dry mixture: nothing is brought anywhere before a liquid is in it.");
    case BringProblem::AcidUnknown:
        return say("Nobody knows its acid. Find it by titration, or write it in the larder.");
    case BringProblem::SugarUnknown:
        return say("Nobody knows its sugar. Find it by measuring, or write it in the larder.");
    case BringProblem::StrengthUnknown:
        return say("Nobody knows its strength. Write it in the larder.");
    case BringProblem::NoLike:
        return say("Choose whose acid it shall have.");
    case BringProblem::LikeUnknown:
        return say("Of what it shall be like nobody knows the acid, or it holds none. Choose another.");
    case BringProblem::NoStronger:
        return say("It must get stronger: choose what with.");
    case BringProblem::StrongerUnknown:
        return say("Nobody knows the strength of what is added. Choose another.");
    case BringProblem::NotStronger:
        return say("What is added is no stronger than the strength wanted. Choose another.");
    case BringProblem::MoreThanThat:
        return say("It holds more sugar or more acid than that already, and nothing takes it out again.");
    case BringProblem::OutOfReach:
        return say("Nothing brings it there: it does not fit, or so much never dissolves.");
    case BringProblem::NoPowder:
        return say("The larder knows nothing to weigh by that name, or not how much of it is the acid.");
    }
    return {};
}

QString acidName(physics::Substance acid) {
    return fromCore(preparation::nameOfSubstance(acid));
}

QString doseText(const preparation::DoseLine& dose) {
    return QString(trimmedNumber(dose.amount, 2) + kNarrowSpace + (dose.liquid ? say("ml") : say("g")) +
                   QLatin1Char(' ') + fromCore(dose.name));
}

QString broughtHeadline(const preparation::Brought& brought) {
    if (brought.thereAlready) return say("Nothing to do: it stands there already");
    if (brought.boilOff) return say("Boil off %1 g of water").arg(trimmedNumber(brought.boilOff->grams(), 1));
    QStringList doses;
    for (const auto& dose : brought.doses)
        doses << doseText(dose);
    return say("Add %1").arg(doses.join(say(" and ")));
}

QString batchVolume(quantity::Volume volume) {
    const double ml = volume.ml();
    return ml < 999.5 ? say("%1 ml").arg(trimmedNumber(ml, ml < 99.95 ? 1 : 0))
                      : say("%1 l").arg(number(ml / 1000, 2));
}

} // namespace stillroom::ui
