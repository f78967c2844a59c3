#include "ui/text/dilution_words.h"

#include "core/physics/dilution.h"
#include "ui/text/numbers.h"

#include <QCoreApplication>

namespace stillroom::ui {

namespace {

QString say(const char* text) {
    return QCoreApplication::translate("Dilution", text);
}

QString kindWords(spec::DilutionSource::Kind kind) {
    using Kind = spec::DilutionSource::Kind;
    switch (kind) {
    case Kind::None:
        return say("no ice melts into it");
    case Kind::Curve:
        return say("predicted by the published curve");
    case Kind::FixedFigure:
        return say("predicted by one fixed figure for its method");
    case Kind::HeatBalance:
        return say("predicted by the heat balance with the ice");
    case Kind::AllIce:
        return say("all of the ice stays in it");
    case Kind::Typed:
        return say("typed, not measured");
    case Kind::Measured:
        return say("measured");
    case Kind::UnknownIce:
        return say("not known: nobody said how much ice");
    }
    return {};
}

} // namespace

QString dilutionSourceWords(const spec::DilutionSource& source, const QString& how) {
    QString words = kindWords(source.kind);
    if (source.kind == spec::DilutionSource::Kind::Measured && !how.isEmpty())
        words += QStringLiteral(": ") + how;
    if (source.calibration) {
        const auto& bench = *source.calibration;
        const auto count = static_cast<int>(bench.measurements);
        const QString factor = number(bench.factor, 2);
        words += count == 1 ? say(", moved by one of this bench's own measurements: ×%1").arg(factor)
                            : say(", moved by %1 of this bench's own measurements: ×%2, spread %3")
                                  .arg(QString::number(count), factor, number(bench.standardDeviation, 2));
    }
    if (source.estimate) words += say(" (an estimate)");
    return words;
}

QString dilutionRatioWords(double ratio) {
    return say("%1 of the volume before ice (%2 of the finished volume)")
        .arg(number(ratio, 2), number(physics::shareOfFinished(ratio), 2));
}

} // namespace stillroom::ui
