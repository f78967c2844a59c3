#include "ui/plots/plot_text.h"

#include <QFontMetricsF>
#include <QLocale>
#include <QPainter>

#include <cmath>

namespace stillroom::ui {

namespace {
constexpr char16_t kMinus = u'\u2212';
constexpr char16_t kNarrowSpace = u'\u202f';
} // namespace

QString plotNumber(double value, int decimals) {
    QLocale locale;
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    auto text = locale.toString(value, 'f', decimals);
    // "-0.0" is nothing below nothing.
    if (text.startsWith(locale.negativeSign())) {
        text.remove(0, locale.negativeSign().size());
        const bool zero = std::abs(value) < 0.5 * std::pow(10.0, -decimals);
        if (!zero) text.prepend(kMinus);
    }
    return text;
}

QString plotMl(double ml) {
    return plotNumber(ml, ml < 9.95 ? 1 : 0);
}

QString withUnit(const QString& number, QStringView unit) {
    return number + kNarrowSpace + unit.toString();
}

double textWidth(const QString& text, Type type, const Look& look) {
    return QFontMetricsF(look.font(type)).horizontalAdvance(text);
}

QString elided(const QString& text, Type type, const Look& look, double width) {
    return QFontMetricsF(look.font(type)).elidedText(text, Qt::ElideRight, width);
}

QRectF drawLabel(QPainter& painter, QPointF at, Stand stand, const QString& text, Type type, Token token,
                 const Look& look, double maxWidth) {
    const QFontMetricsF metrics(look.font(type));
    const auto shown = maxWidth > 0 ? metrics.elidedText(text, Qt::ElideRight, maxWidth) : text;
    const double width = metrics.horizontalAdvance(shown);
    const double left = stand == Stand::Right  ? at.x() - width
                        : stand == Stand::Left ? at.x()
                                               : at.x() - width / 2;
    const double height = look.lineHeight(type);
    const QRectF box(left, at.y() - height / 2, width, height);
    painter.setFont(look.font(type));
    painter.setPen(look.color(token));
    painter.drawText(QPointF(left, at.y() + (metrics.ascent() - metrics.descent()) / 2), shown);
    return box;
}

double niceStep(double span, int mostSteps) {
    if (!(span > 0) || mostSteps < 1) return 1;
    const double raw = span / mostSteps;
    const double power = std::pow(10.0, std::floor(std::log10(raw)));
    for (const double factor : {1.0, 2.0, 2.5, 5.0, 10.0})
        if (factor * power >= raw * (1 - 1e-9)) return factor * power;
    return 10 * power;
}

int decimalsOfStep(double step) {
    for (int decimals = 0; decimals < 6; ++decimals) {
        const double scaled = step * std::pow(10.0, decimals);
        if (std::abs(scaled - std::round(scaled)) < 1e-6 * scaled) return decimals;
    }
    return 6;
}

} // namespace stillroom::ui
