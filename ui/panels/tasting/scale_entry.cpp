#include "ui/panels/tasting/scale_entry.h"

#include "ui/panels/tasting/entry_keys.h"
#include "ui/plots/plot_text.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/text/scale_words.h"
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
    QVariant maximumValue() const override { return entry()->highest(); }
    QVariant minimumValue() const override { return entry()->lowest(); }
    QVariant minimumStepSize() const override { return 1; }

  private:
    ScaleEntry* entry() const { return qobject_cast<ScaleEntry*>(widget()); }
};

// Of the name, in pixels at 100 %; the figure at the right end takes kFigure.
constexpr double kLeastName = 94;
constexpr double kMostName = 150;
constexpr double kFigure = 62;

QAccessibleInterface* scaleInterface(const QString&, QObject* object) {
    auto* entry = qobject_cast<ScaleEntry*>(object);
    return entry ? new ScaleInterface(entry) : nullptr;
}

} // namespace

ScaleEntry::ScaleEntry(tasting::ScaleDefinition scale, QWidget* parent)
    : QWidget(parent),
      m_scale(std::move(scale)),
      m_name(fromCore(m_scale.name)),
      m_nameWidth(kLeastName) {
    static const bool installed = [] {
        QAccessible::installFactory(scaleInterface);
        return true;
    }();
    Q_UNUSED(installed);
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(u"%1, %2"_s.arg(m_name, range()));
    setToolTip(m_name + u": "_s + scaleKindHint(m_scale.kind));
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    connect(&Theme::current(), &Theme::changed, this, [this] {
        updateGeometry();
        update();
    });
}

void ScaleEntry::setScore(std::optional<int> score) {
    if (score) score = std::clamp(*score, lowest(), highest());
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
    setAccessibleDescription(descriptionText());
    update();
    Q_EMIT changed();
}

QString ScaleEntry::range() const {
    return u"%1 to %2"_s.arg(lowest()).arg(highest());
}

// "1" then "2" is 12; a digit that would leave the scale is refused and what stood stands. A digit typed into
// a score that already stood when the focus came begins anew, and so does each on a scale of single digits.
void ScaleEntry::type(int digit) {
    const bool goesOn = m_typing && m_score && highest() > 9;
    const int next = goesOn ? *m_score * 10 + digit : digit;
    setRefusing(next < lowest() || next > highest());
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
    if (m_refusing) return range();
    if (const auto word = m_score ? scoreWord(m_scale.kind, *m_score) : QString(); !word.isEmpty())
        return word;
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
        setScore(m_score ? *m_score - 1 : (lowest() + highest()) / 2);
        return;
    case EntryKey::More:
        setScore(m_score ? *m_score + 1 : (lowest() + highest() + 1) / 2);
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

double ScaleEntry::nameWidth(const QString& name) {
    const auto& theme = Theme::current();
    const double wide = textWidth(name, Type::Line, theme.look()) / theme.px(1) + 28;
    return std::clamp(wide, kLeastName, kMostName);
}

void ScaleEntry::setNameWidth(double width) {
    m_nameWidth = width;
    update();
}

QRectF ScaleEntry::scaleBox() const {
    const auto& theme = Theme::current();
    return {theme.px(m_nameWidth), 0, std::max(1.0, width() - theme.px(m_nameWidth + kFigure)),
            double(height())};
}

// Of words: the middle of its field.
double ScaleEntry::xOf(double score) const {
    const auto box = scaleBox();
    if (isWords()) return box.left() + (score - lowest() + 0.5) / (highest() - lowest() + 1) * box.width();
    return box.left() + (score - lowest()) / (highest() - lowest()) * box.width();
}

void ScaleEntry::setFrom(QPointF point) {
    const auto box = scaleBox();
    const double share = std::clamp((point.x() - box.left()) / box.width(), 0.0, 1.0);
    const int steps = highest() - lowest();
    if (isWords())
        setScore(lowest() + std::min(steps, static_cast<int>(share * (steps + 1))));
    else
        setScore(lowest() + static_cast<int>(std::lround(share * steps)));
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
    Q_EMIT entered();
}

void ScaleEntry::focusOutEvent(QFocusEvent* event) {
    setRefusing(false);
    QWidget::focusOutEvent(event);
    update();
}

QSize ScaleEntry::sizeHint() const {
    return {Theme::current().pxInt(540), Theme::current().pxInt(32)};
}

QSize ScaleEntry::minimumSizeHint() const {
    return {Theme::current().pxInt(300), Theme::current().pxInt(31)};
}

void ScaleEntry::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const auto& look = Theme::current().look();
    const double y = height() / 2.0;
    if (hasFocus()) {
        painter.fillRect(QRectF(rect()).adjusted(1, 1, -1, -1), look.color(Token::IntentSoft));
        const double in = look.px(3);
        paintFocusFrame(painter, QRectF(rect()).adjusted(in, in, -in, -in), look);
    }
    drawLabel(painter, QPointF(look.px(14), y), Stand::Left,
              elided(m_name, Type::Line, look, look.px(m_nameWidth - 22)), Type::Line, Token::Ink, look);
    if (isWords())
        paintWords(painter, look);
    else
        paintRule(painter, look);
    if (m_refusing) { // at the end the wedge is not at
        const auto box = scaleBox();
        const bool left = !isWords() && 2 * m_score.value_or(lowest()) > highest();
        drawLabel(painter, QPointF(left ? box.left() : width() - look.px(14), look.px(9)),
                  left ? Stand::Left : Stand::Right, range(), Type::Caption, Token::Error, look);
    }
    drawLabel(painter, QPointF(width() - look.px(36), y), Stand::Right,
              m_score ? QString::number(*m_score) : u"—"_s, m_score ? Type::ReadingServed : Type::Reading,
              m_score ? Token::Ink : Token::Ink3, look);
}

