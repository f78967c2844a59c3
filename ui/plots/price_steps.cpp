#include "ui/plots/price_steps.h"

#include "ui/plots/plot_text.h"
#include "ui/theme/theme.h"

#include <QPainter>

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

constexpr double kHeight = 92;
constexpr double kAbove = 22; // for the changes over the steps
constexpr double kBelow = 20; // for the days

Token inkOf(double change) {
    if (change > 0) return Token::ChangeUp;
    return change < 0 ? Token::ChangeDown : Token::Ink2;
}

} // namespace

PriceStepsGeometry priceStepsGeometry(const PriceStepsValues& values, QSizeF size, const Look& look) {
    PriceStepsGeometry geometry;
    const double left = look.px(74); // for the two figures of the scale
    geometry.field = QRectF(left, look.px(kAbove), std::max(look.px(60), size.width() - left - look.px(70)),
                            look.px(kHeight - kAbove - kBelow));
    if (values.steps.empty()) return geometry;
    const auto [least, most] =
        std::minmax_element(values.steps.begin(), values.steps.end(),
                            [](const auto& a, const auto& b) { return a.worth < b.worth; });
    geometry.low = least->worth;
    geometry.high = most->worth;
    const double span = geometry.high - geometry.low;
    const int first = values.steps.front().day;
    const int last = std::max(values.today, values.steps.back().day);
    const double perDay = last > first ? geometry.field.width() / (last - first) : 0;
    for (const auto& step : values.steps) {
        const double share = span > 0 ? (step.worth - geometry.low) / span : 0.5;
        geometry.starts.emplace_back(geometry.field.left() + (step.day - first) * perDay,
                                     geometry.field.bottom() - share * geometry.field.height());
    }
    geometry.now = geometry.field.left() + (last - first) * perDay;
    return geometry;
}

void paintPriceSteps(QPainter& painter, const QRectF& box, const PriceStepsValues& values, const Look& look) {
    if (values.steps.empty()) return;
    painter.save();
    painter.translate(box.topLeft());
    painter.setRenderHint(QPainter::Antialiasing);
    const auto at = priceStepsGeometry(values, box.size(), look);
    const auto& steps = values.steps;
    // The scale: its two ends, and the unit once.
    const double label = at.field.left() - look.px(10);
    const auto scale = [&](double y, double worth) {
        const auto said =
            std::find_if(steps.begin(), steps.end(), [&](const auto& step) { return step.worth == worth; });
        painter.setPen(look.pen(Token::Rule, 1));
        painter.drawLine(QPointF(at.field.left() - look.px(5), y), QPointF(at.field.right(), y));
        drawLabel(painter, {label, y}, Stand::Right, said->price, Type::Axis, Token::Ink2, look);
    };
    scale(at.field.bottom(), at.low);
    if (at.high > at.low) scale(at.field.top(), at.high);
    drawLabel(painter, {0, look.px(8)}, Stand::Left, values.per, Type::Axis, Token::Ink2, look);
    double free = 0; // no label before this
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const QPointF from = at.starts[i];
        const double until = i + 1 < steps.size() ? at.starts[i + 1].x() : at.now;
        if (i > 0) {
            painter.setPen(look.pen(inkOf(from.y() < at.starts[i - 1].y()   ? 1
                                          : from.y() > at.starts[i - 1].y() ? -1
                                                                            : 0),
                                    2));
            painter.drawLine(QPointF(from.x(), at.starts[i - 1].y()), from);
        }
        painter.setPen(look.pen(Token::Ink, 1.8));
        painter.drawLine(from, QPointF(until, from.y()));
        painter.setBrush(look.color(Token::Ink));
        painter.setPen(Qt::NoPen);
        painter.drawEllipse(from, look.px(2.6), look.px(2.6));
        const double wants = textWidth(steps[i].on, Type::Axis, look);
        const double x = std::min(from.x(), box.width() - wants);
        if (x < free) continue;
        drawLabel(painter, {x, at.field.bottom() + look.px(12)}, Stand::Left, steps[i].on, Type::Axis,
                  Token::Ink2, look);
        const double high = std::min(from.y(), i > 0 ? at.starts[i - 1].y() : from.y());
        if (!steps[i].change.isEmpty())
            drawLabel(painter, {x, std::max(look.px(8), high - look.px(11))}, Stand::Left, steps[i].change,
                      Type::Delta, steps[i].change.startsWith(u'+') ? Token::ChangeUp : Token::ChangeDown,
                      look);
        free = x + std::max(wants, textWidth(steps[i].change, Type::Delta, look)) + look.px(10);
    }
    drawLabel(painter, {at.now + look.px(8), at.starts.back().y()}, Stand::Left, steps.back().price,
              Type::Reading, Token::Ink, look);
    painter.restore();
}

PriceSteps::PriceSteps(QWidget* parent) : WidePlot(tr("What it cost"), 480, 240, parent) {}

QString PriceSteps::words() const {
    QStringList parts;
    for (const auto& step : m_values.steps)
        parts << (step.change.isEmpty() ? tr("%1 from %2").arg(step.price, step.on)
                                        : tr("%1 from %2, %3").arg(step.price, step.on, step.change));
    QString words = parts.join(u"; "_s);
    if (!words.isEmpty()) words += u' ' + tr("in %1.").arg(m_values.per);
    if (!m_values.leftOut.isEmpty()) words += u' ' + m_values.leftOut;
    return words;
}

QList<QStringList> PriceSteps::rows() const {
    QList<QStringList> rows{{tr("from"), m_values.per, tr("change")}};
    for (const auto& step : m_values.steps)
        rows << QStringList{step.on, step.price, step.change};
    return rows;
}

double PriceSteps::tall() const {
    return kHeight;
}

void PriceSteps::paint(QPainter& painter) {
    paintPriceSteps(painter, QRectF(rect()), m_values, Theme::current().look());
}

} // namespace stillroom::ui
