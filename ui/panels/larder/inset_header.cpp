#include "ui/panels/larder/inset_header.h"

#include "ui/delegates/paint_text.h"
#include "ui/theme/theme.h"

namespace stillroom::ui {

InsetHeader::InsetHeader(QWidget* parent) : QHeaderView(Qt::Horizontal, parent) {
    setSectionResizeMode(QHeaderView::Fixed);
    setHighlightSections(false);
    setSectionsClickable(false);
}

void InsetHeader::paintSection(QPainter* painter, const QRect& rect, int section) const {
    const Look& look = Theme::current().look();
    const auto align = static_cast<Qt::Alignment>(
        model()->headerData(section, Qt::Horizontal, Qt::TextAlignmentRole).toInt());
    const QRectF box(rect);
    paintText(*painter, box.adjusted(look.px(8), 0, -look.px(8), 0),
              model()->headerData(section, Qt::Horizontal).toString(), look.font(Type::Caption),
              look.color(Token::Ink2), align.testFlag(Qt::AlignRight) ? Qt::AlignRight : Qt::AlignLeft);
    painter->fillRect(QRectF(box.left(), box.bottom(), box.width(), 1), look.color(Token::RuleStrong));
}

} // namespace stillroom::ui
