#include "ui/plots/trail.h"

#include "ui/plots/plot_text.h"
#include "ui/plots/trail_marks.h"
#include "ui/plots/trail_threads.h"
#include "ui/text/numbers.h"
#include "ui/theme/theme.h"

#include <QAccessible>
#include <QHelpEvent>
#include <QKeyEvent>
#include <QPainter>
#include <QScrollBar>
#include <QToolTip>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

constexpr double kThreadsFrom = 760; // narrower trails do without

// Only what lies between `from` and `to` of a long level run is drawn: dashes out of sight cost as much as
// those in it.
void paintLink(QPainter& painter, const TrailGeometry& geometry, const TrailLink& link, double from,
               double to, const Look& look) {
    const auto& parent = geometry.items[static_cast<std::size_t>(link.from)];
    const auto& child = geometry.items[static_cast<std::size_t>(link.to)];
    const QPointF a(parent.x, geometry.laneY(parent.lane));
    const QPointF b(child.x, geometry.laneY(child.lane));
    auto pen = look.pen(Token::Ink, 1.5);
    if (link.dashed) pen.setDashPattern({3, 2});
    painter.setPen(pen);
    painter.setBrush(Qt::NoBrush);
    const auto level = [&](double x0, double x1, double y) {
        double left = std::max(x0, from);
        const double right = std::min(x1, to);
        // Where branches share a line for want of room, it is broken at a mark it does not belong to.
        for (int i = link.from + 1; geometry.flat && i < link.to; ++i) {
            const auto& other = geometry.items[static_cast<std::size_t>(i)];
            if (geometry.laneY(other.lane) != y || other.x + look.px(12) < left) continue;
            const double stop = std::min(right, other.x - look.px(12));
            if (left < stop) painter.drawLine(QPointF(left, y), QPointF(stop, y));
            left = other.x + look.px(12);
        }
        if (left < right) painter.drawLine(QPointF(left, y), QPointF(right, y));
    };
    if (parent.lane == child.lane) {
        level(a.x(), b.x(), a.y());
        return;
    }
    // Leaves the line at its parent, swings up, and runs level to its first mark.
    const double bend = std::min(b.x() - a.x(), look.px(kTrailBend));
    QPainterPath path(a);
    path.cubicTo(a + QPointF(bend * 0.55, 0), QPointF(a.x() + bend * 0.45, b.y()),
                 QPointF(a.x() + bend, b.y()));
    if (a.x() <= to && a.x() + bend >= from) painter.drawPath(path);
    level(a.x() + bend, b.x(), b.y());
}

QRectF itemBox(const TrailItem& item, const TrailGeometry& geometry, const Look& look) {
    const double y = geometry.laneY(item.lane);
    if (geometry.flat) return {item.x - look.px(9), y - look.px(8), look.px(44), look.px(16)};
    if (item.lane > 0 && geometry.crowded)
        return {item.x - look.px(9), y - look.px(8), item.textWidth + look.px(25), look.px(16)};
    if (item.lane > 0)
        return {item.x - look.px(10), y - look.px(17), item.textWidth + look.px(26), look.px(35)};
    return {item.x - look.px(12), y - look.px(10), item.textWidth + look.px(18),
            look.px(113 + 30 * (geometry.wordLines - 1))};
}

} // namespace

void paintTrail(QPainter& painter, const QRectF& view, const TrailValues& values,
                const TrailGeometry& geometry, double offset, int cursor, const Look& look) {
    painter.save();
    painter.setClipRect(view, Qt::IntersectClip);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(view.left() - offset, view.top());
    const double from = offset - look.px(20);
    const double to = offset + view.width() + look.px(20);
    for (const auto& link : geometry.links) {
        const double a = geometry.items[static_cast<std::size_t>(link.from)].x;
        const double b = geometry.items[static_cast<std::size_t>(link.to)].x;
        if (std::max(a, b) >= from && std::min(a, b) <= to)
            paintLink(painter, geometry, link, from, to, look);
    }
    // A lead-in: the trail starts somewhere.
    if (!geometry.items.empty() && values.marks.front().state != StateMark::Draft) {
        painter.setPen(look.pen(Token::Ink, 1.5));
        const auto& first = geometry.items.front();
        painter.drawLine(QPointF(first.x - look.px(26), geometry.laneY(first.lane)),
                         QPointF(first.x, geometry.laneY(first.lane)));
    }
    for (std::size_t i = 0; i < geometry.items.size(); ++i) {
        const auto box = itemBox(geometry.items[i], geometry, look);
        if (box.right() < from || box.left() > to) continue;
        paintTrailItem(painter, geometry.items[i], values, geometry, look);
        if (static_cast<int>(i) == cursor) paintFocusFrame(painter, box, look);
    }
    painter.restore();
}

