#include "ui/panels/spec_total.h"

#include "ui/delegates/paint_text.h"
#include "ui/theme/theme.h"
#include "ui/widgets/spec_table.h"

#include <QPainter>

namespace stillroom::ui {

SpecTotal::SpecTotal(const SpecTable& table, QWidget* parent) : QWidget(parent), m_table(table) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void SpecTotal::show(const SheetTotal& total) {
    const bool taller = total.takenOut.isEmpty() != m_total.takenOut.isEmpty();
    m_total = total;
    setAccessibleName(tr("Total"));
    setAccessibleDescription(tr("%1 %7 %2, alcohol %3 ml, sugar %4 g, acid %5 g, cost %6")
                                 .arg(total.poured, total.words, total.alcohol.plain(), total.sugar.plain(),
                                      total.acid.plain(), total.cost.plain(), total.unit));
    if (taller) updateGeometry();
    update();
}

QSize SpecTotal::sizeHint() const {
    const auto& theme = Theme::current();
    return {theme.pxInt(200), theme.pxInt(m_total.takenOut.isEmpty() ? 28 : 46)};
}

void SpecTotal::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const Look& look = Theme::current().look();
    painter.fillRect(QRectF(0, 0, width(), look.px(1.5)), look.color(Token::Ink2));
    const double height = look.px(28);
    const auto cell = [&](int column) {
        return QRectF(m_table.columnViewportPosition(column), look.px(1), m_table.columnWidth(column),
                      height);
    };
    QFont strong = look.font(Type::Reading);
    strong.setBold(true);
    const QRectF amount = cell(SpecModel::Amount);
    const double split = amount.left() + look.px(44);
    paintText(painter,
              QRectF(amount.left() - look.px(44), amount.top(), split - amount.left() + look.px(44),
                     amount.height()),
              m_total.poured, strong, look.color(Token::Ink), Qt::AlignRight);
    paintText(painter, QRectF(split + look.px(5), amount.top(), look.px(24), amount.height()), m_total.unit,
              look.font(Type::Control), look.color(Token::Ink2));
    paintText(painter, cell(SpecModel::Name).adjusted(look.px(2), 0, 0, 0), m_total.words,
              look.font(Type::Control), look.color(Token::Ink2));
    const auto column = [&](int which, const ReadingText& text) {
        if (m_table.isColumnHidden(which)) return;
        ReadingPaint how;
        how.font = strong;
        how.ink = look.color(text.gap ? Token::Gap : Token::Ink);
        how.dots = false;
        paintReading(painter, cell(which).adjusted(0, 0, -look.px(6), 0), text, how, look);
    };
    column(SpecModel::Alcohol, m_total.alcohol);
    column(SpecModel::Sugar, m_total.sugar);
    column(SpecModel::Acid, m_total.acid);
    column(SpecModel::Cost, m_total.cost);
    const QRectF margin = cell(SpecModel::Margin);
    painter.fillRect(QRectF(margin.left(), 0, look.px(1.5), height), look.color(Token::RuleStrong));
    if (!m_total.difference.isEmpty()) {
        const Token ink = m_total.direction < 0   ? Token::ChangeDown
                          : m_total.direction > 0 ? Token::ChangeUp
                                                  : Token::Ink2;
        const double width = paintText(painter, margin.adjusted(look.px(12), 0, 0, 0), m_total.difference,
                                       look.font(Type::Delta), look.color(ink));
        paintText(painter, margin.adjusted(look.px(16) + width, 0, 0, 0), QStringLiteral("ml"),
                  look.font(Type::Unit), look.color(Token::Ink2));
    }
    if (!m_total.takenOut.isEmpty())
        paintText(painter,
                  QRectF(cell(SpecModel::Name).left() + look.px(2), height,
                         width() - cell(SpecModel::Name).left() - look.px(16), look.px(16)),
                  m_total.takenOut, look.font(Type::Caption), look.color(Token::ChangeDown));
}

} // namespace stillroom::ui
