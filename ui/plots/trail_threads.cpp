#include "ui/plots/trail_threads.h"

#include "ui/plots/plot_text.h"

#include <QPainter>

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using Kind = TrailReading::Kind;

namespace {

constexpr std::size_t kThreadPoints = 12;
constexpr double kTail = 9;

struct ThreadPoint {
    TrailReading reading;
    bool draft = false;
};

bool isBound(const TrailReading& reading) {
    return reading.kind != Kind::Exact && reading.kind != Kind::Estimate;
}

double topOf(const TrailReading& reading) {
    return reading.upper.value_or(reading.value);
}

// To the side on which the truth may lie.
void paintTail(QPainter& painter, QPointF at, double to, const Look& look) {
    auto pen = look.pen(Token::Gap, 1.6);
    pen.setDashPattern({1.2, 1.4});
    painter.setPen(pen);
    painter.drawLine(at, QPointF(at.x(), to));
}

// A filled dot is a number, an open one an estimate or a bound; the draft has its dashed ring.
void paintPoint(QPainter& painter, QPointF at, const ThreadPoint& point, const Look& look) {
    const bool open = point.reading.kind != Kind::Exact;
    painter.setPen(look.pen(isBound(point.reading) ? Token::Gap : Token::Ink, 1.2));
    painter.setBrush(look.color(open ? Token::Page : Token::Ink));
    painter.drawEllipse(at, look.px(2.2), look.px(2.2));
    if (!point.draft) return;
    auto ring = look.pen(Token::Ink, 1.2);
    ring.setDashPattern({2, 1.4});
    painter.setPen(ring);
    painter.setBrush(Qt::NoBrush);
    painter.drawEllipse(at, look.px(4.6), look.px(4.6));
}

QPen strokePen(ThreadStroke stroke, const Look& look) {
    auto pen = look.pen(Token::Ink, 1);
    if (stroke == ThreadStroke::Dashed) pen.setDashPattern({4, 2.5});
    if (stroke == ThreadStroke::Dotted) pen.setDashPattern({1, 2.5});
    return pen;
}

void paintThread(QPainter& painter, const QRectF& box, const QString& name,
                 const std::vector<ThreadPoint>& points, const Look& look) {
    const QPointF right(box.right(), box.top() + look.px(7));
    const QString last = points.empty() ? u"—"_s : points.back().reading.text;
    const Token ink = points.empty() ? Token::Ink3 : isBound(points.back().reading) ? Token::Gap : Token::Ink;
    const auto said = drawLabel(painter, right, Stand::Right, last, Type::Caption, ink, look);
    drawLabel(painter, box.topLeft() + QPointF(0, look.px(7)), Stand::Left, name, Type::Caption, Token::Ink2,
              look, said.left() - box.left() - look.px(4));
    if (points.empty()) return;
    double low = points.front().reading.value;
    double high = topOf(points.front().reading);
    bool up = false, down = false;
    for (const auto& point : points) {
        low = std::min(low, point.reading.value);
        high = std::max(high, topOf(point.reading));
        up |= point.reading.kind == Kind::AtLeast;
        down |= point.reading.kind == Kind::AtMost;
    }
    const QRectF field =
        box.adjusted(look.px(4), look.px(up ? 21 + kTail : 21), -look.px(6), -look.px(down ? 6 + kTail : 6));
    const auto yOf = [&](double value) {
        const double share = high > low ? (value - low) / (high - low) : 0.5;
        return field.bottom() - share * field.height();
    };
    const auto at = [&](std::size_t i) {
        const double along =
            points.size() > 1 ? static_cast<double>(i) / static_cast<double>(points.size() - 1) : 1.0;
        return QPointF(field.left() + along * field.width(), yOf(points[i].reading.value));
    };
    for (std::size_t i = 1; i < points.size(); ++i) {
        painter.setPen(strokePen(threadStroke(points[i - 1].reading, points[i].reading), look));
        painter.drawLine(at(i - 1), at(i));
    }
    for (std::size_t i = 0; i < points.size(); ++i) {
        const auto& reading = points[i].reading;
        if (reading.kind == Kind::AtLeast) paintTail(painter, at(i), at(i).y() - look.px(kTail), look);
        if (reading.kind == Kind::AtMost) paintTail(painter, at(i), at(i).y() + look.px(kTail), look);
        if (reading.upper) paintTail(painter, at(i), yOf(*reading.upper), look);
        paintPoint(painter, at(i), points[i], look);
    }
}

} // namespace

ThreadStroke threadStroke(const TrailReading& a, const TrailReading& b) {
    if (isBound(a) || isBound(b)) return ThreadStroke::Dotted;
    if (a.kind == Kind::Estimate || b.kind == Kind::Estimate) return ThreadStroke::Dashed;
    return ThreadStroke::Solid;
}

void paintThreads(QPainter& painter, const QRectF& box, const TrailValues& values, const Look& look) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const auto lanes = trailLanes(values);
    std::vector<ThreadPoint> strength, ratio;
    for (std::size_t i = 0; i < values.marks.size(); ++i) {
        if (lanes[i] != 0) continue;
        const auto& mark = values.marks[i];
        const bool draft = mark.state == StateMark::Draft;
        if (mark.strength) strength.push_back({*mark.strength, draft});
        if (mark.sugarAcid) ratio.push_back({*mark.sugarAcid, draft});
    }
    for (auto* thread : {&strength, &ratio})
        if (thread->size() > kThreadPoints)
            thread->erase(thread->begin(), thread->end() - static_cast<std::ptrdiff_t>(kThreadPoints));
    painter.setPen(look.pen(Token::Rule, 1));
    painter.drawLine(box.topLeft() + QPointF(0, look.px(16)), box.bottomLeft() - QPointF(0, look.px(14)));
    const double height = (box.height() - look.px(36)) / 2;
    const QRectF upper(box.left() + look.px(12), box.top() + look.px(18), box.width() - look.px(24), height);
    paintThread(painter, upper, u"strength, % vol"_s, strength, look);
    paintThread(painter, upper.translated(0, height + look.px(6)), u"sugar\u202f:\u202facid"_s, ratio, look);
    painter.restore();
}

} // namespace stillroom::ui