void paintWholeTrail(QPainter& painter, const QRectF& box, const TrailValues& values, const Look& look) {
    const auto lanes = trailLanes(values);
    std::vector<double> widths;
    for (std::size_t i = 0; i < values.marks.size(); ++i)
        widths.push_back(trailTextWidth(values.marks[i], lanes[i] > 0, look));
    const bool threads = box.width() >= look.px(kThreadsFrom) && values.marks.size() > 1;
    const double width = box.width() - (threads ? look.px(kThreadsWidth) : 0);
    const auto geometry = fittedTrail(values, widths, QSizeF(width - look.px(52), box.height()), {}, look);
    // The newest end is what one wants to see.
    const double offset = snappedOffset(geometry, geometry.width, width - look.px(52), look);
    drawLabel(painter, QPointF(box.left() + look.px(16), box.top() + geometry.baseY), Stand::Left, u"Trail"_s,
              Type::Heading, Token::Ink2, look);
    paintTrail(painter, QRectF(box.left() + look.px(52), box.top(), width - look.px(52), box.height()),
               values, geometry, offset, -1, look);
    if (threads)
        paintThreads(painter, QRectF(box.left() + width, box.top(), look.px(kThreadsWidth), box.height()),
                     values, look);
}

Trail::Trail(QWidget* parent)
    : PlotWidget(u"Trail of revisions"_s, parent),
      m_scrollBar(new QScrollBar(Qt::Horizontal, this)) {
    m_scrollBar->setAccessibleName(u"Scroll the trail"_s);
    m_scrollBar->hide();
    connect(m_scrollBar, &QScrollBar::valueChanged, this, [this] { update(); });
    connect(&Theme::current(), &Theme::changed, this, [this] {
        measure(nullptr);
        layOut();
    });
}

void Trail::measure(const TrailValues* before) {
    const auto& look = Theme::current().look();
    auto lanes = trailLanes(m_values);
    std::vector<double> widths(m_values.marks.size());
    for (std::size_t i = 0; i < widths.size(); ++i)
        widths[i] = before && i < before->marks.size() && m_lanes[i] == lanes[i] &&
                            before->marks[i] == m_values.marks[i]
                        ? m_textWidths[i]
                        : trailTextWidth(m_values.marks[i], lanes[i] > 0, look);
    m_textWidths = std::move(widths);
    m_lanes = std::move(lanes);
}

void Trail::setValues(const TrailValues& values) {
    const auto before = std::exchange(m_values, values);
    const int mark = m_item >= 0 && m_item < static_cast<int>(m_geometry.items.size())
                         ? m_geometry.items[static_cast<std::size_t>(m_item)].last
                         : -1;
    const bool grew = before.marks.size() != m_values.marks.size();
    measure(&before);
    layOut();
    if (m_values.marks.empty())
        m_item = -1;
    else if (grew || mark < 0) {
        moveTo(static_cast<int>(m_geometry.items.size()) - 1);
    } else
        m_item = m_geometry.itemOf[static_cast<std::size_t>(mark)];
    valuesChanged();
}

double Trail::viewWidth() const {
    const auto& theme = Theme::current();
    const bool threads =
        width() >= theme.px(kThreadsFrom) && height() >= theme.px(100) && m_values.marks.size() > 1;
    return width() - theme.px(52) - (threads ? theme.px(kThreadsWidth) : 0);
}

void Trail::layOut() {
    const auto& look = Theme::current().look();
    m_geometry = fittedTrail(m_values, m_textWidths, QSizeF(viewWidth(), height()), m_expanded, look);
    const int over =
        static_cast<int>(std::ceil(snappedOffset(m_geometry, m_geometry.width, viewWidth(), look)));
    m_scrollBar->setVisible(over > 0);
    m_scrollBar->setGeometry(static_cast<int>(look.px(52)), height() - look.pxInt(10),
                             static_cast<int>(viewWidth()), look.pxInt(10));
    m_scrollBar->setRange(0, std::max(0, over));
    m_scrollBar->setPageStep(std::max(1, static_cast<int>(viewWidth())));
    m_scrollBar->setSingleStep(look.pxInt(60));
    update();
}

int Trail::cursor() const {
    return m_item < 0 ? -1 : m_geometry.items[static_cast<std::size_t>(m_item)].last;
}

