#include "ui/panels/preparation/preparation_values.h"

#include "core/preparation/account.h"
#include "core/preparation/label.h"
#include "core/preparation/ratio.h"
#include "core/preparation/stretched.h"
#include "core/spec/bindings.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/preparation_words.h"
#include "ui/text/us_allergens.h"
#include "ui/text/words.h"

#include <QCoreApplication>
#include <QDate>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using preparation::Stand;

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("PreparationView", text);
}

constexpr double kSeen = 0.5; // g: less than that is no loss to the eye

QString grams(double g) {
    return g < 10 ? trimmedNumber(g, 1) : number(g, 0);
}

QString atMost(bool atMost, const QString& figure) {
    return atMost ? QString(QString(kAtMost) + u' ' + figure) : figure;
}

QString headOf(const Stand& stand) {
    if (stand.at == Stand::At::Pan) return say("in the pan");
    if (stand.at == Stand::At::Usable) return say("usable");
    return stepShort(stand.kind);
}

QString besideOf(const Stand& stand) {
    QStringList parts;
    if (stand.left.grams() >= kSeen)
        parts << QString(QString(kMinus) + say("%1 g ").arg(grams(stand.left.grams())) +
                         lossWords(stand.at == Stand::At::Step ? stand.kind : spec::StepKind::Strain));
    if (stand.at != Stand::At::Pan && stand.entered.grams() >= kSeen)
        parts << say("+%1 g").arg(grams(stand.entered.grams()));
    if (stand.at == Stand::At::Step && stand.kind == spec::StepKind::Ferment) parts << say("not modelled");
    if (stand.at == Stand::At::Step && parts.isEmpty() && stand.atMost) parts << say("loss not stated");
    if (stand.measured) parts << say("measured");
    return parts.join(u", "_s);
}

// Known, else what there is at least, else unknown.
QString cell(const std::optional<double>& value, const std::optional<double>& least, int decimals) {
    if (value) return number(*value, decimals);
    return least ? QString(QString(kAtLeast) + u' ' + number(*least, decimals)) : u"?"_s;
}

std::optional<double> major(const std::optional<quantity::Cost>& cost) {
    return cost ? std::optional(cost->major()) : std::nullopt;
}

QStringList cellsOf(const Stand& stand) {
    const auto density =
        stand.densityKgPerM3 ? std::optional(*stand.densityKgPerM3 / 1000) : std::optional<double>();
    const double ml = stand.volume.ml();
    const auto& least = stand.least;
    return {cell(stand.sugarGPerL, least.sugarGPerL, 0),
            cell(stand.brix, least.brix, 1),
            cell(density, std::nullopt, 2),
            ml > 0 ? atMost(stand.atMost, number(ml, 0)) : QString(kEmDash),
            cell(stand.strengthPercent, least.strengthPercent, 1),
            cell(stand.acidGPerL, least.acidGPerL, 1),
            cell(major(stand.costPer100Ml), major(stand.leastCostPer100Ml), 2)};
}

// Sugar alone, to compare with: only where it is a syrup, too.
std::optional<StandColumn> plainSyrup(const DraftReading& now) {
    constexpr double kSweet = 200; // g/l: below that nobody would pour it for a syrup
    const auto plain = preparation::syrupOf(1, 1, preparation::RatioBasis::ByWeight);
    if (!plain || !now.made || now.made->facts.dry) return std::nullopt;
    const auto& facts = now.made->facts;
    if (!facts.sugarGPerL || facts.sugarGPerL->typical < kSweet) return std::nullopt;
    if (!facts.abvPercent || facts.abvPercent->high > 0.5) return std::nullopt;
    StandColumn column;
    column.head = say("plain 1:1 by weight");
    column.quiet = true;
    const double sugar = plain->sugarPer30Ml.grams() / 30 * 1000;
    column.cells = {number(sugar, 0),
                    number(plain->brix.percent(), 1),
                    number(plain->density.gPerMl(), 2),
                    QString(),
                    u"0.0"_s,
                    u"0.0"_s,
                    QString()};
    return column;
}

QString lineName(const spec::Spec& spec, const preparation::PartDate& part) {
    QString name = fromCore(spec.lines[part.line].name);
    if (!name.isEmpty()) name[0] = name[0].toUpper();
    return name;
}

const preparation::PartDate* partEndingOn(const std::string& day, const std::string& madeOn,
                                          const std::vector<preparation::PartDate>& parts) {
    const auto found = std::find_if(parts.begin(), parts.end(), [&](const auto& part) {
        return part.useBy == day && part.madeOn <= madeOn;
    });
    return found == parts.end() ? nullptr : &*found;
}

