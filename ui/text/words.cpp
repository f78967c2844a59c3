#include "ui/text/words.h"

#include "ui/text/border.h"
#include "ui/text/numbers.h"

#include "core/preparation/ratio.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QLocale>
#include <QRegularExpression>

namespace stillroom::ui {

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("Words", text);
}

QString listed(const QStringList& names) {
    if (names.isEmpty()) return {};
    if (names.size() == 1) return names.first();
    return say("%1 and %2").arg(names.mid(0, names.size() - 1).join(QStringLiteral(", ")), names.last());
}

} // namespace

QString quantityName(spec::Quantity quantity) {
    using Q = spec::Quantity;
    switch (quantity) {
    case Q::PouredVolume:
        return say("Poured");
    case Q::Volume:
        return say("Volume");
    case Q::Strength:
        return say("Strength");
    case Q::Ethanol:
        return say("Alcohol");
    case Q::Sugar:
        return say("Sugar");
    case Q::Brix:
        return say("Brix");
    case Q::Acid:
        return say("Acid");
    case Q::SugarAcidRatio:
        return say("Sugar : acid");
    case Q::Mass:
        return say("Mass");
    case Q::Density:
        return say("Density");
    case Q::Dilution:
        return say("Water added");
    case Q::Temperature:
        return say("Temperature");
    case Q::Cost:
        return say("Cost");
    case Q::EnergyKj:
    case Q::EnergyKcal:
        return say("Energy");
    case Q::StandardDrinks:
        return say("Standard drinks");
    }
    return {};
}

QString quantityUnitShown(spec::Quantity quantity, const QString& currency, double standardDrinkGrams) {
    using Q = spec::Quantity;
    switch (quantity) {
    case Q::Cost:
        return currency;
    case Q::Dilution:
        return say("% of start");
    case Q::StandardDrinks:
        return say("of %1 g").arg(trimmedNumber(standardDrinkGrams, 1));
    case Q::SugarAcidRatio:
        return {};
    default:
        return fromCore(spec::quantityUnit(quantity));
    }
}

QString stageName(spec::Stage stage) {
    switch (stage) {
    case spec::Stage::Measured:
        return say("measured");
    case spec::Stage::Mixed:
        return say("mixed");
    case spec::Stage::Served:
        return say("served");
    }
    return {};
}

QString roleName(spec::Role role) {
    switch (role) {
    case spec::Role::Mixed:
        return say("mixed");
    case spec::Role::Topped:
        return say("topped");
    case spec::Role::Floated:
        return say("floated");
    case spec::Role::Rinse:
        return say("rinse");
    case spec::Role::Garnish:
        return say("garnish");
    }
    return {};
}

QString techniqueName(spec::Technique technique) {
    using T = spec::Technique;
    switch (technique) {
    case T::None:
        return say("no method");
    case T::Build:
        return say("built");
    case T::Stir:
        return say("stirred");
    case T::Shake:
        return say("shaken");
    case T::Throw:
        return say("thrown");
    case T::Blend:
        return say("blended");
    case T::WaterBath:
        return say("warmed in a water bath");
    case T::Hot:
        return say("hot");
    case T::Whip:
        return say("whipped");
    case T::Clarify:
        return say("clarified");
    case T::Carbonate:
        return say("carbonated");
    }
    return {};
}

