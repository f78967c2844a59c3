#include "ui/theme/style.h"

#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QAbstractButton>
#include <QPainter>
#include <QStyleFactory>
#include <QStyleOption>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

const Look& look() {
    return Theme::current().look();
}

bool has(const QStyleOption* option, QStyle::StateFlag flag) {
    return option->state.testFlag(flag);
}

bool isAct(const QWidget* widget) {
    return widget && widget->property("act").toBool();
}

bool isQuiet(const QWidget* widget) {
    return widget && widget->property("quiet").toBool();
}

// Room inside a control for the focus frame, so that it is never cut off by a neighbour.
QRectF controlBox(const QRect& rect) {
    const double half = look().px(0.5);
    return QRectF(rect).adjusted(half, half, -half, -half);
}

// The frame stands inside the control, where no neighbour can cut it: 2 px line, then 1 px gap. On a control
// that is itself filled with intent the gap is what shows.
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

} // namespace

Style::Style() : QProxyStyle(QStyleFactory::create(u"Fusion"_s)) {}

void Style::polish(QWidget* widget) {
    QProxyStyle::polish(widget);
    if (qobject_cast<QAbstractButton*>(widget)) widget->setAttribute(Qt::WA_Hover);
}

void Style::drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                          const QWidget* widget) const {
    switch (element) {
    case PE_PanelButtonCommand:
    case PE_PanelButtonBevel:
    case PE_PanelButtonTool:
        if (element == PE_PanelButtonTool && !has(option, State_MouseOver) && !has(option, State_Sunken) &&
            !has(option, State_On))
            return;
        paintButton(option, painter, widget);
        return;
    case PE_FrameDefaultButton:
        return;
    case PE_FrameFocusRect:
        if (has(option, State_KeyboardFocusChange) || has(option, State_HasFocus))
            paintInnerFocus(painter, option->rect);
        return;
    case PE_PanelLineEdit:
        if (const auto* frame = qstyleoption_cast<const QStyleOptionFrame*>(option);
            frame && frame->lineWidth > 0)
            paintFieldFrame(option, painter, true);
        else
            painter->fillRect(option->rect, look().color(Token::Page));
        return;
    case PE_FrameLineEdit:
        paintFieldFrame(option, painter, false);
        return;
    case PE_Frame:
        if (const auto* frame = qstyleoption_cast<const QStyleOptionFrame*>(option);
            frame && frame->lineWidth > 0)
            paintFieldFrame(option, painter, false);
        return;
    case PE_IndicatorCheckBox:
        paintCheckBox(option, painter);
        return;
    case PE_IndicatorRadioButton:
        paintRadio(option, painter);
        return;
    case PE_IndicatorArrowDown:
        paintArrow(painter, option->rect, Qt::DownArrow, look().color(Token::Ink2));
        return;
    case PE_IndicatorArrowUp:
        paintArrow(painter, option->rect, Qt::UpArrow, look().color(Token::Ink2));
        return;
    case PE_PanelMenu:
        painter->fillRect(option->rect, look().color(Token::Page));
        return;
    case PE_FrameMenu:
    case PE_PanelTipLabel:
        painter->fillRect(option->rect, look().color(Token::Page));
        painter->setPen(look().pen(Token::RuleStrong, 1));
        painter->setBrush(Qt::NoBrush);
        painter->drawRect(QRectF(option->rect).adjusted(0.5, 0.5, -0.5, -0.5));
        return;
    case PE_FrameStatusBarItem:
    case PE_FrameTabBarBase:
        return;
    default:
        QProxyStyle::drawPrimitive(element, option, painter, widget);
    }
}