std::optional<int> daysBetween(const std::string& from, const std::string& to) {
    const QDate a = QDate::fromString(fromCore(from), Qt::ISODate);
    const QDate b = QDate::fromString(fromCore(to), Qt::ISODate);
    if (!a.isValid() || !b.isValid()) return std::nullopt;
    return static_cast<int>(a.daysTo(b));
}

QString allergenSentence(const preparation::Label& label) {
    QStringList names;
    for (const auto& id : label.allergens)
        names << allergenName(fromCore(id));
    const QString us = usAllergens(label.allergens);
    const QString more = us.isEmpty() ? us : QString(u' ' + us);
    if (!label.allergensComplete)
        return (names.isEmpty() ? say("Allergens: not stated for every part.")
                                : say("Allergens: %1; not stated for every part.").arg(names.join(u", "_s))) +
               more;
    return (names.isEmpty() ? say("Allergens: none of the fourteen.")
                            : say("Allergens: %1.").arg(names.join(u", "_s))) +
           more;
}

QString severityWord(spec::Severity severity) {
    if (severity == spec::Severity::Allergen) return say("Allergen");
    return severity == spec::Severity::Danger ? say("Danger") : say("Caution");
}

// The danger and the first thing to do about it: a label has no room for more.
QString firstTwoSentences(const QString& text) {
    const auto stop = text.indexOf(u". "_s);
    const auto second = stop < 0 ? stop : text.indexOf(u". "_s, stop + 2);
    return second < 0 ? text : text.left(second + 1);
}

} // namespace

StepBarsValues stepBarsOf(const DraftReading& now) {
    StepBarsValues values;
    if (!now.made) {
        values.empty = say("Write a line with an amount: what is left after each step is drawn here.");
        return values;
    }
    for (const auto& stand : preparation::account(*now.made)) {
        StepBar bar;
        bar.grams = stand.mass.grams();
        bar.left = stand.at == Stand::At::Pan ? 0 : stand.left.grams();
        bar.inside = atMost(stand.atMost, say("%1 g").arg(grams(bar.grams)));
        bar.beside = besideOf(stand);
        bar.loss = bar.left >= kSeen;
        bar.edited = stand.at != Stand::At::Pan;
        if (stand.at == Stand::At::Step)
            bar.name = stepInWords(now.spec.steps[stand.step]);
        else
            bar.name = headOf(stand);
        if (stand.at == Stand::At::Usable) {
            if (stand.volume.ml() > 0)
                bar.inside = atMost(stand.atMost, say("%1 ml").arg(number(stand.volume.ml(), 0)));
            QStringList beside;
            if (!bar.beside.isEmpty()) beside << bar.beside;
            beside << say("%1 % of the weight").arg(number(100 * preparation::usableShare(*now.made), 1));
            bar.beside = beside.join(u", "_s);
        }
        values.bars.push_back(std::move(bar));
    }
    return values;
}

int stepOfBar(const DraftReading& now, int bar) {
    return std::min(bar - 1, static_cast<int>(now.spec.steps.size()));
}

int barOfStep(int step) {
    return step + 1;
}

StandGridValues standGridOf(const DraftReading& now, const quantity::Currency& currency) {
    StandGridValues values;
    if (!now.made) return values;
    values.names = {say("Sugar"),    say("Brix"), say("Density"), say("Volume"),
                    say("Strength"), say("Acid"), say("Cost")};
    values.units = {say("g/l"),
                    QStringLiteral("°"),
                    say("g/ml"),
                    say("ml"),
                    say("% vol"),
                    say("g/l"),
                    say("%1/100 ml").arg(currencySign(currency))};
    for (const auto& stand : preparation::account(*now.made)) {
        StandColumn column;
        column.head = headOf(stand);
        column.cells = cellsOf(stand);
        column.strong = stand.at == Stand::At::Usable;
        values.columns.push_back(std::move(column));
    }
    if (auto plain = plainSyrup(now)) values.columns.push_back(*std::move(plain));
    return values;
}

QString pastPartsSentence(const spec::Spec& spec, const std::vector<preparation::PartDate>& past,
                          const std::string& today) {
    QStringList said;
    for (const auto& part : past)
        said << say("%1 is past its day: use by %2.")
                    .arg(lineName(spec, part), civilDayText(part.useBy, today));
    if (said.isEmpty()) return {};
    said.removeDuplicates();
    said << (said.size() == 1 ? say("Nothing made of it keeps longer.")
                              : say("Nothing made of them keeps longer."));
    return said.join(u' ');
}

