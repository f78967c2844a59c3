#include "ui/delegates/shelf_delegate.h"

#include "ui/delegates/paint_text.h"
#include "ui/models/shelf_model.h"
#include "ui/theme/icons.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

namespace stillroom::ui {

QSize ShelfDelegate::sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const {
    return {Theme::current().pxInt(120), Theme::current().pxInt(30)};
}

void ShelfDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                          const QModelIndex& index) const {
    const auto* model = static_cast<const ShelfModel*>(index.model());
    const auto& row = model->row(index.row());
    const Look& look = Theme::current().look();
    const QRectF box = option.rect;
    const double edge = look.px(12);

    if (row.sort == ShelfModel::Sort::Heading) {
        const QRectF text = box.adjusted(edge, look.px(8), -edge, 0);
        paintText(*painter, text, row.name, look.font(Type::Heading), look.color(Token::Ink2));
        paintText(*painter, text, row.number, look.font(Type::Caption), look.color(Token::Ink3),
                  Qt::AlignRight);
        return;
    }
    const bool selected = option.state.testFlag(QStyle::State_Selected);
    if (selected) {
        painter->fillRect(box, look.color(Token::Selection));
        painter->fillRect(QRectF(box.left(), box.top(), look.px(3), box.height()), look.color(Token::Intent));
    } else if (option.state.testFlag(QStyle::State_MouseOver)) {
        painter->fillRect(box, look.color(Token::Well));
    }

    const QPointF mark(box.left() + look.px(18), box.center().y());
    const QColor ink = look.color(row.binned ? Token::Ink3 : Token::Ink);
    if (row.sort == ShelfModel::Sort::Preparation) {
        const double size = look.px(15);
        paintIcon(*painter, QRectF(mark.x() - size / 2, mark.y() - size / 2, size, size), u"preparation",
                  look.color(Token::Ink2));
    } else {
        const StateMark state = row.binned                      ? StateMark::SetAside
                                : row.draftDiffers || !row.kept ? StateMark::Draft
                                : row.hasPublished              ? StateMark::Published
                                : row.hasHouse                  ? StateMark::House
                                                                : StateMark::Kept;
        paintStateMark(*painter, mark, state, look, ink, 5.5);
    }

    QRectF text(box.left() + look.px(34), box.top(), box.width() - look.px(34) - edge, box.height());
    double numberWidth = 0;
    if (!row.number.isEmpty()) {
        QFont font = look.font(Type::Reading);
        numberWidth = paintText(*painter, text, row.number, font,
                                look.color(row.gap ? Token::Gap : Token::Ink2), Qt::AlignRight);
        if (row.gap)
            paintGapUnderline(*painter, text.right() - numberWidth, text.right(),
                              box.center().y() + look.px(8), look);
        numberWidth += look.px(8);
    }
    QFont font = look.font(Type::Line);
    if (selected) font.setBold(true);
    paintText(*painter, text.adjusted(0, 0, -numberWidth, 0), row.name, font, ink);
    if (option.state.testFlag(QStyle::State_HasFocus) &&
        option.state.testFlag(QStyle::State_KeyboardFocusChange))
        paintFocusFrame(*painter, box.adjusted(look.px(3), look.px(3), -look.px(3), -look.px(3)), look);
}

} // namespace stillroom::ui
