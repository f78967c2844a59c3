#include "ui/plots/step_bars.h"

#include "ui/plots/plot_text.h"
#include "ui/text/numbers.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QEvent>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

void paintBar(QPainter& painter, const StepBar& bar, const StepBarBox& box, double nameRight, double right,
              const Look& look) {
    const double y = box.bar.center().y();
    drawLabel(painter, {look.px(16), y}, Stand::Left, bar.name, Type::Control, Token::Ink, look,
              nameRight - look.px(16) + look.px(8));
    painter.setPen(look.pen(Token::GlassLine, 1.5));
    painter.setBrush(look.color(Token::LiquidBody));
    painter.drawRect(box.bar);
    if (box.lost.width() >= look.px(1)) {
        painter.setPen(look.pen(Token::RuleStrong, 1.2, Qt::DotLine));
        painter.setBrush(Qt::NoBrush);
        painter.drawPolyline(QPolygonF{box.lost.topLeft(), box.lost.topRight(), box.lost.bottomRight(),
                                       box.lost.bottomLeft()});
    }
    const double inside = textWidth(bar.inside, Type::Delta, look);
    double textX = box.textX;
    if (inside + look.px(14) <= box.bar.width()) {
        drawLabel(painter, {box.bar.right() - look.px(7), y}, Stand::Right, bar.inside, Type::Delta,
                  Token::Ink2, look);
    } else {
        drawLabel(painter, {textX, y}, Stand::Left, bar.inside, Type::Delta, Token::Ink2, look);
        textX += inside + look.px(10);
    }
    if (!bar.beside.isEmpty() && right - textX > look.px(24))
        drawLabel(painter, {textX, y}, Stand::Left, bar.beside, Type::Control,
                  bar.loss ? Token::ChangeDown : Token::Ink2, look, right - textX);
}

} // namespace

void paintStepBars(QPainter& painter, const QRectF& box, const StepBarsValues& values, int cursor,
                   const Look& look) {
    painter.save();
    painter.translate(box.topLeft());
    painter.setRenderHint(QPainter::Antialiasing);
    if (values.bars.empty()) {
        drawParagraph(painter, {look.px(16), look.px(4)}, box.width() - look.px(32), values.empty,
                      Type::Control, Token::Ink2, look);
        painter.restore();
        return;
    }
    const auto geometry = stepBarsGeometry(values, box.size(), look);
    if (cursor >= 0 && static_cast<std::size_t>(cursor) < geometry.bars.size())
        painter.fillRect(geometry.bars[static_cast<std::size_t>(cursor)].row, look.color(Token::Well));
    for (std::size_t i = 0; i < values.bars.size(); ++i) {
        const auto& at = geometry.bars[i];
        if (i > 0) { // where the bar above ended
            const double x = geometry.bars[i - 1].bar.right();
            painter.setPen(look.pen(Token::RuleStrong, 1, Qt::DotLine));
            painter.drawLine(QPointF(x, geometry.bars[i - 1].bar.bottom()), QPointF(x, at.bar.top()));
        }
        paintBar(painter, values.bars[i], at, geometry.nameRight, box.width() - look.px(6), look);
    }
    painter.restore();
}

StepBars::StepBars(QWidget* parent) : PlotOf(tr("What is left, step by step"), parent) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void StepBars::setValues(const StepBarsValues& values) {
    if (values == m_values) return;
    const bool other = values.bars.size() != m_values.bars.size();
    m_values = values;
    const int count = static_cast<int>(m_values.bars.size());
    const int wanted = std::clamp(m_cursor, count > 0 ? 0 : -1, count - 1);
    const auto at = [&](int bar) { return m_values.bars[static_cast<std::size_t>(bar)].edited; };
    int next = wanted;
    if (wanted >= 0 && !at(wanted)) next = stop(wanted, 1);
    const bool moved = next != m_cursor;
    m_cursor = next;
    if (other) updateGeometry();
    valuesChanged();
    if (moved) Q_EMIT cursorMoved(m_cursor);
}

int StepBars::stop(int from, int by) const {
    for (int bar = from + by; bar >= 0 && static_cast<std::size_t>(bar) < m_values.bars.size(); bar += by)
        if (m_values.bars[static_cast<std::size_t>(bar)].edited) return bar;
    return from;
}

