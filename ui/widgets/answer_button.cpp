#include "ui/widgets/answer_button.h"

#include "ui/delegates/paint_text.h"
#include "ui/theme/theme.h"
#include "ui/widgets/key_hint.h"

#include <QPainter>
#include <QStyleOptionButton>

#include <cmath>

namespace stillroom::ui {

namespace {

constexpr double kInset = 8;
constexpr double kGap = 9; // between the key and what it chooses

} // namespace

AnswerButton::AnswerButton(const QString& key, const QString& reading, QWidget* parent)
    : QPushButton(reading, parent),
      m_key(key) {
    setAccessibleName(tr("%1: %2").arg(key, reading));
    setToolTip(reading);
}

QSize AnswerButton::sizeHint() const {
    const Look& look = Theme::current().look();
    const double width = 2 * look.px(kInset) + keyWidth(m_key) + look.px(kGap) + textWidth(text(), font());
    return {static_cast<int>(std::ceil(width)) + 2, QPushButton::sizeHint().height()};
}

void AnswerButton::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const Look& look = Theme::current().look();
    QStyleOptionButton option;
    initStyleOption(&option);
    option.text.clear();
    style()->drawControl(QStyle::CE_PushButton, &option, &painter, this);
    const double left = look.px(kInset);
    const double wide = paintKey(painter, QPointF(left, (height() - look.px(16)) / 2), m_key);
    const double from = left + wide + look.px(kGap);
    paintText(painter, QRectF(from, 0, width() - from - look.px(3), height()), text(), font(),
              option.palette.color(QPalette::ButtonText));
}

} // namespace stillroom::ui
