#include "ui/plots/stage_columns.h"

#include "ui/plots/plot_text.h"
#include "ui/text/numbers.h"
#include "ui/theme/marks.h"
#include "ui/theme/theme.h"

#include <QPainter>

#include <algorithm>
#include <array>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {
constexpr double kColumnWidth = 32;
constexpr std::array<Token, 4> kStageInk = {Token::StageMeasured, Token::StageMixed, Token::StageServed,
                                            Token::StageHeld};
} // namespace

std::vector<StageColumnBox> stageColumnGeometry(const StageColumnsValues& values, QSizeF size,
                                                const Look& look) {
    double most = 0;
    for (const auto& column : values.columns)
        most = std::max(most, column.totalMl.value_or(0));
    const double room = std::max(1.0, size.height() - look.px(4));
    const double perMl = most > 0 ? room / most : 0;
    const double bottom = size.height() - look.px(2);
    std::vector<StageColumnBox> boxes;
    for (std::size_t i = 0; i < values.columns.size(); ++i) {
        const auto& column = values.columns[i];
        const double centre = i < values.centres.size() ? values.centres[i]
                                                        : size.width() * (static_cast<double>(i) + 0.5) /
                                                              static_cast<double>(values.columns.size());
        const double width = look.px(kColumnWidth);
        const double left = centre - width / 2;
        StageColumnBox box;
        const double tall = column.totalMl ? *column.totalMl * perMl : room * 0.8;
        box.outline = QRectF(left, bottom - tall, width, tall);
        if (column.totalMl) {
            const double alcohol = std::clamp(column.alcoholMl, 0.0, *column.totalMl) * perMl;
            const double sugar =
                std::clamp(column.sugarMl, 0.0, std::max(0.0, *column.totalMl - column.alcoholMl)) * perMl;
            box.alcohol = QRectF(left, bottom - alcohol, width, alcohol);
            box.sugar = QRectF(left, bottom - alcohol - sugar, width, sugar);
        }
        boxes.push_back(box);
    }
    return boxes;
}

void paintStageColumns(QPainter& painter, const QRectF& box, const StageColumnsValues& values,
                       const Look& look) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.translate(box.topLeft());
    const auto boxes = stageColumnGeometry(values, box.size(), look);
    for (std::size_t i = 0; i < boxes.size(); ++i) {
        const auto& column = values.columns[i];
        const auto ink = column.served ? Token::Ink : kStageInk[std::min(i, kStageInk.size() - 1)];
        if (!column.totalMl) {
            auto pen = look.pen(Token::RuleStrong, 1);
            pen.setDashPattern({3, 3});
            painter.setPen(pen);
            painter.setBrush(Qt::NoBrush);
            painter.drawRect(boxes[i].outline);
            continue;
        }
        painter.fillRect(boxes[i].outline, look.color(Token::Page));
        painter.fillRect(boxes[i].alcohol, look.color(Token::Ink2));
        QPainterPath sugar;
        sugar.addRect(boxes[i].sugar);
        paintHatch(painter, sugar, look.px(3), look.pen(column.sugarAtLeast ? Token::Gap : Token::Ink2, 0.9));
        painter.setPen(look.pen(ink, column.served ? 2 : 1.2));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(boxes[i].outline);
    }
    painter.restore();
}

StageColumns::StageColumns(QWidget* parent)
    : PlotOf(u"Stages drawn to volume: alcohol, sugar, the rest water"_s, parent) {}

QString StageColumns::words() const {
    QStringList parts;
    for (const auto& column : m_values.columns)
        parts << (column.totalMl
                      ? u"%1: %2 ml, of it %3 ml alcohol and %4%5 ml sugar."_s.arg(
                            column.name, number(*column.totalMl, 1), number(column.alcoholMl, 1),
                            column.sugarAtLeast ? u"at least "_s : QString(), number(column.sugarMl, 1))
                      : u"%1: volume not known."_s.arg(column.name));
    return parts.join(u' ');
}

QList<QStringList> StageColumns::rows() const {
    QList<QStringList> rows{{u"stage"_s, u"ml"_s, u"alcohol ml"_s, u"sugar ml"_s}};
    for (const auto& column : m_values.columns)
        rows << QStringList{column.name, column.totalMl ? number(*column.totalMl, 1) : u"?"_s,
                            number(column.alcoholMl, 1), number(column.sugarMl, 1)};
    return rows;
}

QSize StageColumns::sizeHint() const {
    const auto& theme = Theme::current();
    return {theme.pxInt(300), theme.pxInt(54)};
}

void StageColumns::paint(QPainter& painter) {
    paintStageColumns(painter, QRectF(rect()), m_values, Theme::current().look());
}

} // namespace stillroom::ui