KeepingValues keepingValuesOf(const DraftReading& now, const BottleDays& days) {
    const auto& [made, useBy, parts, today] = days;
    KeepingValues values;
    if (!now.made) {
        values.words = say("How long it keeps is said here, from its parts and steps.");
        return values;
    }
    values.words = keepingSentence(now.keeping);
    if (const auto source = keepingSource(now.keeping); !source.isEmpty())
        values.words += u" ("_s + source + u")."_s;
    values.assumed = made.empty();
    const std::string from = made.empty() ? today : made;
    values.warning = pastPartsSentence(now.spec, preparation::pastOn(from, parts), today);
    std::string until = useBy;
    if (until.empty()) {
        const auto whole = preparation::useBy(from, now.keeping);
        until = preparation::useBy(from, now.keeping, preparation::bindingOn(from, parts))
                    .value_or(std::string());
        const auto* part = partEndingOn(until, from, parts);
        if (part != nullptr && values.warning.isEmpty() && (!whole || until < *whole))
            values.words += u' ' + say("The %1 in it ends %2, and so does the whole.")
                                       .arg(lineName(now.spec, *part), civilDayText(until, today));
    }
    const auto last = daysBetween(from, until);
    if (!last || *last < 0) return values;
    values.drawn = true;
    values.lastDay = *last;
    values.today = daysBetween(from, today);
    values.made = made.empty() ? say("made today") : say("made %1").arg(civilDayText(made, today));
    values.now = say("today, %1").arg(civilDayText(today, today));
    values.useBy = say("use by %1").arg(civilDayText(until, today));
    const int left = *last - values.today.value_or(0);
    if (left < 0)
        values.left = say("%1 past its day").arg(counted(-left, say("day"), say("days")));
    else if (left == 0)
        values.left = say("its last day");
    else
        values.left = say("%1 left").arg(counted(left, say("day"), say("days")));
    if (made.empty())
        values.words.prepend(
            say("Nobody noted when it was made; drawn as if today. Make a batch to note it. "));
    return values;
}

LabelValues labelValuesOf(const DraftReading& now, const spec::Bindings& bindings, const BottleDays& days) {
    const auto& [made, useBy, parts, today] = days;
    LabelValues values;
    values.name = now.words.name.empty() ? say("Not named yet") : fromCore(now.words.name);
    if (!now.made) return values;
    const std::string from = made.empty() ? today : made;
    const auto binding = preparation::bindingOn(from, parts);
    const auto label =
        preparation::labelOf(now.words.name, now.spec, bindings, *now.made, made, now.keeping, binding);
    QStringList about;
    const auto ratio = preparation::ratioOf(now.spec, bindings);
    if (ratio && ratio->basis)
        about << (*ratio->basis == preparation::RatioBasis::ByWeight ? say("%1 by weight") : say("%1 by cup"))
                     .arg(ratioText(ratio->sweetParts));
    else if (ratio)
        about << say("%1, by weight or cup not said").arg(ratioText(ratio->sweetParts));
    if (label.strengthPercent && label.strengthPercent->typical >= 0.05)
        about << say("%1 % vol").arg(number(label.strengthPercent->typical, 1));
    else if (!label.strengthPercent && !now.made->facts.dry)
        about << say("strength not known");
    // Of a ratio without its basis neither syrup is decided.
    const auto both =
        ratio && !ratio->basis
            ? preparation::outcomesOf(now.spec, *ratio, bindings.data().larder, bindings.rules())
            : preparation::BasisOutcomes{};
    if (both.byWeight.brix && both.byCup.brix)
        about << say("%1 or %2 Bx").arg(number(*both.byWeight.brix, 0), number(*both.byCup.brix, 0));
    else if (now.made->brix && *now.made->brix >= 0.05)
        about << say("%1 Bx").arg(number(*now.made->brix, 0));
    values.about = about.join(u", "_s);
    const QString blank = u"\u2009________"_s;
    values.days.emplace_back(say("made"), made.empty() ? blank : civilDayText(made, today));
    const std::string until = !useBy.empty() ? useBy : label.useBy.value_or(std::string());
    if (!until.empty())
        values.days.emplace_back(say("use by"), civilDayText(until, today));
    else if (label.keeping.basis != preparation::Keeping::Basis::NoLimit)
        values.days.emplace_back(say("use by"), blank);
    if (const auto past = pastPartsSentence(now.spec, preparation::pastOn(from, parts), today);
        !past.isEmpty()) {
        values.cautions << past;
    } else if (until.empty() && !binding.empty()) {
        // The day is written by hand: what it must not pass stands beside it.
        const auto last = *std::min_element(binding.begin(), binding.end());
        values.cautions << say("Use by %1 at the latest: the %2 in it ends then.")
                               .arg(civilDayText(last, today),
                                    lineName(now.spec, *partEndingOn(last, from, parts)));
    }
    for (const auto& caution : label.cautions)
        values.cautions << severityWord(caution.severity) + u": "_s +
                               firstTwoSentences(fromCore(caution.text));
    values.allergens = allergenSentence(label);
    if (label.keeping.mustRefrigerate)
        values.keep = say("Only in the refrigerator.");
    else if (label.keeping.basis != preparation::Keeping::Basis::Unknown)
        values.keep = label.keeping.storage == preparation::Storage::Refrigerate ? say("Keep refrigerated.")
                                                                                 : say("Keep cool and dark.");
    values.deference = fromCore(label.deference);
    return values;
}