void Trail::setCursor(int mark) {
    if (mark >= 0 && mark < static_cast<int>(m_geometry.itemOf.size()))
        moveTo(m_geometry.itemOf[static_cast<std::size_t>(mark)]);
}

void Trail::moveTo(int item) {
    if (item < 0 || item >= static_cast<int>(m_geometry.items.size())) return;
    const bool moved = item != m_item;
    m_item = item;
    const auto& look = Theme::current().look();
    const auto box = itemBox(m_geometry.items[static_cast<std::size_t>(item)], m_geometry, look);
    const double left = m_scrollBar->value();
    if (box.left() - look.px(8) < left)
        m_scrollBar->setValue(static_cast<int>(box.left() - look.px(6)));
    else if (box.right() + look.px(8) > left + viewWidth())
        m_scrollBar->setValue(static_cast<int>(
            std::ceil(snappedOffset(m_geometry, box.right() + look.px(8), viewWidth(), look))));
    if (!moved) return;
    if (QAccessible::isActive() && hasFocus()) {
        QAccessibleEvent event(this, QAccessible::DescriptionChanged);
        QAccessible::updateAccessibility(&event);
    }
    Q_EMIT cursorMoved(cursor());
    update();
}

void Trail::enter(int item) {
    if (item < 0 || item >= static_cast<int>(m_geometry.items.size())) return;
    const auto entered = m_geometry.items[static_cast<std::size_t>(item)];
    if (!entered.isFold()) {
        Q_EMIT activated(entered.first);
        return;
    }
    m_expanded.insert(entered.first);
    layOut();
    m_item = -1;
    moveTo(m_geometry.itemOf[static_cast<std::size_t>(entered.last)]);
}

void Trail::keyPressEvent(QKeyEvent* event) {
    const int last = static_cast<int>(m_geometry.items.size()) - 1;
    if (m_item < 0 || last < 0) {
        PlotWidget::keyPressEvent(event);
        return;
    }
    const auto& here = m_geometry.items[static_cast<std::size_t>(m_item)];
    switch (event->key()) {
    case Qt::Key_Left:
        moveTo(std::max(0, m_item - 1));
        return;
    case Qt::Key_Right:
        moveTo(std::min(last, m_item + 1));
        return;
    case Qt::Key_Home:
        moveTo(0);
        return;
    case Qt::Key_End:
        moveTo(last);
        return;
    case Qt::Key_Up:
        for (const auto& link : m_geometry.links)
            if (link.from == m_item && m_geometry.items[static_cast<std::size_t>(link.to)].lane > here.lane) {
                moveTo(link.to);
                return;
            }
        return;
    case Qt::Key_Down: {
        const int parent = m_values.marks[static_cast<std::size_t>(here.first)].parent;
        if (here.lane > 0 && parent >= 0) moveTo(m_geometry.itemOf[static_cast<std::size_t>(parent)]);
        return;
    }
    case Qt::Key_Return:
    case Qt::Key_Enter:
        enter(m_item);
        return;
    default:
        PlotWidget::keyPressEvent(event);
    }
}

int Trail::itemAt(QPointF point) const {
    const auto& look = Theme::current().look();
    const QPointF inside = point + QPointF(m_scrollBar->value() - look.px(52), 0);
    for (std::size_t i = m_geometry.items.size(); i-- > 0;)
        if (itemBox(m_geometry.items[i], m_geometry, look).contains(inside)) return static_cast<int>(i);
    return -1;
}

void Trail::mousePressEvent(QMouseEvent* event) {
    setFocus(Qt::MouseFocusReason);
    const int item = itemAt(event->position());
    if (item < 0) return;
    if (m_geometry.items[static_cast<std::size_t>(item)].isFold())
        enter(item);
    else
        moveTo(item);
}

void Trail::mouseDoubleClickEvent(QMouseEvent* event) {
    enter(itemAt(event->position()));
}

void Trail::wheelEvent(QWheelEvent* event) {
    const auto turn = event->angleDelta();
    m_scrollBar->setValue(m_scrollBar->value() - (turn.x() != 0 ? turn.x() : turn.y()));
    event->accept();
}

void Trail::resizeEvent(QResizeEvent* event) {
    PlotWidget::resizeEvent(event);
    layOut();
    if (m_item >= 0 && !m_geometry.items.empty())
        moveTo(std::min(m_item, static_cast<int>(m_geometry.items.size()) - 1));
}

