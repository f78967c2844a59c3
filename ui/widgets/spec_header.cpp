#include "ui/widgets/spec_header.h"

#include "ui/delegates/paint_text.h"
#include "ui/models/spec_model.h"
#include "ui/theme/theme.h"

namespace stillroom::ui {

SpecHeader::SpecHeader(QWidget* parent) : QHeaderView(Qt::Horizontal, parent) {
    setSectionsClickable(false);
    setHighlightSections(false);
    setSectionResizeMode(QHeaderView::Fixed);
    setMinimumSectionSize(1);
}

QSize SpecHeader::sizeHint() const {
    return {0, Theme::current().pxInt(37)};
}

void SpecHeader::paintSection(QPainter* painter, const QRect& rect, int section) const {
    const Look& look = Theme::current().look();
    const QRectF box = rect;
    painter->fillRect(box, look.color(Token::Page));
    painter->fillRect(QRectF(box.left(), box.bottom() - look.px(1), box.width(), look.px(1)),
                      look.color(Token::RuleStrong));
    const auto lines = model()->headerData(section, orientation()).toString().split(QLatin1Char('\n'));
    const bool number = section >= SpecModel::Alcohol && section <= SpecModel::Cost;
    const double line = look.px(13);
    double inset = look.px(2);
    if (section == SpecModel::Margin) inset = look.px(12);
    if (section == SpecModel::Amount) inset = look.px(14);
    const double right = number ? look.px(6) : 0;
    double top = box.bottom() - look.px(6) - line * static_cast<double>(lines.size());
    for (const auto& text : lines) {
        paintText(
            *painter,
            QRectF(box.left() + (number ? 0 : inset), top, box.width() - right - (number ? 0 : inset), line),
            text, look.font(Type::Caption), look.color(Token::Ink3), number ? Qt::AlignRight : Qt::AlignLeft);
        top += line;
    }
}

} // namespace stillroom::ui