void Style::drawControl(ControlElement element, const QStyleOption* option, QPainter* painter,
                        const QWidget* widget) const {
    switch (element) {
    case CE_MenuItem:
        if (const auto* item = qstyleoption_cast<const QStyleOptionMenuItem*>(option))
            paintMenuItem(item, painter);
        return;
    case CE_MenuBarItem:
        if (const auto* item = qstyleoption_cast<const QStyleOptionMenuItem*>(option))
            paintMenuBarItem(item, painter);
        return;
    case CE_MenuBarEmptyArea:
        painter->fillRect(option->rect, look().color(Token::Surface));
        painter->fillRect(QRect(option->rect.left(), option->rect.bottom(), option->rect.width(), 1),
                          look().color(Token::Rule));
        return;
    case CE_HeaderSection:
    case CE_HeaderEmptyArea:
        paintHeaderSection(option, painter);
        return;
    case CE_TabBarTabShape:
        if (const auto* tab = qstyleoption_cast<const QStyleOptionTab*>(option)) paintTab(tab, painter);
        return;
    case CE_Splitter:
        painter->fillRect(option->rect, look().color(Token::Rule));
        return;
    case CE_PushButton:
        if (const auto* button = qstyleoption_cast<const QStyleOptionButton*>(option)) {
            proxy()->drawControl(CE_PushButtonBevel, button, painter, widget);
            auto label = *button;
            label.rect = proxy()->subElementRect(SE_PushButtonContents, button, widget);
            proxy()->drawControl(CE_PushButtonLabel, &label, painter, widget);
            if (has(option, State_HasFocus)) paintInnerFocus(painter, option->rect);
        }
        return;
    case CE_PushButtonLabel:
        if (const auto* button = qstyleoption_cast<const QStyleOptionButton*>(option)) {
            auto copy = *button;
            const bool act = isAct(widget) && has(option, State_Enabled);
            copy.palette.setColor(QPalette::ButtonText,
                                  look().color(act                          ? Token::OnIntent
                                               : has(option, State_Enabled) ? Token::Ink
                                                                            : Token::Ink3));
            QProxyStyle::drawControl(element, &copy, painter, widget);
        }
        return;
    default:
        QProxyStyle::drawControl(element, option, painter, widget);
    }
}

void Style::drawComplexControl(ComplexControl control, const QStyleOptionComplex* option, QPainter* painter,
                               const QWidget* widget) const {
    switch (control) {
    case CC_ScrollBar:
        if (const auto* slider = qstyleoption_cast<const QStyleOptionSlider*>(option))
            paintScrollBar(slider, painter, proxy(), widget);
        return;
    case CC_ComboBox:
        if (const auto* combo = qstyleoption_cast<const QStyleOptionComboBox*>(option)) {
            if (combo->frame) paintFieldFrame(option, painter, true);
            paintArrow(painter, proxy()->subControlRect(CC_ComboBox, option, SC_ComboBoxArrow, widget),
                       Qt::DownArrow, look().color(Token::Ink2));
        }
        return;
    case CC_SpinBox:
        if (const auto* spin = qstyleoption_cast<const QStyleOptionSpinBox*>(option)) {
            if (spin->frame) paintFieldFrame(option, painter, true);
            if (spin->buttonSymbols != QAbstractSpinBox::NoButtons) {
                paintArrow(painter, proxy()->subControlRect(CC_SpinBox, option, SC_SpinBoxUp, widget),
                           Qt::UpArrow, look().color(Token::Ink3));
                paintArrow(painter, proxy()->subControlRect(CC_SpinBox, option, SC_SpinBoxDown, widget),
                           Qt::DownArrow, look().color(Token::Ink3));
            }
        }
        return;
    default:
        QProxyStyle::drawComplexControl(control, option, painter, widget);
    }
}

QRect Style::subControlRect(ComplexControl control, const QStyleOptionComplex* option, SubControl sub,
                            const QWidget* widget) const {
    if (control == CC_ScrollBar) {
        // No arrows at the ends: wheel, keys and the bar itself move it.
        if (sub == SC_ScrollBarAddLine || sub == SC_ScrollBarSubLine) return {};
        if (const auto* bar = qstyleoption_cast<const QStyleOptionSlider*>(option)) {
            const bool across = bar->orientation == Qt::Horizontal;
            const int length = across ? bar->rect.width() : bar->rect.height();
            const qint64 range = qint64(bar->maximum) - bar->minimum;
            const int least = look().pxInt(28);
            const int slider = range <= 0
                                   ? length
                                   : std::clamp(static_cast<int>(qint64(length) * bar->pageStep /
                                                                 std::max<qint64>(1, range + bar->pageStep)),
                                                std::min(least, length), length);
            const int start = sliderPositionFromValue(bar->minimum, bar->maximum, bar->sliderPosition,
                                                      length - slider, bar->upsideDown);
            const auto piece = [&](int from, int size) {
                return across ? QRect(bar->rect.left() + from, bar->rect.top(), size, bar->rect.height())
                              : QRect(bar->rect.left(), bar->rect.top() + from, bar->rect.width(), size);
            };
            switch (sub) {
            case SC_ScrollBarGroove:
                return bar->rect;
            case SC_ScrollBarSlider:
                return piece(start, slider);
            case SC_ScrollBarSubPage:
                return piece(0, start);
            case SC_ScrollBarAddPage:
                return piece(start + slider, length - start - slider);
            default:
                break;
            }
        }
    }
    if (control == CC_ComboBox) {
        const auto rect = option->rect;
        const int arrow = look().pxInt(24);
        if (sub == SC_ComboBoxEditField)
            return rect.adjusted(look().pxInt(7), look().pxInt(2), -arrow, -look().pxInt(2));
        if (sub == SC_ComboBoxArrow) return QRect(rect.right() - arrow + 1, rect.top(), arrow, rect.height());
    }
    return QProxyStyle::subControlRect(control, option, sub, widget);
}

