#include "ui/delegates/readings_delegate.h"

#include "ui/delegates/paint_text.h"
#include "ui/models/readings_model.h"
#include "ui/text/words.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

namespace stillroom::ui {

void ReadingsDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                             const QModelIndex& index) const {
    const auto* model = static_cast<const ReadingsModel*>(index.model());
    const auto& row = model->row(index.row());
    const Look& look = Theme::current().look();
    const QRectF box = option.rect;
    const bool served = index.column() == ReadingsModel::Served;

    painter->fillRect(box, look.color(served ? Token::Well : Token::Page));
    if (row.newGroup)
        painter->fillRect(QRectF(box.left(), box.top(), box.width(), look.px(1)), look.color(Token::Rule));

    const QRectF cell = box.adjusted(look.px(8), 0, -look.px(8), 0);
    switch (index.column()) {
    case ReadingsModel::Name:
        paintText(*painter, box.adjusted(look.px(16), 0, 0, 0), quantityName(row.quantity),
                  look.font(Type::Reading), look.color(Token::Ink));
        break;
    case ReadingsModel::Unit:
        paintText(*painter, box, row.unit, look.font(Type::Unit), look.color(Token::Ink3));
        break;
    case ReadingsModel::Since: {
        const Token ink = row.direction > 0   ? Token::ChangeUp
                          : row.direction < 0 ? Token::ChangeDown
                                              : Token::Ink3;
        const QFont& font = look.font(Type::Delta);
        // "floor +0.3" where there is room; else the number, with the dots of what is only a bound.
        const bool worded = !row.since.isEmpty() && row.since.front().isLetter();
        if (worded && textWidth(row.since, font) > cell.width()) {
            const bool same = !row.since.back().isDigit(); // "same floor"
            const QString number = row.since.section(QLatin1Char(' '), same ? 0 : -1, same ? 0 : -1);
            const double width = paintText(*painter, cell, number, font, look.color(ink), Qt::AlignRight);
            paintGapUnderline(*painter, cell.right() - width, cell.right(), cell.center().y() + look.px(9),
                              look);
            break;
        }
        paintText(*painter, cell, row.since, font, look.color(ink), Qt::AlignRight);
        break;
    }
    default: {
        const auto stage = static_cast<std::size_t>(ReadingsModel::stageOf(index.column()));
        ReadingPaint how;
        how.font = look.font(served ? Type::ReadingServed : Type::Reading);
        how.ink = look.color(Token::Ink);
        how.changedInk = look.color(Token::Ink);
        if (served) how.changedFrom = row.changedFrom;
        paintReading(*painter, cell, row.stages[stage], how, look);
    }
    }
    if (option.state.testFlag(QStyle::State_HasFocus) && option.widget && option.widget->hasFocus())
        paintFocusFrame(*painter, box.adjusted(look.px(3), look.px(3), -look.px(3), -look.px(3)), look);
}

} // namespace stillroom::ui
