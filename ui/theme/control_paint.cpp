#include "ui/theme/control_paint.h"

#include "ui/theme/theme.h"

#include <QPainter>
#include <QWidget>

namespace stillroom::ui {

namespace {

const Look& look() {
    return Theme::current().look();
}

bool isQuiet(const QWidget* widget) {
    return widget && widget->property("quiet").toBool();
}

// Room inside a control for the focus frame, so that it is never cut off by a neighbour.
QRectF controlBox(const QRect& rect) {
    const double half = look().px(0.5);
    return QRectF(rect).adjusted(half, half, -half, -half);
}

} // namespace

bool isAct(const QWidget* widget) {
    return widget && widget->property("act").toBool();
}

void paintInnerFocus(QPainter* painter, const QRect& rect) {
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setBrush(Qt::NoBrush);
    const auto ring = [&](Token token, double width, double in) {
        painter->setPen(look().pen(token, width));
        const double inset = look().px(in);
        painter->drawRoundedRect(QRectF(rect).adjusted(inset, inset, -inset, -inset), look().px(3),
                                 look().px(3));
    };
    ring(Token::Focus, 2, 1);
    ring(Token::Page, 1, 2.5);
    painter->restore();
}

void paintButton(const QStyleOption* option, QPainter* painter, const QWidget* widget) {
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    const bool down = has(option, QStyle::State_Sunken) || has(option, QStyle::State_On);
    const bool over = has(option, QStyle::State_MouseOver) && has(option, QStyle::State_Enabled);
    const auto box = controlBox(option->rect);
    const double radius = look().px(3);
    if (isAct(widget) && has(option, QStyle::State_Enabled)) {
        auto fill = look().color(Token::Intent);
        if (down) fill = fill.darker(115);
        painter->setPen(Qt::NoPen);
        painter->setBrush(fill);
        painter->drawRoundedRect(QRectF(option->rect), radius, radius);
    } else if (isQuiet(widget)) {
        if (down || over) {
            painter->setPen(Qt::NoPen);
            painter->setBrush(look().color(down ? Token::IntentSoft : Token::Well));
            painter->drawRoundedRect(box, radius, radius);
        }
    } else {
        const auto fill = has(option, QStyle::State_On)       ? Token::Well
                          : has(option, QStyle::State_Sunken) ? Token::IntentSoft
                          : over                              ? Token::Well
                                                              : Token::Page;
        auto pen = look().pen(has(option, QStyle::State_On) ? Token::Ink : Token::RuleStrong,
                              has(option, QStyle::State_On) ? 2 : 1);
        if (!has(option, QStyle::State_Enabled)) pen.setDashPattern({2.5, 2.5});
        painter->setPen(pen);
        painter->setBrush(look().color(fill));
        painter->drawRoundedRect(box, radius, radius);
    }
    painter->restore();
}

void paintFieldFrame(const QStyleOption* option, QPainter* painter, bool fill) {
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    const bool focused = has(option, QStyle::State_HasFocus);
    painter->setBrush(fill ? QBrush(look().color(Token::Page)) : QBrush(Qt::NoBrush));
    painter->setPen(focused ? look().pen(Token::Focus, 2) : look().pen(Token::RuleStrong, 1));
    const double in = look().px(focused ? 1.0 : 0.5);
    painter->drawRoundedRect(QRectF(option->rect).adjusted(in, in, -in, -in), look().px(3), look().px(3));
    painter->restore();
}

void paintArrow(QPainter* painter, const QRect& rect, Qt::ArrowType arrow, const QColor& color) {
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setPen(QPen(color, look().px(1.5), Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter->translate(QRectF(rect).center());
    painter->rotate(arrow == Qt::UpArrow      ? 180
                    : arrow == Qt::LeftArrow  ? 90
                    : arrow == Qt::RightArrow ? -90
                                              : 0);
    const double r = look().px(3.5);
    painter->drawPolyline(QPolygonF({QPointF(-r, -r / 2), QPointF(0, r / 2), QPointF(r, -r / 2)}));
    painter->restore();
}

void paintCheckBox(const QStyleOption* option, QPainter* painter) {
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    const auto box = controlBox(option->rect);
    painter->setPen(look().pen(Token::RuleStrong, 1.2));
    painter->setBrush(look().color(Token::Page));
    painter->drawRoundedRect(box, look().px(2), look().px(2));
    painter->setPen(QPen(look().color(Token::Ink), look().px(2), Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    const auto at = [&](double x, double y) {
        return QPointF(box.left() + x * box.width(), box.top() + y * box.height());
    };
    if (has(option, QStyle::State_On))
        painter->drawPolyline(QPolygonF({at(0.22, 0.52), at(0.42, 0.73), at(0.79, 0.27)}));
    else if (has(option, QStyle::State_NoChange))
        painter->drawLine(at(0.25, 0.5), at(0.75, 0.5));
    painter->restore();
}

void paintRadio(const QStyleOption* option, QPainter* painter) {
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    const auto box = controlBox(option->rect);
    painter->setPen(look().pen(Token::RuleStrong, 1.2));
    painter->setBrush(look().color(Token::Page));
    painter->drawEllipse(box);
    if (has(option, QStyle::State_On)) {
        painter->setPen(Qt::NoPen);
        painter->setBrush(look().color(Token::Ink));
        painter->drawEllipse(box.center(), box.width() * 0.24, box.width() * 0.24);
    }
    painter->restore();
}

void paintScrollBar(const QStyleOptionSlider* option, QPainter* painter, const QStyle* style,
                    const QWidget* widget) {
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->fillRect(option->rect, look().color(Token::Page));
    if (option->maximum > option->minimum) {
        const auto slider =
            QRectF(style->subControlRect(QStyle::CC_ScrollBar, option, QStyle::SC_ScrollBarSlider, widget));
        const bool active = has(option, QStyle::State_MouseOver) || has(option, QStyle::State_Sunken);
        const double inset = look().px(3);
        painter->setPen(Qt::NoPen);
        painter->setBrush(look().color(active ? Token::RuleStrong : Token::Rule));
        painter->drawRoundedRect(slider.adjusted(inset, inset, -inset, -inset), look().px(3), look().px(3));
    }
    painter->restore();
}

void paintMenuItem(const QStyleOptionMenuItem* option, QPainter* painter) {
    const auto& now = look();
    painter->fillRect(option->rect, now.color(Token::Page));
    if (option->menuItemType == QStyleOptionMenuItem::Separator) {
        painter->setPen(now.pen(Token::Rule, 1));
        const double y = QRectF(option->rect).center().y();
        painter->drawLine(QPointF(option->rect.left(), y), QPointF(option->rect.right(), y));
        if (!option->text.isEmpty()) {
            painter->setPen(now.color(Token::Ink3));
            painter->setFont(now.font(Type::Caption));
            painter->drawText(option->rect.adjusted(now.pxInt(12), 0, 0, 0), Qt::AlignVCenter, option->text);
        }
        return;
    }
    const bool enabled = has(option, QStyle::State_Enabled);
    if (has(option, QStyle::State_Selected) && enabled) {
        painter->fillRect(option->rect, now.color(Token::Selection));
        painter->fillRect(QRect(option->rect.left(), option->rect.top(), now.pxInt(3), option->rect.height()),
                          now.color(Token::Intent));
    }
    const int left = now.pxInt(34);
    const QRect iconBox(option->rect.left() + now.pxInt(9), option->rect.top(), now.pxInt(18),
                        option->rect.height());
    if (option->checkType != QStyleOptionMenuItem::NotCheckable && option->checked) {
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        painter->setPen(QPen(now.color(Token::Ink), now.px(1.8), Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
        const QPointF c = QRectF(iconBox).center();
        painter->drawPolyline(QPolygonF({c + QPointF(-now.px(4), 0), c + QPointF(-now.px(1), now.px(3.2)),
                                         c + QPointF(now.px(4.5), -now.px(4))}));
        painter->restore();
    } else if (!option->icon.isNull()) {
        const int side = now.pxInt(16);
        option->icon.paint(
            painter, QRect(iconBox.center().x() - side / 2, iconBox.center().y() - side / 2, side, side),
            Qt::AlignCenter, enabled ? QIcon::Normal : QIcon::Disabled);
    }
    painter->setFont(option->font);
    painter->setPen(now.color(enabled ? Token::Ink : Token::Ink3));
    const auto tab = option->text.indexOf(u'\t');
    const auto words = tab < 0 ? option->text : option->text.left(tab);
    const auto textBox = option->rect.adjusted(left, 0, -now.pxInt(14), 0);
    painter->drawText(textBox, Qt::AlignVCenter | Qt::AlignLeft | Qt::TextShowMnemonic | Qt::TextSingleLine,
                      words);
    if (tab >= 0) {
        painter->setPen(now.color(Token::Ink3));
        painter->drawText(textBox, Qt::AlignVCenter | Qt::AlignRight | Qt::TextSingleLine,
                          option->text.mid(tab + 1));
    }
    if (option->menuItemType == QStyleOptionMenuItem::SubMenu)
        paintArrow(painter,
                   QRect(option->rect.right() - now.pxInt(16), option->rect.top(), now.pxInt(12),
                         option->rect.height()),
                   Qt::RightArrow, now.color(Token::Ink3));
}

void paintMenuBarItem(const QStyleOptionMenuItem* option, QPainter* painter) {
    const auto& now = look();
    painter->fillRect(option->rect, now.color(Token::Surface));
    if (has(option, QStyle::State_Selected) && has(option, QStyle::State_Enabled))
        painter->fillRect(option->rect, now.color(Token::Selection));
    painter->fillRect(QRect(option->rect.left(), option->rect.bottom(), option->rect.width(), 1),
                      now.color(Token::Rule));
    painter->setFont(option->font);
    painter->setPen(now.color(has(option, QStyle::State_Enabled) ? Token::Ink : Token::Ink3));
    painter->drawText(option->rect, Qt::AlignCenter | Qt::TextShowMnemonic | Qt::TextSingleLine,
                      option->text);
}

void paintHeaderSection(const QStyleOption* option, QPainter* painter) {
    painter->fillRect(option->rect, look().color(Token::Page));
    painter->setPen(look().pen(Token::RuleStrong, 1));
    painter->drawLine(QPointF(option->rect.left(), option->rect.bottom() + 0.5),
                      QPointF(option->rect.right() + 1, option->rect.bottom() + 0.5));
}

void paintTab(const QStyleOptionTab* option, QPainter* painter) {
    const bool selected = has(option, QStyle::State_Selected);
    if (has(option, QStyle::State_MouseOver) && !selected)
        painter->fillRect(option->rect, look().color(Token::Well));
    if (selected)
        painter->fillRect(QRectF(option->rect.left() + look().px(8), option->rect.bottom() - look().px(1),
                                 option->rect.width() - look().px(16), look().px(2)),
                          look().color(Token::Intent));
}

} // namespace stillroom::ui