QRect Style::subElementRect(SubElement element, const QStyleOption* option, const QWidget* widget) const {
    auto rect = QProxyStyle::subElementRect(element, option, widget);
    if (element == SE_LineEditContents && option->rect.width() > look().pxInt(60)) {
        const auto* frame = qstyleoption_cast<const QStyleOptionFrame*>(option);
        if (frame && frame->lineWidth > 0) rect.adjust(look().pxInt(5), 0, -look().pxInt(5), 0);
    }
    return rect;
}

QSize Style::sizeFromContents(ContentsType type, const QStyleOption* option, const QSize& size,
                              const QWidget* widget) const {
    auto result = QProxyStyle::sizeFromContents(type, option, size, widget);
    const int control = look().pxInt(26);
    switch (type) {
    case CT_PushButton:
        result.setHeight(std::max(control, size.height() + look().pxInt(8)));
        result.setWidth(size.width() + look().pxInt(22));
        break;
    case CT_LineEdit:
    case CT_ComboBox:
        result.setHeight(std::max(control, size.height() + look().pxInt(8)));
        break;
    case CT_SpinBox:
        result.setHeight(std::max(control, size.height()));
        break;
    case CT_MenuItem:
        if (const auto* item = qstyleoption_cast<const QStyleOptionMenuItem*>(option)) {
            if (item->menuItemType == QStyleOptionMenuItem::Separator)
                return {result.width(), look().pxInt(item->text.isEmpty() ? 9 : 20)};
            return {size.width() + look().pxInt(34 + 14 + 30), look().pxInt(26)};
        }
        break;
    case CT_MenuBarItem:
        return {size.width() + look().pxInt(16), look().pxInt(27)};
    case CT_TabBarTab:
        result.setHeight(look().pxInt(30));
        break;
    default:
        break;
    }
    return result;
}

int Style::pixelMetric(PixelMetric metric, const QStyleOption* option, const QWidget* widget) const {
    switch (metric) {
    case PM_ScrollBarExtent:
        return look().pxInt(12);
    case PM_ScrollBarSliderMin:
        return look().pxInt(28);
    case PM_ButtonMargin:
        return look().pxInt(8);
    case PM_ButtonShiftHorizontal:
    case PM_ButtonShiftVertical:
    case PM_MenuPanelWidth:
    case PM_MenuBarPanelWidth:
        return metric == PM_MenuPanelWidth ? 1 : 0;
    case PM_MenuBarItemSpacing:
    case PM_MenuBarVMargin:
        return 0;
    case PM_MenuBarHMargin:
        return look().pxInt(2);
    case PM_MenuVMargin:
        return look().pxInt(4);
    case PM_IndicatorWidth:
    case PM_IndicatorHeight:
    case PM_ExclusiveIndicatorWidth:
    case PM_ExclusiveIndicatorHeight:
        return look().pxInt(15);
    case PM_SmallIconSize:
    case PM_ButtonIconSize:
        return look().pxInt(16);
    case PM_ToolBarIconSize:
        return look().pxInt(18);
    case PM_SplitterWidth:
        return 1;
    case PM_LayoutHorizontalSpacing:
    case PM_LayoutVerticalSpacing:
        return look().pxInt(8);
    case PM_LayoutLeftMargin:
    case PM_LayoutRightMargin:
    case PM_LayoutTopMargin:
    case PM_LayoutBottomMargin:
        return look().pxInt(12);
    case PM_FocusFrameHMargin:
    case PM_FocusFrameVMargin:
        return look().pxInt(3);
    case PM_TextCursorWidth:
        return std::max(1, look().pxInt(1.4));
    default:
        return QProxyStyle::pixelMetric(metric, option, widget);
    }
}

int Style::styleHint(StyleHint hint, const QStyleOption* option, const QWidget* widget,
                     QStyleHintReturn* data) const {
    switch (hint) {
    case SH_UnderlineShortcut:
        return 1;
    case SH_EtchDisabledText:
    case SH_DitherDisabledText:
        return 0;
    case SH_ScrollBar_Transient:
        return 0;
    case SH_Table_GridLineColor:
        return static_cast<int>(look().color(Token::Rule).rgba());
    case SH_ItemView_ShowDecorationSelected:
        return 1;
    default:
        return QProxyStyle::styleHint(hint, option, widget, data);
    }
}

} // namespace stillroom::ui
