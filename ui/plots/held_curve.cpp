#include "ui/plots/held_curve.h"

#include "ui/plots/plot_text.h"
#include "ui/text/numbers.h"
#include "ui/theme/theme.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

void paintStrip(QPainter& painter, const HeldStrip& strip, const HeldStripBox& box,
                const HeldGeometry& geometry, const Look& look) {
    painter.fillRect(box.field, look.color(Token::Well));
    for (const auto& tick : box.ticks) {
        painter.setPen(look.pen(Token::Rule, 1));
        painter.drawLine(QPointF(box.field.left(), tick.px), QPointF(box.field.right(), tick.px));
        // Figures of the outer ticks stay inside their strip, clear of the neighbour's.
        const double inside = look.lineHeight(Type::Axis) / 2 - look.px(2);
        const double y = std::clamp(tick.px, box.field.top() + inside, box.field.bottom() - inside);
        drawLabel(painter, {geometry.left - look.px(6), y}, Stand::Right, tick.text, Type::Axis, Token::Ink2,
                  look);
    }
    for (const auto& tick : geometry.minutes) {
        painter.setPen(look.pen(Token::Rule, 1));
        painter.drawLine(QPointF(tick.px, box.field.top()), QPointF(tick.px, box.field.bottom()));
    }
    const double name = box.field.top() + look.px(9);
    drawLabel(painter, {look.px(8), name}, Stand::Left, strip.name, Type::Reading, Token::Ink, look,
              look.px(86));
    drawLabel(painter, {look.px(8), name + look.px(17)}, Stand::Left, strip.unit, Type::Unit, Token::Ink3,
              look, look.px(86));
    painter.setPen(look.pen(Token::Ink, 2));
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(box.line);
    if (strip.measured) {
        const QPointF at(geometry.x(strip.measured->x()), box.y(strip.measured->y()));
        painter.setPen(look.pen(Token::Ink, 1.5));
        painter.setBrush(look.color(Token::Page));
        painter.drawEllipse(at, look.px(4.5), look.px(4.5));
        painter.setBrush(look.color(Token::Ink));
        painter.drawEllipse(at, look.px(1), look.px(1));
    }
}

} // namespace

void paintHeldCurve(QPainter& painter, const QRectF& box, const HeldValues& values, double minute,
                    const Look& look) {
    if (values.minutes.empty() || values.strips.empty()) return;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(box.topLeft());
    const auto geometry = heldGeometry(values, box.size(), look);
    const double now = geometry.x(minute);
    for (std::size_t i = 0; i < values.strips.size(); ++i) {
        const auto& strip = values.strips[i];
        const auto& at = geometry.strips[i];
        paintStrip(painter, strip, at, geometry, look);
        const double value = heldValueAt(values, strip, minute);
        painter.setPen(look.pen(Token::RuleStrong, 1));
        painter.drawLine(QPointF(now, at.field.top()), QPointF(now, at.field.bottom()));
        painter.setPen(look.pen(Token::Ink, 1.5));
        painter.setBrush(look.color(Token::Page));
        painter.drawEllipse(QPointF(now, at.y(value)), look.px(3.5), look.px(3.5));
        drawLabel(painter, {box.width() - look.px(8), at.field.center().y()}, Stand::Right,
                  number(value, strip.decimals), Type::ReadingServed, Token::Ink, look);
    }
    painter.setPen(look.pen(Token::RuleStrong, 1));
    painter.drawLine(QPointF(geometry.left, geometry.axisY), QPointF(geometry.right, geometry.axisY));
    for (const auto& tick : geometry.minutes)
        drawLabel(painter, {tick.px, geometry.axisY + look.px(11)}, Stand::Centre, tick.text, Type::Axis,
                  Token::Ink2, look);
    drawLabel(painter, {box.width() - look.px(8), geometry.axisY + look.px(11)}, Stand::Right, u"minutes"_s,
              Type::Axis, Token::Ink2, look);
    drawLabel(painter, {box.width() - look.px(8), look.px(12)}, Stand::Right,
              withUnit(number(minute, 0), u"min"), Type::Caption, Token::Ink2, look);
    painter.restore();
}

HeldCurve::HeldCurve(QWidget* parent) : PlotWidget(u"Held: the drink over the minutes it stands"_s, parent) {}

void HeldCurve::setValues(const HeldValues& values) {
    m_values = values;
    setMinute(m_minute);
    valuesChanged();
}

void HeldCurve::setMinute(double minute) {
    const double last = m_values.minutes.empty() ? 30 : m_values.minutes.back();
    const double held = std::clamp(std::round(minute), 0.0, last);
    if (held == m_minute) return;
    m_minute = held;
    valuesChanged();
}

QString HeldCurve::words() const {
    if (m_values.minutes.empty()) return m_values.basis;
    QStringList parts;
    for (const auto& strip : m_values.strips) {
        const auto at = [&](double minute) {
            return number(heldValueAt(m_values, strip, minute), strip.decimals);
        };
        const double last = m_values.minutes.back();
        parts << u"%1: %2 %3 at the start, %4 after %5 minutes, %6 after %7."_s.arg(
            strip.name, at(0), strip.unit, at(m_minute), number(m_minute, 0), at(last), number(last, 0));
    }
    return QString(parts.join(u' ') + u' ' + m_values.basis).trimmed();
}

QList<QStringList> HeldCurve::rows() const {
    QStringList heads{u"minute"_s};
    for (const auto& strip : m_values.strips)
        heads << (strip.unit.isEmpty() ? strip.name : QString(strip.name + u", "_s + strip.unit));
    QList<QStringList> rows{heads};
    for (const double minute : m_values.minutes) {
        QStringList row{trimmedNumber(minute, 2)};
        for (const auto& strip : m_values.strips)
            row << number(heldValueAt(m_values, strip, minute), strip.decimals);
        rows << row;
    }
    return rows;
}

QSize HeldCurve::sizeHint() const {
    const auto& theme = Theme::current();
    return {theme.pxInt(560), theme.pxInt(180)};
}

QSize HeldCurve::minimumSizeHint() const {
    const auto& theme = Theme::current();
    return {theme.pxInt(320), theme.pxInt(170)};
}

void HeldCurve::paint(QPainter& painter) {
    paintHeldCurve(painter, QRectF(rect()), m_values, m_minute, Theme::current().look());
}

void HeldCurve::keyPressEvent(QKeyEvent* event) {
    switch (event->key()) {
    case Qt::Key_Left:
        setMinute(m_minute - 1);
        break;
    case Qt::Key_Right:
        setMinute(m_minute + 1);
        break;
    case Qt::Key_PageUp:
        setMinute(m_minute - 5);
        break;
    case Qt::Key_PageDown:
        setMinute(m_minute + 5);
        break;
    case Qt::Key_Home:
        setMinute(0);
        break;
    case Qt::Key_End:
        setMinute(1e9);
        break;
    default:
        PlotWidget::keyPressEvent(event);
    }
}

void HeldCurve::mousePressEvent(QMouseEvent* event) {
    if (m_values.minutes.empty()) return;
    setFocus(Qt::MouseFocusReason);
    setMinute(
        heldGeometry(m_values, QSizeF(size()), Theme::current().look()).minuteAt(event->position().x()));
}

void HeldCurve::mouseMoveEvent(QMouseEvent* event) {
    if (event->buttons().testFlag(Qt::LeftButton)) mousePressEvent(event);
}

} // namespace stillroom::ui