void StepBars::setCursor(int bar) {
    if (bar < 0 || static_cast<std::size_t>(bar) >= m_values.bars.size() || bar == m_cursor) return;
    if (!m_values.bars[static_cast<std::size_t>(bar)].edited) return;
    m_cursor = bar;
    valuesChanged();
    Q_EMIT cursorMoved(m_cursor);
}

QString StepBars::words() const {
    if (m_values.bars.empty()) return m_values.empty;
    QStringList parts;
    for (const auto& bar : m_values.bars)
        parts << QString(bar.name + u": "_s + bar.inside +
                         (bar.beside.isEmpty() ? QString() : QString(u", "_s + bar.beside)));
    QString text = parts.join(u". "_s) + u'.';
    if (m_cursor >= 0) text += tr(" At %1.").arg(m_values.bars[static_cast<std::size_t>(m_cursor)].name);
    return text;
}

QList<QStringList> StepBars::rows() const {
    QList<QStringList> rows{{tr("step"), tr("left"), tr("g"), tr("change")}};
    for (const auto& bar : m_values.bars)
        rows << QStringList{bar.name, bar.inside, number(bar.grams, 1), bar.beside};
    return rows;
}

QSize StepBars::sizeHint() const {
    const auto& theme = Theme::current();
    return {theme.pxInt(560), static_cast<int>(stepBarsHeight(m_values.bars.size(), theme.look()))};
}

QSize StepBars::minimumSizeHint() const {
    return {Theme::current().pxInt(280), sizeHint().height()};
}

void StepBars::paint(QPainter& painter) {
    const auto& look = Theme::current().look();
    paintStepBars(painter, QRectF(rect()), m_values, m_cursor, look);
    if (!hasFocus() || m_cursor < 0) return;
    const auto geometry = stepBarsGeometry(m_values, QSizeF(size()), look);
    const double in = look.px(3);
    paintFocusFrame(painter, geometry.bars[static_cast<std::size_t>(m_cursor)].row.adjusted(in, in, -in, -in),
                    look);
}

// Keys that mean the line elsewhere on the sheet mean the step here.
bool StepBars::event(QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride) {
        const auto* key = static_cast<QKeyEvent*>(event);
        const auto with = key->modifiers() & ~Qt::KeypadModifier;
        const bool enter = key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter;
        const bool gone = key->key() == Qt::Key_Delete || key->key() == Qt::Key_Backspace;
        const bool moves = key->key() == Qt::Key_Up || key->key() == Qt::Key_Down;
        if ((with == Qt::ControlModifier && (enter || gone)) || (with == Qt::AltModifier && moves)) {
            event->accept();
            return true;
        }
    }
    return PlotOf::event(event);
}

void StepBars::keyPressEvent(QKeyEvent* event) {
    const auto with = event->modifiers() & ~Qt::KeypadModifier;
    const bool ctrl = with == Qt::ControlModifier;
    const bool alt = with == Qt::AltModifier;
    const bool edits = !m_readOnly;
    switch (event->key()) {
    case Qt::Key_Up:
    case Qt::Key_Down: {
        const int by = event->key() == Qt::Key_Up ? -1 : 1;
        if (alt && edits)
            Q_EMIT moveAsked(by);
        else if (with == Qt::NoModifier)
            setCursor(stop(m_cursor, by));
        return;
    }
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (!edits) return;
        if (ctrl)
            Q_EMIT addAsked();
        else if (with == Qt::NoModifier)
            Q_EMIT editAsked();
        return;
    case Qt::Key_Delete:
    case Qt::Key_Backspace:
        if (ctrl && edits) Q_EMIT removeAsked();
        return;
    default:
        PlotOf::keyPressEvent(event);
    }
}

void StepBars::mousePressEvent(QMouseEvent* event) {
    setFocus(Qt::MouseFocusReason);
    const auto geometry = stepBarsGeometry(m_values, QSizeF(size()), Theme::current().look());
    for (std::size_t i = 0; i < geometry.bars.size(); ++i)
        if (geometry.bars[i].row.contains(event->position())) setCursor(static_cast<int>(i));
}

void StepBars::mouseDoubleClickEvent(QMouseEvent* event) {
    mousePressEvent(event);
    if (!m_readOnly) Q_EMIT editAsked();
}

} // namespace stillroom::ui
