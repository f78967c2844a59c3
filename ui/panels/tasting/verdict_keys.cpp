#include "ui/panels/tasting/verdict_keys.h"

#include "ui/panels/tasting/entry_keys.h"
#include "ui/plots/plot_text.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"
#include "ui/widgets/key_hint.h"

#include <QAccessible>
#include <QFontMetricsF>
#include <QKeyEvent>
#include <QPainter>

#include <array>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;
using tasting::Verdict;

namespace {

struct Choice {
    Verdict verdict;
    const char16_t* word;
    const char16_t* key;
    Qt::Key code;
};
constexpr std::array<Choice, 3> kChoices = {Choice{Verdict::Keep, u"Keep", u"K", Qt::Key_K},
                                            Choice{Verdict::Change, u"Change", u"C", Qt::Key_C},
                                            Choice{Verdict::Drop, u"Drop", u"D", Qt::Key_D}};

int indexOf(Verdict verdict) {
    for (int i = 0; i < 3; ++i)
        if (kChoices[static_cast<std::size_t>(i)].verdict == verdict) return i;
    return -1;
}

} // namespace

VerdictKeys::VerdictKeys(QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
    setAccessibleName(u"Verdict: K keep, C change, D drop"_s);
    connect(&Theme::current(), &Theme::changed, this, [this] {
        updateGeometry();
        update();
    });
}

void VerdictKeys::setVerdict(Verdict verdict) {
    if (verdict == m_verdict) return;
    m_verdict = verdict;
    const int index = indexOf(verdict);
    setAccessibleDescription(index < 0 ? u"not decided"_s
                                       : QString::fromUtf16(kChoices[static_cast<std::size_t>(index)].word));
    update();
    Q_EMIT changed();
}

void VerdictKeys::keyPressEvent(QKeyEvent* event) {
    for (const auto& choice : kChoices)
        if (event->key() == choice.code && !(event->modifiers() & ~Qt::ShiftModifier)) {
            setVerdict(choice.verdict);
            Q_EMIT leaveForward();
            return;
        }
    const int index = indexOf(m_verdict);
    switch (entryKey(*event)) {
    case EntryKey::Less:
        setVerdict(kChoices[static_cast<std::size_t>(std::max(0, index - 1))].verdict);
        return;
    case EntryKey::More:
        setVerdict(kChoices[static_cast<std::size_t>(std::min(2, index + 1))].verdict);
        return;
    case EntryKey::Clear:
        setVerdict(Verdict::None);
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

QRectF VerdictKeys::keyBox(int index) const {
    const auto& theme = Theme::current();
    return {theme.px(4) + index * theme.px(112), theme.px(4), theme.px(102), theme.px(36)};
}

void VerdictKeys::mousePressEvent(QMouseEvent* event) {
    for (int i = 0; i < 3; ++i)
        if (keyBox(i).contains(event->position())) setVerdict(kChoices[static_cast<std::size_t>(i)].verdict);
}

void VerdictKeys::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    update();
}

void VerdictKeys::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    update();
}

QSize VerdictKeys::sizeHint() const {
    const auto& theme = Theme::current();
    return {theme.pxInt(336), theme.pxInt(44)};
}

void VerdictKeys::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const auto& look = Theme::current().look();
    const QFontMetricsF metrics(look.font(Type::Reading));
    for (int i = 0; i < 3; ++i) {
        const auto& choice = kChoices[static_cast<std::size_t>(i)];
        const bool chosen = choice.verdict == m_verdict;
        const auto box = keyBox(i);
        painter.setPen(look.pen(chosen ? Token::Ink : Token::RuleStrong, chosen ? 2 : 1));
        painter.setBrush(look.color(chosen ? Token::Well : Token::Page));
        painter.drawRoundedRect(box, look.px(3), look.px(3));
        const auto word = QString::fromUtf16(choice.word);
        const auto key = QString::fromUtf16(choice.key);
        const double wide = metrics.horizontalAdvance(word);
        const double left = box.center().x() - (wide + look.px(8) + keyWidth(key)) / 2;
        const double y = box.center().y() - look.px(1);
        drawLabel(painter, QPointF(left, y), Stand::Left, word, Type::Reading, Token::Ink, look);
        paintVerdictMark(painter, left, left + wide, y + (metrics.ascent() - metrics.descent()) / 2,
                         choice.verdict, look);
        paintKey(painter, QPointF(left + wide + look.px(8), y - look.px(8)), key);
    }
    if (hasFocus()) {
        const double in = look.px(3);
        paintFocusFrame(painter, QRectF(rect()).adjusted(in, in, -in, -in), look);
    }
}

} // namespace stillroom::ui