QString stretchedSentence(const DraftReading& now, const spec::Bindings& bindings) {
    const auto stretched = now.made ? preparation::stretchedOf(now.spec, bindings, *now.made) : std::nullopt;
    if (!stretched) return {};
    const QString least = stretched->atLeast ? QString(QString(kAtLeast) + u' ') : QString();
    const double times = stretched->timesAsSour;
    const QString sour = times > 1.4 && times < 1.6 ? say("half as sour again")
                                                    : say("%1 times as sour").arg(number(times, 2));
    return say("Acid %1%2 g/100 ml as citric, %3 % by the rule of the peel; %4 holds %5: %1%6.")
        .arg(least, number(stretched->madeGPer100Ml, 1), number(stretched->byPeelRulePercent, 2),
             fromCore(now.spec.lines[stretched->juice].name), number(stretched->juiceGPer100Ml, 1), sour);
}

QString standInSentence(const DraftReading& now) {
    constexpr double kPour = 30; // ml
    const auto plain = preparation::syrupOf(1, 1, preparation::RatioBasis::ByWeight);
    if (!now.made || !plain) return {};
    const double sugar = plain->sugarPer30Ml.grams();
    const auto ml =
        preparation::standsInFor(*now.made, quantity::Volume::fromMl(kPour), sugar / kPour * 1000);
    if (!ml || ml->ml() > 10 * kPour) return {};
    const double more = ml->ml() - kPour;
    const QString rest = std::abs(more) < 0.5 ? say("as much to pour")
                         : more > 0           ? say("%1 ml more to pour").arg(number(more, 0))
                                              : say("%1 ml less to pour").arg(number(-more, 0));
    return say("To stand in for %1 ml of plain 1:1 by weight use %2 ml of this: the same %3 g of sugar, %4.")
        .arg(number(kPour, 0), number(ml->ml(), 0), number(sugar, 1), rest);
}

QString ratioText(double sweetParts) {
    return sweetParts >= 1 ? QString(trimmedNumber(sweetParts, 2) + u":1"_s)
                           : QString(u"1:"_s + trimmedNumber(1 / sweetParts, 2));
}

QString ratioSentence(const preparation::SpecRatio& ratio, const preparation::BasisOutcomes& outcomes) {
    using preparation::RatioBasis;
    const auto brix = [](const preparation::BasisOutcome& outcome) {
        return outcome.brix ? say("%1 °Bx").arg(number(*outcome.brix, 1)) : say("nobody knows what Brix");
    };
    const auto& weight = outcomes.byWeight;
    const auto& cup = outcomes.byCup;
    const QString parts = ratioText(ratio.sweetParts);
    if (!ratio.basis)
        return say("%1 in parts, and nobody said of what: by weight %2, by cup %3.")
            .arg(parts, brix(weight), brix(cup));
    const bool byWeight = *ratio.basis == RatioBasis::ByWeight;
    const auto& is = byWeight ? weight : cup;
    const auto& other = byWeight ? cup : weight;
    QString sentence = byWeight
                           ? say("%1 by weight: %2. By cup it would be %3").arg(parts, brix(is), brix(other))
                           : say("%1 by cup: %2. By weight it would be %3").arg(parts, brix(is), brix(other));
    if (is.sugarGPerL && other.sugarGPerL && *is.sugarGPerL > 0) {
        const double more = 100 * (*other.sugarGPerL / *is.sugarGPerL - 1);
        sentence += more < 0 ? say(", %1 % less sugar in the same pour").arg(number(-more, 0))
                             : say(", %1 % more sugar in the same pour").arg(number(more, 0));
    }
    return sentence + u'.';
}

QString yieldSentence(const DraftReading& now) {
    if (!now.made) return {};
    if (now.made->yieldMeasured) return say("Yield measured, not predicted.");
    const auto& steps = now.made->process.steps;
    const bool weighed =
        !steps.empty() && std::find(steps.back().remarks.begin(), steps.back().remarks.end(),
                                    preparation::StepRemark::MeasuredResult) != steps.back().remarks.end();
    if (weighed) return say("Yield weighed after the last step, not predicted.");
    if (now.made->yieldAtMost) return say("There is at most so much: a loss nobody stated.");
    return say("Yield worked out from what is written here, not measured.");
}

} // namespace stillroom::ui