void ScaleEntry::paintRule(QPainter& painter, const Look& look) const {
    const auto box = scaleBox();
    const double y = height() / 2.0;
    painter.setPen(look.pen(Token::RuleStrong, 1));
    painter.drawLine(QPointF(box.left(), y), QPointF(box.right(), y));
    for (int i = lowest(); i <= highest(); ++i) {
        const bool strong = i == lowest() || i == highest() || i % 5 == 0;
        const double half = look.px(strong ? 6 : 2.5);
        painter.drawLine(QPointF(xOf(i), y - half), QPointF(xOf(i), y + half));
    }
    if (m_ring) {
        painter.setPen(look.pen(Token::Ink2, 1.2));
        painter.setBrush(look.color(Token::Page));
        painter.drawEllipse(QPointF(xOf(*m_ring), y + look.px(5)), look.px(2.6), look.px(2.6));
    }
    if (m_score)
        paintWedge(painter, QPointF(xOf(*m_score), y - look.px(0.5)), Pointing::Down, WedgeFill::Filled, look,
                   look.color(Token::Ink));
}

// Five fields; the mean of the last revision's tasters is a ring on their lower edge.
void ScaleEntry::paintWords(QPainter& painter, const Look& look) const {
    const auto box = scaleBox();
    const int count = highest() - lowest() + 1;
    const double wide = box.width() / count;
    const double high = look.px(25);
    const double top = std::round((height() - high) / 2);
    for (int i = 0; i < count; ++i) {
        const QRectF field(std::round(box.left() + wide * i), top, std::round(wide), high);
        const bool chosen = m_score == lowest() + i;
        painter.setPen(look.pen(chosen ? Token::Ink : Token::RuleStrong, 1));
        painter.setBrush(look.color(chosen ? Token::Ink : Token::Page));
        painter.drawRect(field);
        const auto word = scoreWord(m_scale.kind, lowest() + i);
        drawLabel(painter, field.center(), Stand::Centre,
                  elided(word, Type::Control, look, field.width() - look.px(4)), Type::Control,
                  chosen ? Token::Page : Token::Ink, look);
    }
    if (!m_ring) return;
    painter.setPen(look.pen(Token::Ink2, 1.2));
    painter.setBrush(look.color(Token::Page));
    painter.drawEllipse(QPointF(xOf(*m_ring), top + high), look.px(2.6), look.px(2.6));
}

} // namespace stillroom::ui
