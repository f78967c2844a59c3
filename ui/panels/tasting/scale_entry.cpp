#include "ui/panels/tasting/scale_entry.h"

#include "core/tasting/tasting.h"
#include "ui/panels/tasting/entry_keys.h"
#include "ui/plots/plot_text.h"
#include "ui/text/numbers.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QAccessible>
#include <QAccessibleWidget>
#include <QKeyEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

class ScaleInterface final : public QAccessibleWidget, public QAccessibleValueInterface {
  public:
    explicit ScaleInterface(ScaleEntry* entry) : QAccessibleWidget(entry, QAccessible::Slider) {}

    void* interface_cast(QAccessible::InterfaceType type) override {
        if (type == QAccessible::ValueInterface) return static_cast<QAccessibleValueInterface*>(this);
        return QAccessibleWidget::interface_cast(type);
    }
    QVariant currentValue() const override {
        const auto score = entry()->score();
        return score ? QVariant(*score) : QVariant();
    }
    void setCurrentValue(const QVariant& value) override { entry()->setScore(value.toInt()); }
    QVariant maximumValue() const override { return tasting::kScaleTop; }
    QVariant minimumValue() const override { return 0; }
    QVariant minimumStepSize() const override { return 1; }

  private:
    ScaleEntry* entry() const { return qobject_cast<ScaleEntry*>(widget()); }
};

QAccessibleInterface* scaleInterface(const QString&, QObject* object) {
    auto* entry = qobject_cast<ScaleEntry*>(object);
    return entry ? new ScaleInterface(entry) : nullptr;
}

} // namespace

ScaleEntry::ScaleEntry(const QString& name, QWidget* parent) : QWidget(parent), m_name(name) {
    static const bool installed = [] {
        QAccessible::installFactory(scaleInterface);
        return true;
    }();
    Q_UNUSED(installed);
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(u"%1, 0 to 15"_s.arg(name));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    connect(&Theme::current(), &Theme::changed, this, [this] {
        updateGeometry();
        update();
    });
}

void ScaleEntry::setScore(std::optional<int> score) {
    if (score) score = std::clamp(*score, 0, tasting::kScaleTop);
    m_typing = false;
    setRefusing(false);
    if (score == m_score) return;
    m_score = score;
    tell();
}

void ScaleEntry::setRing(std::optional<double> mean) {
    m_ring = mean;
    setAccessibleDescription(descriptionText());
    update();
}

void ScaleEntry::tell() {
    if (QAccessible::isActive()) {
        QAccessibleValueChangeEvent event(this, m_score ? QVariant(*m_score) : QVariant());
        QAccessible::updateAccessibility(&event);
    }
    update();
    Q_EMIT changed();
}

// "1" then "2" is 12; a digit that would go past 15 is refused and what stood stands. A digit typed into a
// score that already stood when the focus came begins anew.
void ScaleEntry::type(int digit) {
    const int next = m_typing && m_score ? *m_score * 10 + digit : digit;
    setRefusing(next > tasting::kScaleTop);
    if (m_refusing) return;
    m_typing = true;
    if (m_score == next) return;
    m_score = next;
    tell();
}

void ScaleEntry::setRefusing(bool refusing) {
    if (refusing == m_refusing) return;
    m_refusing = refusing;
    setAccessibleDescription(descriptionText());
    update();
}

QString ScaleEntry::descriptionText() const {
    if (m_refusing) return u"0 to 15"_s;
    return m_ring ? u"before: %1"_s.arg(number(*m_ring, 1)) : QString();
}

