#include "ui/plots/stand_grid.h"

#include "ui/plots/plot_text.h"
#include "ui/theme/theme.h"

#include <QPainter>

#include <algorithm>

namespace stillroom::ui {

using namespace Qt::Literals::StringLiterals;

namespace {

constexpr double kSide = 16;
constexpr double kNames = 78;
constexpr double kUnits = 62;
constexpr double kHead = 34;
constexpr double kRow = 25;

double columnWidth(const StandColumn& column, const Look& look) {
    double widest = textWidth(column.head, Type::Heading, look);
    for (const auto& cell : column.cells)
        widest = std::max(widest, textWidth(cell, column.strong ? Type::ReadingServed : Type::Reading, look));
    return std::max(look.px(64), widest + look.px(24));
}

} // namespace

std::vector<StandGridBox> standColumns(const StandGridValues& values, double width, const Look& look) {
    const double left = look.px(kSide + kNames + kUnits);
    double room = width - left - look.px(6);
    std::vector<std::size_t> shown;
    const auto take = [&](std::size_t i) {
        const double wide = columnWidth(values.columns[i], look);
        if (wide > room && !shown.empty()) return false;
        room -= wide;
        shown.push_back(i);
        return true;
    };
    const auto count = values.columns.size();
    std::size_t strong = count;
    std::size_t quiet = count;
    for (std::size_t i = 0; i < count; ++i) {
        if (values.columns[i].strong) strong = i;
        if (values.columns[i].quiet) quiet = i;
    }
    if (strong < count) take(strong);
    if (count > 0 && strong != 0) take(0);
    for (std::size_t i = std::min(strong, count); i-- > 1;)
        if (!take(i)) break;
    if (quiet < count) take(quiet);
    std::sort(shown.begin(), shown.end());
    std::vector<StandGridBox> boxes;
    double x = left;
    for (const auto i : shown) {
        const double wide = columnWidth(values.columns[i], look);
        boxes.push_back({i, x, x + wide});
        x += wide;
    }
    return boxes;
}

void paintStandGrid(QPainter& painter, const QRectF& box, const StandGridValues& values, const Look& look) {
    painter.save();
    painter.translate(box.topLeft());
    const auto columns = standColumns(values, box.width(), look);
    const double head = look.px(kHead);
    const double row = look.px(kRow);
    const double bottom = head + row * static_cast<double>(values.names.size());
    for (const auto& at : columns)
        if (values.columns[at.column].strong)
            painter.fillRect(QRectF(at.left + look.px(4), 0, at.right - at.left - look.px(2), bottom),
                             look.color(Token::Well));
    painter.fillRect(QRectF(0, head, box.width(), look.px(1)), look.color(Token::RuleStrong));
    for (qsizetype i = 0; i < values.names.size(); ++i) {
        const double y = head + row * (static_cast<double>(i) + 0.5);
        drawLabel(painter, {look.px(kSide), y}, Stand::Left, values.names[i], Type::Reading, Token::Ink,
                  look);
        drawLabel(painter, {look.px(kSide + kNames), y}, Stand::Left, values.units.value(i), Type::Unit,
                  Token::Ink3, look, look.px(kUnits));
    }
    for (const auto& at : columns) {
        const auto& column = values.columns[at.column];
        const double right = at.right - look.px(8);
        const Token ink = column.quiet ? Token::Ink2 : Token::Ink;
        drawLabel(painter, {right, head / 2 + look.px(2)}, Stand::Right, column.head,
                  column.strong ? Type::Heading : Type::Control, ink, look);
        for (qsizetype i = 0; i < column.cells.size(); ++i)
            drawLabel(painter, {right, head + row * (static_cast<double>(i) + 0.5)}, Stand::Right,
                      column.cells[i], column.strong ? Type::ReadingServed : Type::Reading, ink, look);
    }
    painter.restore();
}

StandGrid::StandGrid(QWidget* parent) : PlotOf(tr("Readings by step"), parent) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

QString StandGrid::words() const {
    QStringList parts;
    for (const auto& column : m_values.columns) {
        QStringList said;
        for (qsizetype i = 0; i < column.cells.size(); ++i)
            if (!column.cells[i].isEmpty())
                said << QString(m_values.names.value(i) + u' ' + column.cells[i] + u' ' +
                                m_values.units.value(i))
                            .trimmed();
        parts << QString(column.head + u": "_s + said.join(u", "_s) + u'.');
    }
    return parts.join(u' ');
}

QList<QStringList> StandGrid::rows() const {
    QStringList heads{tr("reading"), tr("unit")};
    for (const auto& column : m_values.columns)
        heads << column.head;
    QList<QStringList> rows{heads};
    for (qsizetype i = 0; i < m_values.names.size(); ++i) {
        QStringList row{m_values.names[i], m_values.units.value(i)};
        for (const auto& column : m_values.columns)
            row << column.cells.value(i);
        rows << row;
    }
    return rows;
}

QSize StandGrid::sizeHint() const {
    const auto& theme = Theme::current();
    return {
        theme.pxInt(520),
        theme.pxInt(kHead + kRow * static_cast<double>(std::max<qsizetype>(m_values.names.size(), 1)) + 8)};
}

QSize StandGrid::minimumSizeHint() const {
    return {Theme::current().pxInt(280), sizeHint().height()};
}

void StandGrid::paint(QPainter& painter) {
    paintStandGrid(painter, QRectF(rect()), m_values, Theme::current().look());
}

} // namespace stillroom::ui
