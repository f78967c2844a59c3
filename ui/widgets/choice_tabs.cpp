#include "ui/widgets/choice_tabs.h"

#include "ui/plots/plot_text.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QPainter>

#include <cmath>

namespace stillroom::ui {

ChoiceTabs::ChoiceTabs(const QString& name, const QStringList& choices, QWidget* parent) : QTabBar(parent) {
    setAccessibleName(name);
    setDrawBase(false);
    setExpanding(false);
    setUsesScrollButtons(false);
    setElideMode(Qt::ElideNone);
    for (const auto& choice : choices)
        addTab(choice);
}

QSize ChoiceTabs::tabSizeHint(int index) const {
    const auto& look = Theme::current().look();
    return {static_cast<int>(std::ceil(textWidth(tabText(index), Type::Control, look) + look.px(18))),
            look.pxInt(30)};
}

QSize ChoiceTabs::minimumTabSizeHint(int index) const {
    return tabSizeHint(index);
}

void ChoiceTabs::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const auto& look = Theme::current().look();
    painter.setRenderHint(QPainter::Antialiasing);
    for (int i = 0; i < count(); ++i) {
        if (!isTabVisible(i)) continue;
        const QRectF box(tabRect(i));
        const bool chosen = i == currentIndex();
        drawLabel(painter, QPointF(box.left() + look.px(9), box.center().y()), Stand::Left, tabText(i),
                  Type::Control, chosen ? Token::Ink : Token::Ink2, look);
        if (!chosen) continue;
        painter.fillRect(
            QRectF(box.left() + look.px(9), box.bottom() - look.px(4), box.width() - look.px(18), look.px(2)),
            look.color(Token::Intent));
        if (hasFocus())
            paintFocusFrame(painter, box.adjusted(look.px(4), look.px(4), -look.px(4), -look.px(4)), look);
    }
}

} // namespace stillroom::ui
