#include "ui/plots/plot_text.h"

#include "ui/text/numbers.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QTextLayout>

#include <cmath>

namespace stillroom::ui {

namespace {

// Breaks a paragraph into lines; what does not fit into `maxLines` ends in an ellipsis.
QStringList brokenLines(const QString& text, Type type, const Look& look, double width, int maxLines) {
    QStringList lines;
    QTextLayout layout(text, look.font(type));
    QTextOption option; // a word longer than the line breaks rather than runs over its neighbour
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    layout.setTextOption(option);
    layout.beginLayout();
    for (auto line = layout.createLine(); line.isValid(); line = layout.createLine()) {
        line.setLineWidth(width);
        if (maxLines > 0 && lines.size() == maxLines - 1) {
            const auto rest = text.mid(line.textStart());
            lines << QFontMetricsF(look.font(type)).elidedText(rest, Qt::ElideRight, width);
            break;
        }
        lines << text.mid(line.textStart(), line.textLength()).trimmed();
    }
    layout.endLayout();
    return lines;
}

} // namespace

double drawParagraph(QPainter& painter, QPointF topLeft, double width, const QString& text, Type type,
                     Token token, const Look& look, int maxLines) {
    const QFontMetricsF metrics(look.font(type));
    const double height = look.lineHeight(type);
    painter.setFont(look.font(type));
    painter.setPen(look.color(token));
    double y = 0;
    for (const auto& line : brokenLines(text, type, look, width, maxLines)) {
        painter.drawText(topLeft + QPointF(0, y + (height + metrics.ascent() - metrics.descent()) / 2), line);
        y += height;
    }
    return y;
}

double paragraphHeight(const QString& text, Type type, const Look& look, double width, int maxLines) {
    return look.lineHeight(type) * static_cast<double>(brokenLines(text, type, look, width, maxLines).size());
}

QString plotMl(double ml) {
    return trimmedNumber(ml, ml < 9.95 ? 1 : 0);
}

QString withUnit(const QString& figure, QStringView unit) {
    return figure + kNarrowSpace + unit.toString();
}

double textWidth(const QString& text, Type type, const Look& look) {
    return QFontMetricsF(look.font(type)).horizontalAdvance(text);
}

QString wholeParts(const QString& text, const QString& separator, Type type, const Look& look, double width) {
    if (textWidth(text, type, look) <= width) return text;
    const QStringList parts = text.split(separator);
    for (qsizetype kept = parts.size() - 1; kept > 0; --kept) {
        const QString shown = parts.mid(0, kept).join(separator) + separator +
                              QStringLiteral("%1 more").arg(parts.size() - kept);
        if (textWidth(shown, type, look) <= width) return shown;
    }
    return text; // the first alone is too long: it is cut
}

QStringList wholePartLines(const QString& text, const QString& separator, Type type, const Look& look,
                           double width, int lines) {
    if (text.isEmpty()) return {};
    QStringList shown;
    QStringList parts = text.split(separator);
    while (shown.size() + 1 < lines && textWidth(parts.join(separator), type, look) > width) {
        qsizetype fits = 1; // one that is too long by itself is cut
        while (fits < parts.size() &&
               textWidth(parts.mid(0, fits + 1).join(separator) + separator.trimmed(), type, look) <= width)
            ++fits;
        if (fits == parts.size()) break;
        shown << parts.mid(0, fits).join(separator) + separator.trimmed();
        parts = parts.mid(fits);
    }
    shown << wholeParts(parts.join(separator), separator, type, look, width);
    return shown;
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