Sentence gapSentence(spec::GapCode code, const QStringList& ingredients) {
    using G = spec::GapCode;
    const QString who = listed(ingredients);
    switch (code) {
    case G::StrengthUnknown:
        return {say("Strength is a bound."), say("No strength is on record for %1.").arg(who),
                say("Enter it from the label")};
    case G::SugarUnknown:
        return {say("Sugar is a bound."),
                say("No sugar is on record for %1; counted as the least it may carry.").arg(who),
                say("Enter it from the label")};
    case G::AcidUnknown:
        return {say("Acid is a bound."), say("No acid is on record for %1.").arg(who),
                say("Enter it if measured")};
    case G::DensityUnknown:
        return {say("Mass and volume are a bound."), say("No density is on record for %1.").arg(who),
                say("Weigh 100 ml and enter it")};
    case G::PriceUnknown:
        return {say("Cost is a floor."), say("No price is on record for %1.").arg(who),
                say("Enter what a pack costs")};
    case G::PriceCurrency:
        return {say("Cost is a floor."),
                say("The price of %1 is in another currency, with no dated rate.").arg(who),
                say("Enter a price in the book's currency")};
    case G::PriceUnit:
        return {say("Cost is a floor."),
                say("%1 is bought in a unit that what is poured cannot be turned into.").arg(who),
                say("Enter its density, or a pack in the other unit")};
    case G::PriceYield:
        return {say("Cost is a floor."),
                say("The yield of %1 leaves nothing, or more than was bought.").arg(who),
                say("Enter how much of it is used")};
    case G::PriceNegative:
        return {say("Cost is a floor."), say("The price of %1 is below zero.").arg(who),
                say("Enter what a pack costs")};
    case G::PriceWrong:
        return {say("Cost is a floor."), say("The price of %1 cannot be worked out.").arg(who),
                say("Look at its packs, and at what it is got from")};
    case G::AmountNotStated:
        return {say("Not in the sums:"), say("%1 has no amount.").arg(who), say("Type one to count it")};
    case G::MeasureHasNoSize:
        return {say("Not in the sums:"), say("the measure of %1 has no size.").arg(who),
                say("Set it in House measures")};
    case G::OptionalLeftOut:
        return {say("Not in the sums:"), say("%1, optional.").arg(who), {}};
    case G::ToTasteLeftOut:
        return {say("Not in the sums:"), say("%1, to taste.").arg(who), {}};
    case G::IngredientUnknown:
        return {say("New to this book:"),
                say("%1. Its strength, sugar, acid and price are not known.").arg(who),
                say("Choose another, or enter its facts")};
    case G::DilutionUnknown:
        return {say("Water added is not known."),
                say("No method says how the drink is chilled; mixed is read as measured."),
                say("Write a method")};
    case G::RinseByTheHouse:
        return {say("Counted as the house finds:"), say("%1, a rinse without an amount.").arg(who),
                say("Type one to count it")};
    case G::SolidShareUnknown:
        return {say("Not in the sums:"), say("%1. How much of it is drunk is not known.").arg(who), {}};
    case G::GlassUnknown:
        return {say("The glass is not known,"), say("so its fill line is a guess on a plain cylinder."),
                say("Name a glass")};
    case G::PartTargetMissing:
        return {say("Parts need a size."), say("Volumes wait until one serve has a target."),
                say("Say what one serve measures")};
    case G::FactsContradict:
        return {say("Facts contradict each other:"), say("%1. One of them is wrong.").arg(who),
                say("Check strength, sugar and density")};
    }
    return {};
}

QString contradictionInWords(double densityOffKgPerM3, double asSugarGPerL) {
    if (densityOffKgPerM3 == 0 && asSugarGPerL == 0)
        return say("strength and what is dissolved do not fit in a litre together");
    const QString kg = number(std::abs(densityOffKgPerM3), 1);
    const QString sugar = number(std::abs(asSugarGPerL), 0);
    return densityOffKgPerM3 > 0
               ? say("density %1 kg/m³ above what strength and sugar make, as with %2 g/l more sugar")
                     .arg(kg, sugar)
               : say("density %1 kg/m³ below what strength and sugar make, as with %2 g/l less sugar")
                     .arg(kg, sugar);
}

QString allergenName(const QString& id) {
    QString name = id;
    return name.replace(QLatin1Char('_'), QLatin1Char(' '));
}

namespace {

QString decimalQuestion(const QString& raw) {
    static const QRegularExpression marked(QStringLiteral("[0-9]+(?:[.,][0-9]+)+"));
    const QString written = marked.match(raw).captured();
    if (written.isEmpty()) return say("Is the mark in this number a decimal mark?");
    if (written.contains(QLatin1Char(',')) && written.contains(QLatin1Char('.')))
        return say("“%1”: which of the two is the decimal mark?").arg(written);
    if (written.contains(QLatin1Char('.'))) return say("“%1”: is the point a decimal mark?").arg(written);
    return say("“%1”: is the comma a decimal mark?").arg(written);
}

// Both syrups that a ratio of sugar may be.
QString ratioQuestion(const std::string& ratio) {
    const auto both = preparation::outcomesOf(ratio);
    if (!both) return say("A ratio: by weight or by volume is not said.");
    const QLocale locale;
    const auto brix = [&](const preparation::SyrupReading& syrup) {
        return locale.toString(syrup.brix.percent(), 'f', 1);
    };
    return say("“%1” by weight is %2 °Bx, by the cup %3 °Bx: which is not said.")
        .arg(fromCore(ratio), brix(both->byWeight), brix(both->byCup));
}

} // namespace

QString refusalInWords(const exchange::ReadLine& read) {
    QStringList reasons;
    for (const auto& doubt : read.doubts)
        if (doubt.weight == exchange::DoubtWeight::Refuse)
            reasons << doubtQuestion(doubt, fromCore(read.raw));
    if (reasons.isEmpty()) return say("Nothing in it could be read.");
    return reasons.join(QLatin1Char(' '));
}

