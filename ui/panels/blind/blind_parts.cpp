#include "ui/panels/blind/blind_parts.h"

#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QPushButton>
#include <QVBoxLayout>

namespace stillroom::ui {

QLabel* paragraph(const QString& text, Type type, Token ink) {
    auto* label = new WrapLabel;
    label->setText(text);
    label->setFont(Theme::current().font(type));
    auto palette = label->palette();
    // On a page the text role is asked, on the window the other one.
    for (const auto role : {QPalette::WindowText, QPalette::Text})
        palette.setColor(role, Theme::current().color(ink));
    label->setPalette(palette);
    label->setMinimumWidth(1);
    label->setAlignment(Qt::AlignLeft | Qt::AlignTop);
    return label;
}

QLabel* blindCaption(const QString& text, QWidget* buddy) {
    auto* label = paragraph(text, Type::Caption, Token::Ink2);
    // A mnemonic needs rich or automatic text to be read as one.
    label->setTextFormat(Qt::AutoText);
    label->setBuddy(buddy);
    return label;
}

QPushButton* blindButton(const QString& text, bool act) {
    auto* button = new QPushButton(text);
    button->setAutoDefault(false);
    if (act) button->setProperty("act", true);
    return button;
}

QVBoxLayout* blindColumn(QWidget* widget, int spacing) {
    auto* column = new QVBoxLayout(widget);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(Theme::current().pxInt(spacing));
    return column;
}

} // namespace stillroom::ui
