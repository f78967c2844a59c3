#include "ui/panels/tasting/measured_words.h"

#include "core/store/bench_rules.h"
#include "core/store/measured_tastings.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/words.h"

#include <QStringList>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using tasting::NotCounted;

namespace {

QString whyNot(NotCounted why) {
    switch (why) {
    case NotCounted::NothingMeasured:
        return {};
    case NotCounted::NoMethod:
        return u"no ice melts into this drink"_s;
    case NotCounted::OpenAmounts:
        return u"a line without an amount or without facts leaves open what went in"_s;
    case NotCounted::StoodOnIce:
        return u"in a glass with ice it counts only at once: say 0 or 1 minute"_s;
    case NotCounted::ToppedVolume:
        return u"something was poured on top, so only a weight tells the water"_s;
    case NotCounted::LessThanWentIn:
        return u"that is not more than went in, so it is a slip, or not all of it was poured"_s;
    case NotCounted::TooMuch:
        return u"that is more than ten times its own volume in water: a slip"_s;
    case NotCounted::AgeNotSaid:
        return u"nobody said how long it stood"_s;
    case NotCounted::NotPredicted:
        return u"its temperature is not predicted"_s;
    case NotCounted::Cloudy:
        return u"a refractometer does not read through cream or egg; weigh it"_s;
    case NotCounted::TooThin:
        return u"too little is dissolved in it for a Brix to tell the water; weigh it"_s;
    }
    return {};
}

QString benchWords(const MeasuredContext& context) {
    const auto& bench = context.bench;
    if (bench.measurements == 0) return {};
    const auto method = techniqueName(context.spec.method.technique);
    const auto factor = number(bench.factor, 2);
    if (bench.measurements == 1)
        return u"This bench so far, %1: one measured, ×%2 of the prediction."_s.arg(method, factor);
    return u"This bench so far, %1: %2 measured, ×%3 of the prediction, spread %4."_s.arg(
        method, QString::number(bench.measurements), factor, number(bench.standardDeviation, 2));
}

QString temperatureBenchWords(const tasting::TemperatureBench& bench) {
    if (bench.measurements == 0) return {};
    const auto off = signedNumber(bench.warmer, 1);
    if (bench.measurements == 1) return u"One temperature so far: %1 °C from the prediction."_s.arg(off);
    return u"%1 temperatures so far: %2 °C from the prediction, spread %3."_s.arg(
        QString::number(bench.measurements), off, number(bench.standardDeviation, 1));
}

} // namespace

std::shared_ptr<const MeasuredContext> measuredContext(const store::Workbook& book,
                                                       const history::Revision& revision) {
    const auto technique = revision.spec.method.technique;
    spec::Bindings bindings(revision.spec, book.larderOf(revision), book.rulesOf(revision));
    auto plain = revision.spec;
    plain.method.dilution.reset();
    const auto source = spec::dilutionSource(plain, bindings);
    std::optional<double> predicted;
    if (source.predictedRatio > 0) predicted = source.predictedRatio;
    const auto rules = store::benchRules(book, book.larder());
    return std::make_shared<MeasuredContext>(
        MeasuredContext{revision.spec, std::move(bindings), predicted,
                        rules.bench ? rules.bench->of(technique) : physics::Calibration{},
                        store::temperatureBench(book, technique)});
}

QString measuredWords(const MeasuredContext& context, const tasting::Circumstances& circumstances) {
    QStringList parts;
    const auto& measured = circumstances.measured;
    if (measured.weight || measured.volume || measured.brixRead) {
        const auto water = tasting::dilutionMeasured(context.spec, context.bindings, circumstances);
        if (!water) {
            parts << u"Not counted for the bench: %1."_s.arg(whyNot(water.error()));
        } else {
            auto words = u"Water added: %1 of the volume before ice"_s.arg(number(water->ratio, 2));
            if (context.predicted)
                words += u"; predicted %1, so ×%2"_s.arg(number(*context.predicted, 2),
                                                         number(water->ratio / *context.predicted, 2));
            parts << words + u". It counts for this bench."_s;
        }
        if (measured.brixRead && (measured.weight || measured.volume))
            parts << u"The Brix is kept and not counted: %1 tells the water better."_s.arg(
                measured.weight ? u"a weight"_s : u"a volume"_s);
        else if (measured.brixRead && water)
            parts << u"By Brix alone it is %1."_s.arg(fromCore(water->how));
    }
    if (measured.temperature) {
        const auto found = tasting::temperatureMeasured(context.spec, context.bindings, circumstances);
        if (found)
            parts << u"Predicted at that age: %1 °C, %2 from it."_s.arg(number(found->predicted.celsius(), 1),
                                                                        signedNumber(found->warmer(), 1));
        else
            parts << u"The temperature is not held against a prediction: %1."_s.arg(whyNot(found.error()));
    }
    for (const auto& words : {benchWords(context), temperatureBenchWords(context.temperature)})
        if (!words.isEmpty()) parts << words;
    return parts.join(u' ');
}

} // namespace stillroom::ui