QString doubtQuestion(const exchange::Doubt& doubt, const QString& raw) {
    using D = exchange::DoubtCode;
    const QString part = fromCore(doubt.detail);
    switch (doubt.code) {
    case D::OunceOfSolid:
        return say("An ounce here: poured or weighed?");
    case D::RangeOrFraction:
        return say("“%1”: from one to the other, or a fraction?").arg(part);
    case D::CommaAmbiguous:
        return decimalQuestion(raw);
    case D::NumberUnclear:
        return say("The number is not clear: “%1”.").arg(part);
    case D::NegativeAmount:
        return say("An amount below zero.");
    case D::ZeroDenominator:
        return say("“%1” divides by nothing.").arg(part);
    case D::NotANumber:
        return say("“%1” is not a number.").arg(part);
    case D::TooLarge:
        return say("“%1” is too large to hold.").arg(part);
    case D::TooSmall:
        return say("“%1” is too small to hold.").arg(part);
    case D::StrengthAbove100:
        return say("A strength above 100 %: “%1”.").arg(part);
    case D::AmountAbsurd:
        return say("That is a lot. Read as written; say so if it was something else.");
    case D::MeasureGuessed:
        return say("No measure was written; this one is a guess.");
    case D::RatioBasisUnstated:
        return ratioQuestion(doubt.detail);
    case D::Fused:
        return say("Several lines run together; read as separate ones?");
    case D::SeveralDrinks:
        return say("Two drinks may stand here, “%1” the second; they are read as one.").arg(part);
    case D::Duplicate:
        return say("The same line stands above.");
    case D::NameAmbiguous:
        return say("The name fits more than one ingredient.");
    case D::LineTooLong:
        return say("The line is too long to be one ingredient.");
    case D::EncodingRecovered:
        return say("Some letters were damaged and have been restored.");
    case D::ControlCharacters:
        return say("Hidden control characters were taken out.");
    case D::BidiControls:
        return say("Marks that reverse the text's direction were taken out.");
    case D::MarkupBlockInvalid:
        return say("A block of recipe markup could not be read.");
    case D::NestingTooDeep:
        return say("Nested too deep to read.");
    case D::AlternativeNotChosen:
        return say("Written with an “or”; the first is counted.");
    case D::LocalSpoon:
        return say("Spoons differ by country; read as this book's.");
    }
    return {};
}

Sentence storeErrorSentence(const store::StoreError& error) {
    using K = store::StoreErrorKind;
    const QString path = fromCore(error.path());
    switch (error.kind()) {
    case K::NotFound:
        return {say("There is no book at %1.").arg(path), say("Nothing was changed."),
                say("Open another, or make a new one.")};
    case K::AlreadyExists:
        return {say("Something stands at %1 already.").arg(path), say("It was left as it is."),
                say("Choose another name.")};
    case K::NotADatabase:
        return {say("%1 is not a book.").arg(path), say("The file was left as it is."),
                say("Open another file.")};
    case K::NotAWorkbook:
        return {say("%1 belongs to another program.").arg(path), say("The file was left as it is."),
                say("Open another file.")};
    case K::NewerIncompatible:
        return {say("%1 was written by a newer Stillroom.").arg(path), say("The file was left as it is."),
                say("Open it with that one.")};
    case K::Damaged:
        return {say("%1 is damaged.").arg(path), say("Nothing was written to it."),
                say("Run “stillroom check” on it, and open your last copy.")};
    case K::Locked:
        return {say("The book is open elsewhere: %1.").arg(path), say("Nothing was changed."),
                say("Close it there, or open it to read only.")};
    case K::ReadOnly:
        return {say("The book cannot be written to: %1.").arg(path),
                say("What you typed is still in this window."), say("Save a copy somewhere else.")};
    case K::DiskFull:
        return {say("The disk is full."),
                say("Everything before this edit is saved; this edit is still in this window."),
                say("Free some space; the next edit saves it too.")};
    case K::Io:
        return {say("The disk refused to write."),
                say("Everything before this edit is saved; this edit is still in this window."),
                say("Save a copy on another disk.")};
    case K::Circle:
        return {say("A preparation would be made of itself: %1.").arg(fromCore(error.what())),
                say("Nothing was kept; the draft is as you wrote it."),
                say("Take one of them out of the other.")};
    case K::Refused:
        return {say("The book refused that change."), say("Nothing was changed."), {}};
    }
    return {};
}

namespace {

QDateTime local(const base::Instant& instant) {
    return QDateTime::fromMSecsSinceEpoch(instant.utcMs, Qt::OffsetFromUTC, instant.offsetMinutes * 60);
}

} // namespace

QString counted(int count, const QString& one, const QString& many) {
    return QString::number(count) + QLatin1Char(' ') + (count == 1 ? one : many);
}

QString dayText(const base::Instant& instant, const base::Instant& now) {
    const QDate day = local(instant).date();
    const bool thisYear = day.year() == local(now).date().year();
    return QLocale().toString(day, thisYear ? QStringLiteral("d MMM") : QStringLiteral("d MMM yyyy"));
}

QString timeText(const base::Instant& instant) {
    return local(instant).toString(QStringLiteral("HH:mm:ss"));
}

} // namespace stillroom::ui
