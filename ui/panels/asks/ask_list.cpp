#include "ui/panels/asks/ask_list.h"

#include "ui/plots/plot_text.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

AskList::AskList(QWidget* parent) : PlotWidget(u"What tasters ask for, and changes to try"_s, parent) {
    connect(&Theme::current(), &Theme::changed, this, [this] { fit(); });
}

void AskList::setValues(const AsksValues& values) {
    m_values = values;
    m_current = count() > 0 ? 0 : -1;
    fit();
    valuesChanged();
}

void AskList::setTaking(bool can) {
    m_taking = can;
    update();
}

int AskList::count() const {
    std::size_t all = 0;
    for (const auto& block : m_values.blocks)
        all += block.changes.size();
    return static_cast<int>(all);
}

const AskChange* AskList::change(int index) const {
    for (const auto& block : m_values.blocks)
        for (const auto& change : block.changes)
            if (index-- == 0) return &change;
    return nullptr;
}

void AskList::fit() {
    setMinimumHeight(static_cast<int>(std::ceil(layOut(nullptr, width()))));
}

void AskList::resizeEvent(QResizeEvent* event) {
    PlotWidget::resizeEvent(event);
    fit();
}

QSize AskList::sizeHint() const {
    return {Theme::current().pxInt(520), minimumHeight()};
}

double AskList::layOutChange(QPainter* painter, const AskChange& change, const QRectF& from,
                             bool chosen) const {
    const auto& look = Theme::current().look();
    const double inset = look.px(10);
    const double width = from.width() - 2 * inset;
    const auto effects = change.effects.join(u" · "_s);
    const double tall = look.px(8) + paragraphHeight(change.change, Type::Line, look, width) +
                        paragraphHeight(change.why, Type::Caption, look, width) + look.px(2) +
                        paragraphHeight(effects, Type::Control, look, width) + look.px(8);
    if (!painter) return tall;
    const QRectF box(from.left(), from.top(), from.width(), tall);
    if (chosen) {
        painter->fillRect(box, look.color(Token::IntentSoft));
        if (hasFocus()) paintFocusFrame(*painter, box.adjusted(2, 2, -2, -2), look);
    }
    double y = from.top() + look.px(8);
    const auto paragraph = [&](const QString& text, Type type, Token token) {
        y += drawParagraph(*painter, QPointF(from.left() + inset, y), width, text, type, token, look);
    };
    paragraph(change.change, Type::Line, Token::Ink);
    paragraph(change.why, Type::Caption, Token::Ink2);
    y += look.px(2);
    paragraph(effects, Type::Control, Token::Ink2);
    return tall;
}

double AskList::layOut(QPainter* painter, double width) const {
    const auto& look = Theme::current().look();
    const double left = look.px(20);
    const double measure = std::min(width - look.px(40), look.px(620));
    double y = look.px(16);
    const auto paragraph = [&](const QString& text, Type type, Token token) {
        y += painter ? drawParagraph(*painter, QPointF(left, y), measure, text, type, token, look)
                     : paragraphHeight(text, type, look, measure);
    };
    m_boxes.clear();
    if (m_values.revision.isEmpty()) {
        paragraph(
            u"Nothing is kept yet. Keep the draft, taste it, and what its tasters ask for stands here."_s,
            Type::Body, Token::Ink2);
        return y + look.px(16);
    }
    if (!m_values.draftSays.isEmpty()) {
        paragraph(
            u"The draft has changed since %1: %2. Changes are worked out on the draft as it stands."_s.arg(
                m_values.revision, m_values.draftSays),
            Type::Control, Token::Ink2);
        y += look.px(10);
    }
    if (m_values.blocks.empty()) {
        paragraph(
            m_values.tastings == 0
                ? u"Nobody has tasted %1 yet."_s.arg(m_values.revision)
                : u"Nobody asks for more or less of anything. A score off the middle of a just-about-right "
                  "scale does, and words like “too sweet”, “less sour” or “not strong enough” in a note."_s,
            Type::Body, Token::Ink2);
        y += look.px(12);
    }
    for (const auto& block : m_values.blocks) {
        paragraph(block.says, Type::Heading, Token::Ink);
        y += look.px(4);
        if (!block.none.isEmpty()) {
            paragraph(block.none, Type::Control, Token::Ink2);
            y += look.px(6);
        }
        for (const auto& change : block.changes) {
            const QRectF from(left - look.px(10), y, measure + look.px(20), 0);
            const bool chosen = static_cast<int>(m_boxes.size()) == m_current;
            const double tall = layOutChange(painter, change, from, chosen);
            m_boxes.emplace_back(from.left(), y, from.width(), tall);
            y += tall;
        }
        y += look.px(8);
        if (painter) {
            painter->setPen(look.pen(Token::Rule, 1));
            painter->drawLine(QPointF(left, y), QPointF(left + measure, y));
        }
        y += look.px(12);
    }
    if (!m_values.nextChanges.isEmpty()) {
        paragraph(u"Next changes to try, as they were written"_s, Type::Heading, Token::Ink);
        y += look.px(4);
        for (const auto& change : m_values.nextChanges)
            paragraph(change, Type::Control, Token::Ink2);
        y += look.px(12);
    }
    if (count() > 0)
        paragraph(m_taking ? u"↑ ↓ choose, Enter takes it into the draft as one edit. Computed, not tasted."_s
                           : u"This book is only read: nothing can be taken."_s,
                  Type::Caption, Token::Ink3);
    return y + look.px(16);
}