QString Trail::markWords(const TrailMark& mark) const {
    QStringList parts{mark.number + u", "_s + mark.date};
    if (const auto standing = trailStanding(mark); !standing.isEmpty()) parts.last() += u", "_s + standing;
    for (const auto& text : {mark.changed, mark.did, mark.reason})
        if (!text.isEmpty()) parts << text;
    for (const auto& taste : mark.tastes)
        parts << verdictWords(taste.initials, taste.verdict);
    if (!mark.photo.isNull()) parts << u"with a photo"_s;
    return parts.join(u". "_s);
}

QString Trail::words() const {
    if (m_values.marks.empty())
        return u"Each version you keep becomes a mark here, with what changed and why."_s;
    if (m_item < 0) return {};
    const auto& item = m_geometry.items[static_cast<std::size_t>(m_item)];
    if (item.isFold())
        return u"%1 more, %2 to %3; Enter unfolds them"_s.arg(
            QString::number(item.count()), m_values.marks[static_cast<std::size_t>(item.first)].number,
            m_values.marks[static_cast<std::size_t>(item.last)].number);
    return markWords(m_values.marks[static_cast<std::size_t>(item.first)]);
}

QList<QStringList> Trail::rows() const {
    QList<QStringList> rows{{u"mark"_s, u"date"_s, u"state"_s, u"grew from"_s, u"what changed"_s,
                             u"what it did"_s, u"% vol"_s, u"sugar : acid"_s, u"reason"_s, u"tasters"_s}};
    const auto readingOf = [](const std::optional<TrailReading>& reading) {
        return reading ? reading->text : u"?"_s;
    };
    for (const auto& mark : m_values.marks) {
        QStringList tasters;
        for (const auto& taste : mark.tastes)
            tasters << verdictWords(taste.initials, taste.verdict);
        rows << QStringList{mark.number,
                            mark.date,
                            mark.alsoHouse ? trailStanding(mark) : stateWord(mark.state),
                            mark.parent >= 0 ? m_values.marks[static_cast<std::size_t>(mark.parent)].number
                                             : QString(),
                            mark.changed,
                            mark.did,
                            readingOf(mark.strength),
                            readingOf(mark.sugarAcid),
                            mark.reason,
                            tasters.join(u", "_s)};
    }
    return rows;
}

QSize Trail::sizeHint() const {
    const auto& theme = Theme::current();
    const int lanes = std::max(0, m_geometry.lanes - 2);
    return {theme.pxInt(840), theme.pxInt(168) + lanes * theme.pxInt(30)};
}

QSize Trail::minimumSizeHint() const {
    const auto& theme = Theme::current();
    return {theme.pxInt(240), theme.pxInt(40)};
}

void Trail::paint(QPainter& painter) {
    const auto& look = Theme::current().look();
    const double y = m_values.marks.empty() ? height() / 2.0 - look.px(14) : m_geometry.baseY;
    drawLabel(painter, QPointF(look.px(16), y), Stand::Left, u"Trail"_s, Type::Heading, Token::Ink2, look);
    if (m_values.marks.empty()) {
        auto pen = look.pen(Token::RuleStrong, 1.5);
        pen.setDashPattern({3, 3});
        painter.setPen(pen);
        painter.setRenderHint(QPainter::Antialiasing);
        const QPointF end(std::min(look.px(300), width() - look.px(40)), y);
        painter.drawLine(QPointF(look.px(60), y), end - QPointF(look.px(7), 0));
        paintStateMark(painter, end, StateMark::Draft, look, look.color(Token::Ink2));
        drawParagraph(painter, QPointF(look.px(60), y + look.px(16)), width() - look.px(80), words(),
                      Type::Reason, Token::Ink2, look, 2);
        return;
    }
    const QRectF view(look.px(52), 0, viewWidth(), height());
    paintTrail(painter, view, m_values, m_geometry, m_scrollBar->value(), hasFocus() ? m_item : -1, look);
    const double right = view.right();
    if (right < width() - 1)
        paintThreads(painter, QRectF(right, 0, width() - right, height()), m_values, look);
}

bool Trail::event(QEvent* event) {
    if (event->type() == QEvent::ToolTip) {
        const auto* help = dynamic_cast<QHelpEvent*>(event);
        const int item = help ? itemAt(help->pos()) : -1;
        if (item >= 0 && !m_geometry.items[static_cast<std::size_t>(item)].isFold())
            QToolTip::showText(help->globalPos(),
                               markWords(m_values.marks[static_cast<std::size_t>(
                                   m_geometry.items[static_cast<std::size_t>(item)].first)]),
                               this);
        else
            QToolTip::hideText();
        return true;
    }
    return PlotWidget::event(event);
}

} // namespace stillroom::ui
