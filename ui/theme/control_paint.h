#pragma once

#include <QStyleOption>

class QPainter;
class QStyle;
class QWidget;

// How the style's controls are drawn, in the colours and lengths of the theme in force.
namespace stillroom::ui {

inline bool has(const QStyleOption* option, QStyle::StateFlag flag) {
    return option->state.testFlag(flag);
}

// The view's one act, as its property says.
bool isAct(const QWidget* widget);

// The frame stands inside the control, where no neighbour can cut it: 2 px line, then 1 px gap. On a control
// that is itself filled with intent the gap is what shows.
void paintInnerFocus(QPainter* painter, const QRect& rect);
void paintButton(const QStyleOption* option, QPainter* painter, const QWidget* widget);
void paintFieldFrame(const QStyleOption* option, QPainter* painter, bool fill);
void paintArrow(QPainter* painter, const QRect& rect, Qt::ArrowType arrow, const QColor& color);
void paintCheckBox(const QStyleOption* option, QPainter* painter);
void paintRadio(const QStyleOption* option, QPainter* painter);
void paintScrollBar(const QStyleOptionSlider* option, QPainter* painter, const QStyle* style,
                    const QWidget* widget);
void paintMenuItem(const QStyleOptionMenuItem* option, QPainter* painter);
void paintMenuBarItem(const QStyleOptionMenuItem* option, QPainter* painter);
void paintHeaderSection(const QStyleOption* option, QPainter* painter);
void paintTab(const QStyleOptionTab* option, QPainter* painter);

} // namespace stillroom::ui
