#include "ui/delegates/pick_row.h"

#include "ui/plots/plot_text.h"
#include "ui/theme/theme.h"

#include <QPainter>
#include <QStringList>

namespace stillroom::ui {

PickDelegate::PickDelegate(const std::vector<PickRow>& rows, QObject* parent)
    : QStyledItemDelegate(parent),
      m_rows(rows) {}

QSize PickDelegate::sizeHint(const QStyleOptionViewItem&, const QModelIndex& index) const {
    const auto& row = m_rows[static_cast<std::size_t>(index.data(kRowRole).toInt())];
    return {100, Theme::current().pxInt(row.detail.isEmpty() ? 30 : 46)};
}

void PickDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
    const auto& row = m_rows[static_cast<std::size_t>(index.data(kRowRole).toInt())];
    const auto& look = Theme::current().look();
    const QRectF box(option.rect);
    const bool selected = option.state & QStyle::State_Selected;
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->fillRect(box, look.color(selected ? Token::Selection : Token::Page));
    if (selected)
        painter->fillRect(QRectF(box.left(), box.top(), look.px(4), box.height()), look.color(Token::Intent));
    const double top = box.top() + (row.detail.isEmpty() ? box.height() / 2 : look.px(15));
    double x = box.left() + look.px(14);
    if (row.mark)
        paintStateMark(*painter, QPointF(x + look.px(5), top), *row.mark, look, look.color(Token::Ink));
    x += look.px(20);
    const double right = box.right() - look.px(12);
    const double asideWidth = textWidth(row.aside, Type::Caption, look);
    drawLabel(*painter, QPointF(right, top), Stand::Right, row.aside, Type::Caption, Token::Ink2, look);
    drawLabel(*painter, QPointF(x, top), Stand::Left, row.title, Type::Line, Token::Ink, look,
              right - asideWidth - look.px(10) - x);
    if (!row.detail.isEmpty())
        drawLabel(*painter, QPointF(x, box.top() + look.px(34)), Stand::Left, row.detail, Type::Unit,
                  Token::Ink2, look, right - x);
    painter->restore();
}

QString spokenRow(const PickRow& row) {
    QStringList said{row.title};
    if (row.mark) said << stateWord(*row.mark);
    for (const auto& text : {row.aside, row.detail})
        if (!text.isEmpty()) said << text;
    return said.join(QStringLiteral(", "));
}

} // namespace stillroom::ui