void AskList::paint(QPainter& painter) {
    painter.setRenderHint(QPainter::Antialiasing);
    layOut(&painter, width());
}

void AskList::choose(int index) {
    if (count() == 0) return;
    m_current = std::clamp(index, 0, count() - 1);
    if (static_cast<std::size_t>(m_current) < m_boxes.size())
        Q_EMIT boxMoved(m_boxes[static_cast<std::size_t>(m_current)].toAlignedRect());
    valuesChanged();
}

void AskList::keyPressEvent(QKeyEvent* event) {
    const bool plain = !(event->modifiers() & ~Qt::KeypadModifier);
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (plain && event->key() == Qt::Key_Down)
        choose(m_current + 1);
    else if (plain && event->key() == Qt::Key_Up)
        choose(m_current - 1);
    else if (plain && enter && m_current >= 0 && m_taking)
        Q_EMIT taken(m_current);
    else
        PlotWidget::keyPressEvent(event);
}

int AskList::changeAt(QPointF point) const {
    for (std::size_t i = 0; i < m_boxes.size(); ++i)
        if (m_boxes[i].contains(point)) return static_cast<int>(i);
    return -1;
}

void AskList::mousePressEvent(QMouseEvent* event) {
    if (const int at = changeAt(event->position()); at >= 0) choose(at);
}

void AskList::mouseDoubleClickEvent(QMouseEvent* event) {
    if (const int at = changeAt(event->position()); at >= 0 && m_taking) Q_EMIT taken(at);
}

QString AskList::words() const {
    if (const auto* chosen = change(m_current))
        return chosen->change + u". "_s + chosen->why + u". "_s + chosen->effects.join(u", "_s);
    QStringList parts;
    if (m_values.blocks.empty()) parts << u"Nobody asks for more or less of anything"_s;
    for (const auto& block : m_values.blocks)
        parts << block.says;
    if (!m_values.nextChanges.isEmpty())
        parts << u"Next changes to try: %1"_s.arg(m_values.nextChanges.join(u"; "_s));
    return parts.join(u". "_s);
}

QList<QStringList> AskList::rows() const {
    QList<QStringList> rows{{u"asked for"_s, u"change"_s, u"why"_s, u"effect"_s}};
    for (const auto& block : m_values.blocks) {
        if (block.changes.empty()) rows << QStringList{block.says, {}, block.none, {}};
        for (const auto& change : block.changes)
            rows << QStringList{block.says, change.change, change.why, change.effects.join(u"; "_s)};
    }
    for (const auto& change : m_values.nextChanges)
        rows << QStringList{u"next change to try"_s, change, {}, {}};
    return rows;
}

} // namespace stillroom::ui
