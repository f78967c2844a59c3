#include "ui/panels/larder/price_values.h"

#include "ui/text/larder_words.h"
#include "ui/text/numbers.h"
#include "ui/text/preparation_words.h"

#include <QCoreApplication>

namespace stillroom::ui {

PriceStepsValues priceStepsValues(const larder::PriceLine& line, const quantity::Currency& currency,
                                  const std::string& today) {
    const auto say = [](const char* text) { return QCoreApplication::translate("Prices", text); };
    PriceStepsValues values;
    values.today = larder::dayNumber(today);
    for (const auto& point : line.points) {
        PriceStepsValues::Step step;
        step.day = point.day;
        step.worth = point.price.major;
        step.on = civilDayText(point.on, today);
        step.price = number(point.price.major, currency.exponent);
        const QString change = signedNumber(point.change * 100, 1);
        if (change.startsWith(QLatin1Char('+')) || change.startsWith(kMinus))
            step.change = QString(change + kNarrowSpace + QLatin1Char('%'));
        values.steps.push_back(std::move(step));
    }
    if (!line.points.empty())
        values.per =
            QString(currencySign(currency) + QStringLiteral(" / ") + unitPricePer(line.points.back().price));
    if (line.leftOut == 1)
        values.leftOut = say("One pack stands on no line: no day, another unit, or no rate of its day.");
    else if (line.leftOut > 1)
        values.leftOut = say("%1 packs stand on no line: no day, another unit, or no rate of their day.")
                             .arg(line.leftOut);
    return values;
}

} // namespace stillroom::ui
