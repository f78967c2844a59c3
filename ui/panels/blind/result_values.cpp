#include "ui/panels/blind/result_values.h"

#include "core/tasting/phrases.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using tasting::PanelKind;

namespace {

QString product(const tasting::PanelNames& names, std::size_t at) {
    return at < names.products.size() ? fromCore(names.products[at]) : QString(QChar(u'A' + char16_t(at)));
}

struct CountWords {
    QString own;
    QString axis;
};

CountWords countWords(PanelKind kind, const tasting::ChoiceResult& found, const tasting::PanelNames& names) {
    const QString of = QObject::tr("%1 of %2").arg(found.count).arg(found.answers);
    const QString name = found.more ? product(names, *found.more) : QString();
    switch (kind) {
    case PanelKind::Triangle:
        return {QObject::tr("%1 found the odd one").arg(of),
                QObject::tr("how many of %1 would find it by chance alone").arg(found.answers)};
    case PanelKind::DuoTrio:
        return {QObject::tr("%1 found the like one").arg(of),
                QObject::tr("how many of %1 would find it by chance alone").arg(found.answers)};
    default:
        break;
    }
    const QString own =
        name.isEmpty() ? QObject::tr("%1, evenly").arg(of) : QObject::tr("%1 for %2").arg(of, name);
    if (found.test == tasting::ChoiceTest::PairedForetold)
        return {own, QObject::tr("how many of %1 would choose it by chance alone").arg(found.answers)};
    return {own, QObject::tr("how many of %1 would agree by chance alone").arg(found.answers)};
}

} // namespace

std::optional<ChanceValues> chanceValues(const tasting::PanelResult& result,
                                         const tasting::PanelNames& names) {
    const auto bars = tasting::chanceBars(result);
    if (!bars) return std::nullopt;
    const auto words = countWords(result.kind, std::get<tasting::ChoiceResult>(result.found), names);
    return ChanceValues{
        bars->chance, bars->needed, bars->count, words.own, fromCore(tasting::percent(result.alpha)),
        words.axis};
}

std::optional<ProductScaleValues> productScaleValues(const tasting::PanelResult& result,
                                                     const tasting::PanelNames& names) {
    const auto scale = tasting::productScale(result);
    if (!scale) return std::nullopt;
    ProductScaleValues values;
    values.from = scale->from;
    values.to = scale->to;
    const bool ranking = result.kind == PanelKind::Ranking;
    for (const auto& each : scale->products) {
        QString words = trimmedNumber(each.value, 1);
        if (!ranking) words = number(each.value, 1);
        if (each.low && each.high)
            words += QObject::tr(", %1 to %2").arg(number(*each.low, 1), number(*each.high, 1));
        values.rows.push_back({product(names, each.product), each.value, each.low, each.high, words});
    }
    if (ranking) {
        values.low = QObject::tr("always first");
        values.high = QObject::tr("always last");
        values.apart = scale->leastDifference;
        if (scale->leastDifference)
            values.apartWords = QObject::tr("two rank sums differ from %1 apart, where anything does")
                                    .arg(number(*scale->leastDifference, 1));
    } else if (result.kind == PanelKind::Intensity) {
        values.low = QObject::tr("none");
        values.high = QObject::tr("extreme");
    } else {
        values.low = QObject::tr("dislike extremely");
        values.high = QObject::tr("like extremely");
    }
    return values;
}

} // namespace stillroom::ui
