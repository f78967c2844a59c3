#include "ui/theme/style.h"

#include "ui/theme/control_paint.h"
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