void ScaleEntry::keyPressEvent(QKeyEvent* event) {
    if (event->modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier)) {
        QWidget::keyPressEvent(event);
        return;
    }
    const auto text = event->text();
    if (text.size() == 1 && text.front().isDigit()) {
        type(text.front().digitValue());
        return;
    }
    switch (entryKey(*event)) {
    case EntryKey::Less:
        setScore(m_score ? *m_score - 1 : 7);
        return;
    case EntryKey::More:
        setScore(m_score ? *m_score + 1 : 8);
        return;
    case EntryKey::Clear:
        setScore(std::nullopt);
        return;
    case EntryKey::Forward:
        Q_EMIT leaveForward();
        return;
    case EntryKey::Backward:
        Q_EMIT leaveBackward();
        return;
    case EntryKey::Other:
        QWidget::keyPressEvent(event);
    }
}

QRectF ScaleEntry::scaleBox() const {
    const auto& theme = Theme::current();
    return {theme.px(94), 0, std::max(1.0, width() - theme.px(94 + 62)), double(height())};
}

void ScaleEntry::setFrom(QPointF point) {
    const auto box = scaleBox();
    const double share = (point.x() - box.left()) / box.width();
    setScore(static_cast<int>(std::lround(std::clamp(share, 0.0, 1.0) * tasting::kScaleTop)));
}

void ScaleEntry::mousePressEvent(QMouseEvent* event) {
    setFrom(event->position());
}

void ScaleEntry::mouseMoveEvent(QMouseEvent* event) {
    if (event->buttons() & Qt::LeftButton) setFrom(event->position());
}

void ScaleEntry::focusInEvent(QFocusEvent* event) {
    m_typing = false;
    QWidget::focusInEvent(event);
    update();
}

void ScaleEntry::focusOutEvent(QFocusEvent* event) {
    setRefusing(false);
    QWidget::focusOutEvent(event);
    update();
}

QSize ScaleEntry::sizeHint() const {
    return {Theme::current().pxInt(540), Theme::current().pxInt(37)};
}

QSize ScaleEntry::minimumSizeHint() const {
    return {Theme::current().pxInt(300), Theme::current().pxInt(34)};
}

void ScaleEntry::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const auto& look = Theme::current().look();
    const auto box = scaleBox();
    const double y = height() / 2.0;
    if (hasFocus()) {
        painter.fillRect(QRectF(rect()).adjusted(1, 1, -1, -1), look.color(Token::IntentSoft));
        const double in = look.px(3);
        paintFocusFrame(painter, QRectF(rect()).adjusted(in, in, -in, -in), look);
    }
    drawLabel(painter, QPointF(look.px(14), y), Stand::Left, m_name, Type::Line, Token::Ink, look);
    const auto x = [&](double score) { return box.left() + score / tasting::kScaleTop * box.width(); };
    painter.setPen(look.pen(Token::RuleStrong, 1));
    painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
    for (int i = 0; i <= tasting::kScaleTop; ++i) {
        const double half = look.px(i % 5 == 0 ? 6 : 2.5);
        painter.drawLine(QPointF(x(i), y - half), QPointF(x(i), y + half));
    }
    if (m_ring) {
        painter.setPen(look.pen(Token::Ink2, 1.2));
        painter.setBrush(look.color(Token::Page));
        painter.drawEllipse(QPointF(x(*m_ring), y + look.px(5)), look.px(2.6), look.px(2.6));
    }
    if (m_refusing) { // at the end the wedge is not at
        const bool left = m_score.value_or(0) > tasting::kScaleTop / 2;
        drawLabel(painter, QPointF(left ? box.left() : box.right(), y - look.px(11)),
                  left ? Stand::Left : Stand::Right, u"0 to 15"_s, Type::Caption, Token::Error, look);
    }
    if (m_score)
        paintWedge(painter, QPointF(x(*m_score), y - look.px(0.5)), Pointing::Down, WedgeFill::Filled, look,
                   look.color(Token::Ink));
    drawLabel(painter, QPointF(width() - look.px(36), y), Stand::Right,
              m_score ? QString::number(*m_score) : u"—"_s, m_score ? Type::ReadingServed : Type::Reading,
              m_score ? Token::Ink : Token::Ink3, look);
}

} // namespace stillroom::ui
